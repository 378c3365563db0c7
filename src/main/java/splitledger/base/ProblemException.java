package splitledger.base;

import java.util.List;
import java.util.stream.Collectors;

/** Input that cannot be evaluated, with every problem that was found, not the first one only. */
public final class ProblemException extends Exception {
    private static final long serialVersionUID = 1L;
    private static final int SHOWN = 50;

    private final transient List<Problem> problems;

    /**
     * All problems of one reading.
     *
     * @param problems at least one
     */
    public ProblemException(List<Problem> problems) {
        super(textOf(problems));
        this.problems = List.copyOf(problems);
    }

    /** One problem alone. */
    public ProblemException(Problem problem) {
        this(List.of(problem));
    }

    /** Every problem, in the order of file and row. */
    public List<Problem> problems() {
        return problems;
    }

    private static String textOf(List<Problem> problems) {
        if (problems.isEmpty()) {
            throw new IllegalArgumentException("problems is empty, must hold at least one");
        }
        final String shown =
                problems.stream().limit(SHOWN).map(Problem::text).collect(Collectors.joining("\n"));
        return problems.size() <= SHOWN
                ? shown
                : shown + "\nand " + (problems.size() - SHOWN) + " more";
    }
}
