package splitledger.statistics;

import java.util.Arrays;

/**
 * Count, mean and sum of squares about the mean of some numbers. For few and many values alike; for
 * a whole array {@link #ofAll} works in two passes and keeps more digits than adding one by one.
 *
 * @param count how many, {@code >= 1}
 * @param mean their mean
 * @param squares sum of squared deviations from the mean
 */
public record Moments(int count, double mean, double squares) {

    /** One value. */
    public static Moments of(double value) {
        return new Moments(1, value, 0);
    }

    /**
     * All values of an array, in two passes with the correction for the rounded mean (Chan, Golub
     * and LeVeque, Am. Stat. 37 (1983) 242).
     *
     * @param values at least one
     */
    public static Moments ofAll(double... values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("values is empty, must hold at least one");
        }
        final double rough = Arrays.stream(values).sum() / values.length;
        double rest = 0;
        double squares = 0;
        for (double v : values) {
            final double d = v - rough;
            rest += d;
            squares += d * d;
        }
        final double correction = rest / values.length;
        return new Moments(values.length, rough + correction, squares - rest * correction);
    }

    /** These and others together. */
    public Moments with(Moments other) {
        final int n = count + other.count;
        final double d = other.mean - mean;
        return new Moments(
                n,
                mean + d * other.count / n,
                squares + other.squares + d * d * count * other.count / n);
    }

    /** squares / (count - 1); NaN for one value. */
    public double variance() {
        return count > 1 ? squares / (count - 1) : Double.NaN;
    }

    /** Root of {@link #variance()}. */
    public double sd() {
        return Math.sqrt(variance());
    }
}
