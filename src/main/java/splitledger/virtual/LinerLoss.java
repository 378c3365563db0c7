package splitledger.virtual;

import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;

/**
 * Decomposition of one compound while its vapour passes the liner: first order, rate after
 * Arrhenius, time from the gas flow.
 */
final class LinerLoss {
    /** Molar gas constant, J/(mol K): CODATA 2018, exact. */
    private static final double GAS_CONSTANT = 8.31446261815324;

    private static final double KELVIN = 273.15;
    private static final double REFERENCE_TEMPERATURE = 25;
    private static final double REFERENCE_PRESSURE = 101.325;
    private static final double SECONDS = 60;

    private final Design design;

    LinerLoss(Design design) {
        this.design = design;
    }

    /**
     * Time in the liner, s: t = V (p / p_ref) (T_ref / T) / F with F = ratio x column flow, the
     * flow being stated at 25 degC and 101.325 kPa. Conservation of the amount of an ideal gas.
     *
     * @param ratio total flow to column flow
     * @param temperature degC
     */
    double residenceTime(double ratio, double temperature) {
        final Design.Inlet inlet = design.inlet();
        final double flow = ratio * inlet.columnFlow().value();
        return SECONDS
                * inlet.linerVolume().value()
                * (inlet.pressure().value() / REFERENCE_PRESSURE)
                * ((REFERENCE_TEMPERATURE + KELVIN) / (temperature + KELVIN))
                / flow;
    }

    /** Rate of decomposition, 1/s: k = k_0 exp(-E/R (1/T - 1/T_0)). */
    double rate(double temperature) {
        final Design.Loss loss = design.loss();
        final double kelvin = 1 / (temperature + KELVIN);
        final double reference = 1 / (loss.rateTemperature().value() + KELVIN);
        return loss.rate().value()
                * FastMath.exp(
                        -1000
                                * loss.activationEnergy().value()
                                / GAS_CONSTANT
                                * (kelvin - reference));
    }

    /** Share of the parent that is decomposed: 1 - exp(-k t). */
    double decomposed(double ratio, double temperature) {
        return -FastMath.expm1(-rate(temperature) * residenceTime(ratio, temperature));
    }

    /**
     * What leaves the liner.
     *
     * @param masses what enters, ng by compound
     * @return the same with less parent and more of the products, ng by compound; moles are kept
     */
    Map<String, Double> after(Map<String, Double> masses, double ratio, double temperature) {
        final Design.Loss loss = design.loss();
        final double parent = masses.getOrDefault(loss.parent(), 0.0);
        if (parent == 0) {
            return masses;
        }
        final double lost = parent * decomposed(ratio, temperature);
        final Map<String, Double> left = new LinkedHashMap<>(masses);
        left.put(loss.parent(), parent - lost);
        loss.products()
                .forEach(
                        (product, share) ->
                                left.merge(
                                        product,
                                        lost
                                                * share.fraction()
                                                * design.compound(product).molarMass()
                                                / design.compound(loss.parent()).molarMass(),
                                        Double::sum));
        return left;
    }
}
