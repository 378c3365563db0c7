package splitledger.study;

import java.util.List;

/**
 * A calculation worked by hand, step by step.
 *
 * @param steps in order
 */
public record Trail(List<Step> steps) {
    /** No steps. */
    public static final Trail NONE = new Trail(List.of());

    public Trail {
        steps = List.copyOf(steps);
    }

    /**
     * One line.
     *
     * @param words what is done
     * @param formula with symbols
     * @param numbers the same with numbers put in
     * @param value what comes out
     * @param unit its unit
     */
    public record Step(String words, String formula, String numbers, double value, String unit) {}
}
