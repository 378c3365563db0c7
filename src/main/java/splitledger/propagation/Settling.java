package splitledger.propagation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import splitledger.propagation.Batches.Part;
import splitledger.statistics.Quantiles;

/**
 * When an adaptive run may end (JCGM 101:2008, 7.9.2 and 7.9.4): twice the standard deviation of
 * the average over batches of each of mean, standard uncertainty and both ends must not exceed the
 * numerical tolerance.
 */
final class Settling {
    private static final double SPARE = 1.1;

    private final double coverage;
    private final boolean allMoments;

    /**
     * The rule.
     *
     * @param allMoments whether mean and standard uncertainty decide too; the ends always do
     */
    Settling(double coverage, boolean allMoments) {
        this.coverage = coverage;
        this.allMoments = allMoments;
    }

    /**
     * Half a unit of the last of so many significant digits of u: u = c 10^l with c a whole number
     * of that many digits gives 10^l / 2 (JCGM 101:2008, 7.9.2).
     *
     * @param u {@code >= 0}; of 0 the tolerance is 0
     */
    static double tolerance(double u, int digits) {
        if (!(u > 0 && u < Double.POSITIVE_INFINITY)) {
            return 0;
        }
        final BigDecimal rounded =
                new BigDecimal(u).round(new MathContext(digits, RoundingMode.HALF_EVEN));
        final int exponent = rounded.precision() - rounded.scale() - digits;
        return BigDecimal.valueOf(0.5).scaleByPowerOfTen(exponent).doubleValue();
    }

    /**
     * Digits of u that mean something: two where the first is 1 or 2, else one (common practice of
     * rounding, no source; JCGM 101:2008, 7.9.2 leaves the number to the user).
     */
    static int meaningfulDigits(double u) {
        if (!(u > 0 && u < Double.POSITIVE_INFINITY)) {
            return 1;
        }
        final BigDecimal rounded =
                new BigDecimal(u).round(new MathContext(2, RoundingMode.HALF_EVEN));
        return rounded.unscaledValue().toString().charAt(0) <= '2' ? 2 : 1;
    }

    /** Standard deviation of the average over batches of the ends, of the less certain one. */
    static double errorOfEnds(Part[] parts) {
        if (parts.length < 2) {
            return 0;
        }
        final double[] lower = new double[parts.length];
        final double[] upper = new double[parts.length];
        for (int i = 0; i < parts.length; i++) {
            lower[i] = parts[i].lower();
            upper[i] = parts[i].upper();
        }
        return Math.max(errorOfMean(lower), errorOfMean(upper));
    }

    /** The first number of batches, from {@code least} on, that is enough; 0 if none is. */
    int settledAt(Part[] parts, int least) {
        for (int h = least; h <= parts.length; h++) {
            if (excess(parts, h) <= 1) {
                return h;
            }
        }
        return 0;
    }

    /** How many batches will probably be enough, by the square root law, with a tenth to spare. */
    int expected(Part[] parts) {
        final double excess = excess(parts, parts.length);
        final double h = SPARE * parts.length * excess * excess;
        return (int) Math.min(Integer.MAX_VALUE, Math.max(parts.length + 1.0, Math.ceil(h)));
    }

    /** Twice the largest standard deviation of an average over the tolerance; 1 or less: enough. */
    private double excess(Part[] parts, int h) {
        final double[] lower = new double[h];
        final double[] upper = new double[h];
        final double[] mean = new double[h];
        final double[] deviation = new double[h];
        double variance = 0;
        for (int i = 0; i < h; i++) {
            lower[i] = parts[i].lower();
            upper[i] = parts[i].upper();
            mean[i] = parts[i].mean();
            deviation[i] = parts[i].deviation();
            variance += deviation[i] * deviation[i] / h;
        }
        double most = Math.max(errorOfMean(lower), errorOfMean(upper));
        if (allMoments) {
            most = Math.max(most, Math.max(errorOfMean(mean), errorOfMean(deviation)));
        }
        final double width = (average(upper) - average(lower)) / 2;
        final double u =
                allMoments ? Math.sqrt(variance) : width / Quantiles.normal(0.5 + coverage / 2);
        if (most == 0) {
            return 0;
        }
        return 2 * most / tolerance(u, MonteCarlo.DIGITS);
    }

    private static double average(double[] x) {
        double sum = 0;
        for (double v : x) {
            sum += v - x[0];
        }
        return x[0] + sum / x.length;
    }

    private static double errorOfMean(double[] x) {
        final double mean = average(x);
        double squares = 0;
        for (double v : x) {
            squares += (v - mean) * (v - mean);
        }
        return Math.sqrt(squares / (x.length - 1) / x.length);
    }
}
