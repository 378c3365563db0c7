package splitledger.study;

import java.util.Comparator;
import java.util.List;

/**
 * One quantity with its answer, verdicts, rows and how it came about.
 *
 * @param key what it is about
 * @param answer what is known
 * @param judgements one for each criterion that is about it; empty: information
 * @param rows rows of the table it rests on
 * @param trail worked by hand
 * @param note what a reader must know beside the number; empty if nothing
 */
public record Finding(
        Key key, Answer answer, List<Judgement> judgements, Rows rows, Trail trail, String note)
        implements Comparable<Finding> {
    public Finding {
        judgements = List.copyOf(judgements);
    }

    /** A finding that no criterion has seen yet. */
    public static Finding of(Key key, Answer answer, Rows rows, String note) {
        return new Finding(key, answer, List.of(), rows, Trail.NONE, note);
    }

    /** The same with a trail. */
    public Finding with(Trail worked) {
        return new Finding(key, answer, judgements, rows, worked, note);
    }

    /** The same with judgements. */
    public Finding judged(List<Judgement> all) {
        return new Finding(key, answer, all, rows, trail, note);
    }

    /** The gravest verdict of all criteria. */
    public Verdict verdict() {
        return judgements.stream()
                .map(Judgement::verdict)
                .max(Comparator.naturalOrder())
                .orElse(Verdict.INFORMATION);
    }

    @Override
    public int compareTo(Finding other) {
        return key.compareTo(other.key);
    }
}
