package splitledger.virtual;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.Map;
import splitledger.statistics.RandomStream;

/**
 * From true areas to a line of the export: noise, the threshold under which no peak is found, and
 * rounding. A forced window is always measured, so that a blank gives small areas of either sign.
 */
final class Integrator {
    private final Design design;
    private final Streams streams;
    private final MathContext printed;

    Integrator(Design design) {
        this.design = design;
        this.streams = new Streams(design.seed());
        this.printed =
                new MathContext(design.integration().significantDigits(), RoundingMode.HALF_EVEN);
    }

    /**
     * The peaks that are printed, in the order of the columns.
     *
     * @param areas pA*s by compound that reaches the detector
     */
    Map<String, Double> peaks(Map<String, Double> areas, String flask, String number) {
        final Map<String, Double> peaks = new LinkedHashMap<>();
        for (String compound : design.compounds().keySet()) {
            final boolean forced = design.forced().contains(compound);
            if (forced || areas.containsKey(compound)) {
                final double area =
                        measured(areas.getOrDefault(compound, 0.0), flask, number, compound);
                if (forced || area >= design.integration().threshold().value()) {
                    peaks.put(compound, new BigDecimal(area).round(printed).doubleValue());
                }
            }
        }
        return peaks;
    }

    private double measured(double area, String flask, String number, String compound) {
        final RandomStream random = streams.of("integration", flask, number, compound);
        final double proportional = design.integration().proportional().fraction();
        return area * (1 + proportional * random.nextNormal())
                + design.integration().constant().value() * random.nextNormal();
    }
}
