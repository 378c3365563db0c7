package splitledger.virtual;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import splitledger.statistics.RandomStream;

/**
 * From true areas to a line of the export: noise, the threshold under which no peak is found, and
 * rounding. A forced window is always measured, so that a blank gives small areas of either sign.
 */
final class Integrator {
    private static final int LARGEST_POWER = 22;
    private static final double[] POWERS = powers();

    /** How near to a tie the quick way of rounding leaves the decision to the exact one. */
    private static final double TIE = 1e-3;

    private final Streams streams;
    private final Peaks peaks;
    private final boolean[] forced;
    private final double proportional;
    private final double constant;
    private final double threshold;
    private final double outliers;
    private final double outlierSize;
    private final int digits;

    Integrator(Design design, Peaks peaks) {
        this.peaks = peaks;
        this.streams = new Streams(design.seed());
        this.forced = new boolean[peaks.size()];
        design.forced().forEach(name -> forced[peaks.of(name)] = true);
        this.proportional = design.integration().proportional().fraction();
        this.constant = design.integration().constant().value();
        this.threshold = design.integration().threshold().value();
        this.outliers = design.mishaps().outliers().fraction();
        this.outlierSize = design.mishaps().outlierSize().fraction();
        this.digits = design.integration().significantDigits();
    }

    /**
     * The peaks that are printed.
     *
     * @param areas pA*s that reach the detector; {@code NaN} where there is no such peak
     * @return pA*s; {@code NaN} where no peak was found
     */
    double[] peaks(double[] areas, String flask, String number) {
        final long name = Streams.name("integration", flask, number);
        final double[] printed = peaks.nothing();
        for (int i = 0; i < areas.length; i++) {
            final boolean there = !Double.isNaN(areas[i]);
            if (forced[i] || there) {
                final double area = measured(there ? areas[i] : 0, name, i);
                if (forced[i] || area >= threshold) {
                    printed[i] = rounded(outlier(area, flask, number, i), digits);
                }
            }
        }
        return printed;
    }

    private double measured(double area, long name, int peak) {
        final RandomStream random = streams.of(name, peaks.streamName(peak));
        return area * (1 + proportional * random.nextNormal()) + constant * random.nextNormal();
    }

    private double outlier(double area, String flask, String number, int peak) {
        if (outliers == 0) {
            return area;
        }
        final RandomStream random = streams.of("outlier", flask, number, peaks.name(peak));
        if (random.nextDouble() >= outliers) {
            return area;
        }
        return area * (random.nextDouble() < 0.5 ? 1 + outlierSize : 1 - outlierSize);
    }

    /** The nearest number of so many decimal digits, ties to even. */
    static double rounded(double value, int digits) {
        final double size = Math.abs(value);
        if (size > 1e-6 && size < 1e9) {
            int exponent = 0;
            while (exponent < 9 && size >= POWERS[exponent]) {
                exponent++;
            }
            while (exponent <= 0 && exponent > -6 && size * POWERS[1 - exponent] < 1) {
                exponent--;
            }
            final int decimals = digits - exponent;
            if (decimals >= 0 && decimals <= LARGEST_POWER && digits <= 9) {
                final double scaled = value * POWERS[decimals];
                final double whole = Math.rint(scaled);
                if (0.5 - Math.abs(scaled - whole) > TIE) {
                    return whole / POWERS[decimals];
                }
            }
        }
        return new BigDecimal(value)
                .round(new MathContext(digits, RoundingMode.HALF_EVEN))
                .doubleValue();
    }

    private static double[] powers() {
        final double[] powers = new double[LARGEST_POWER + 1];
        powers[0] = 1;
        for (int i = 1; i < powers.length; i++) {
            powers[i] = 10 * powers[i - 1];
        }
        return powers;
    }
}
