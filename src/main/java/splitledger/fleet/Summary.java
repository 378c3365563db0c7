package splitledger.fleet;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.dossier.Shelf;
import splitledger.study.Evaluation;
import splitledger.study.Verdict;

/**
 * What one dossier holds, in numbers.
 *
 * @param findings how many
 * @param budgets how many
 * @param verdicts how many findings of each verdict; every verdict has its entry
 * @param studyDigest of its manifest
 */
public record Summary(
        int findings, int budgets, SortedMap<Verdict, Integer> verdicts, String studyDigest) {
    public Summary {
        verdicts = Collections.unmodifiableSortedMap(new TreeMap<>(verdicts));
    }

    /** Of an evaluation that was written. */
    public static Summary of(Evaluation evaluation, String studyDigest) {
        final SortedMap<Verdict, Integer> verdicts = none();
        evaluation.findings().forEach(f -> verdicts.merge(f.verdict(), 1, Integer::sum));
        return new Summary(
                evaluation.findings().size(), evaluation.budgets().size(), verdicts, studyDigest);
    }

    /** Of a dossier that was left as it stood. */
    public static Summary of(Shelf.Kept kept) {
        final SortedMap<Verdict, Integer> verdicts = none();
        final int column = kept.results().get(0).indexOf("verdict");
        final List<List<String>> rows = kept.results().subList(1, kept.results().size());
        for (List<String> row : rows) {
            for (Verdict verdict : Verdict.values()) {
                if (verdict.code().equals(row.get(column))) {
                    verdicts.merge(verdict, 1, Integer::sum);
                }
            }
        }
        final int symbol = kept.budgets().get(0).indexOf("symbol");
        final int budgets =
                (int)
                        kept.budgets().stream()
                                .filter(row -> row.get(symbol).equals("combined"))
                                .count();
        return new Summary(rows.size(), budgets, verdicts, kept.studyDigest());
    }

    /** How many findings have a verdict. */
    public int count(Verdict verdict) {
        return verdicts.getOrDefault(verdict, 0);
    }

    /**
     * Whether a requirement is not met.
     *
     * @param strict whether an undecided one counts as not met
     */
    public boolean fallsShort(boolean strict) {
        return count(Verdict.FAILS) > 0
                || count(Verdict.NOT_SHOWN) > 0
                || (strict && count(Verdict.UNDECIDED) > 0);
    }

    private static SortedMap<Verdict, Integer> none() {
        final SortedMap<Verdict, Integer> verdicts = new TreeMap<>();
        Arrays.stream(Verdict.values()).forEach(v -> verdicts.put(v, 0));
        return verdicts;
    }
}
