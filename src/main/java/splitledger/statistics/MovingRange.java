package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;

/**
 * Limits of a chart of individual values from the moving ranges of neighbours: sd = MRbar / d2,
 * centre +- 3 sd (that is 2.66 MRbar), and for the ranges (1 + 3 d3/d2) MRbar (that is 3.267
 * MRbar). Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, from memory; the
 * constants of two normal values are exact here: d2 = 2/sqrt(pi), d3 = sqrt(2 - 4/pi).
 *
 * @param centre mean of the values, in their unit
 * @param meanRange mean of the moving ranges, in the same unit
 * @param sd standard deviation between neighbours, in the same unit; 0 if all are equal
 */
public record MovingRange(double centre, double meanRange, double sd) {
    /** Expected range of two independent values of a standard normal law. */
    public static final double D2 = 2 / FastMath.sqrt(FastMath.PI);

    /** Standard deviation of that range. */
    public static final double D3 = FastMath.sqrt(2 - 4 / FastMath.PI);

    /** How many standard deviations a limit lies from the centre. */
    public static final double WIDTH = 3;

    /**
     * From values in order of time.
     *
     * @param values at least two, all finite
     * @throws IllegalArgumentException if there are fewer, or one is not finite
     */
    public static MovingRange of(double... values) {
        if (values.length < 2) {
            throw new IllegalArgumentException(
                    "values has " + values.length + " numbers, must have at least 2");
        }
        double sum = 0;
        double ranges = 0;
        for (int i = 0; i < values.length; i++) {
            if (!Double.isFinite(values[i])) {
                throw new IllegalArgumentException("values holds " + values[i]);
            }
            sum += values[i];
            ranges += i == 0 ? 0 : Math.abs(values[i] - values[i - 1]);
        }
        final double mean = ranges / (values.length - 1);
        return new MovingRange(sum / values.length, mean, mean / D2);
    }

    /** Lower limit of a value. */
    public double lower() {
        return centre - WIDTH * sd;
    }

    /** Upper limit of a value. */
    public double upper() {
        return centre + WIDTH * sd;
    }

    /** Upper limit of a moving range; the lower one is 0. */
    public double rangeUpper() {
        return meanRange * (1 + WIDTH * D3 / D2);
    }
}
