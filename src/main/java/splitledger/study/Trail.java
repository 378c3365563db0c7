package splitledger.study;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import splitledger.base.Numbers;

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

    /** A number as a calculation by hand shows it: seven significant digits. */
    public static String digits(double value) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            return Double.toString(value);
        }
        return Numbers.text(new BigDecimal(value).round(new MathContext(7)).doubleValue());
    }

    /** The same, in parentheses if negative. */
    public static String signed(double value) {
        return value < 0 ? "(" + digits(value) + ")" : digits(value);
    }
}
