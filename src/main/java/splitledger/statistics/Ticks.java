package splitledger.statistics;

import java.math.BigDecimal;
import java.math.MathContext;

/** Round places that cover a range: steps of 1, 2 or 5 times a power of ten. */
public final class Ticks {
    private static final int WANTED = 6;

    private Ticks() {}

    /**
     * Four to nine places; the first is at or below {@code low}, the last at or above {@code high}.
     *
     * @param low finite
     * @param high finite; equal ends are widened
     */
    public static double[] round(double low, double high) {
        final double least = Math.min(low, high);
        double span = Math.abs(high - low);
        if (!(span > Math.abs(least) * 1e-12)) {
            span = least == 0 ? 1 : Math.abs(least) / 10;
        }
        final BigDecimal step = step(span / (WANTED - 1));
        final BigDecimal first = floor(least, step);
        final int count =
                (int) Math.ceil((least + span - first.doubleValue()) / step.doubleValue() - 1e-9);
        final double[] places = new double[Math.max(1, count) + 1];
        for (int i = 0; i < places.length; i++) {
            places[i] = first.add(step.multiply(BigDecimal.valueOf(i))).doubleValue();
        }
        return places;
    }

    private static BigDecimal floor(double value, BigDecimal step) {
        final double steps = Math.floor(value / step.doubleValue() + 1e-9);
        return step.multiply(BigDecimal.valueOf((long) steps));
    }

    private static BigDecimal step(double rough) {
        final BigDecimal exact = new BigDecimal(rough, MathContext.DECIMAL64);
        final int exponent = exact.precision() - exact.scale() - 1;
        final BigDecimal unit = BigDecimal.ONE.scaleByPowerOfTen(exponent);
        for (int factor : new int[] {1, 2, 5}) {
            final BigDecimal step = unit.multiply(BigDecimal.valueOf(factor));
            // a span of 5e-11 must not miss the step 1e-11 by a rounding
            if (step.doubleValue() >= rough * (1 - 1e-9)) {
                return step;
            }
        }
        return unit.scaleByPowerOfTen(1);
    }
}
