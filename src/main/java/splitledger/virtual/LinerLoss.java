package splitledger.virtual;

import java.util.List;
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
    private final Design.Loss loss;
    private final int parent;
    private final int[] products;

    private final double parentMass;
    private final double[] shares;
    private final double[] masses;

    LinerLoss(Design design, Design.Loss loss, Peaks peaks) {
        this.design = design;
        this.loss = loss;
        parent = peaks.of(loss.parent());
        final List<String> names = List.copyOf(loss.products().keySet());
        products = names.stream().mapToInt(peaks::of).toArray();
        parentMass = design.compound(loss.parent()).molarMass();
        shares = loss.products().values().stream().mapToDouble(Parameter::fraction).toArray();
        masses = names.stream().mapToDouble(p -> design.compound(p).molarMass()).toArray();
    }

    /** All of a design. */
    static List<LinerLoss> of(Design design, Peaks peaks) {
        return design.losses().stream().map(loss -> new LinerLoss(design, loss, peaks)).toList();
    }

    /** What it is about. */
    Design.Loss loss() {
        return loss;
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
     * Takes from the parent what decomposes, and gives it to the products; moles are kept.
     *
     * @param entering what enters the liner, ng; not changed
     * @param leaving what leaves it, ng; changed
     */
    void act(double[] entering, double[] leaving, double ratio, double temperature) {
        if (!(entering[parent] != 0)) {
            return;
        }
        final double lost = entering[parent] * decomposed(ratio, temperature);
        if (Double.isNaN(lost)) {
            return;
        }
        leaving[parent] = leaving[parent] - lost;
        for (int i = 0; i < products.length; i++) {
            final int product = products[i];
            leaving[product] =
                    Peaks.sum(leaving[product], lost * shares[i] * masses[i] / parentMass);
        }
    }
}
