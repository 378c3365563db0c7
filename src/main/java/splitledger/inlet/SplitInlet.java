package splitledger.inlet;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Expression;
import splitledger.propagation.ExpressionException;
import splitledger.propagation.ExpressionParser;
import splitledger.propagation.LawOfPropagation;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;

/**
 * The gas that flows through inlet and column. Laminar flow of an ideal gas through an open tube,
 * the pressure falling along it (Hagen and Poiseuille; textbook, from memory); flows are those of
 * dry gas at the reference temperature and pressure. Septum purge leaves above the sample: it
 * belongs into the balance of gas, not into the split ratio.
 */
public final class SplitInlet {
    private static final double PI = Math.PI;

    /** Gas constant, J/(mol K), exact since 2019. */
    private static final double R = 8.31446261815324;

    private final SortedMap<String, Uncertain> known;

    private SplitInlet(SortedMap<String, Uncertain> known) {
        this.known = known;
    }

    /**
     * An inlet with its column.
     *
     * @param gas carrier gas
     * @param length of the column, m
     * @param diameter inner, m
     * @param head pressure in the inlet, Pa absolute
     * @param outlet pressure at the end of the column, Pa absolute; 0 for vacuum
     * @param oven temperature of the column, K
     * @param referenceTemperature of flows, K
     * @param referencePressure of flows, Pa
     */
    public static SplitInlet of(
            Gas gas,
            Uncertain length,
            Uncertain diameter,
            Uncertain head,
            Uncertain outlet,
            Uncertain oven,
            double referenceTemperature,
            double referencePressure) {
        if (!(head.value() > outlet.value())) {
            throw new IllegalArgumentException(
                    "head = " + head.value() + " Pa, must be above the outlet's " + outlet.value());
        }
        final SortedMap<String, Uncertain> known = new TreeMap<>();
        final double eta = gas.viscosity(oven.value());
        final Root root =
                Root.normal(
                        "inlet:viscosity",
                        Pool.known("inlet:viscosity", "spread of published correlations"),
                        Effect.MODEL,
                        ActsOn.BOTH,
                        "viscosity of " + gas.symbol());
        known.put("eta", Uncertain.of(eta, "Pa s", root, Gas.RELATIVE_UNCERTAINTY * eta));
        known.put("L", length);
        known.put("d", diameter);
        known.put("p_i", head);
        known.put("p_o", outlet);
        known.put("T_c", oven);
        known.put("T_ref", Uncertain.exact(referenceTemperature, "K"));
        known.put("p_ref", Uncertain.exact(referencePressure, "Pa"));
        return new SplitInlet(known);
    }

    /** The same with further values by symbol, in SI units. */
    private SortedMap<String, Uncertain> with(Object... more) {
        final SortedMap<String, Uncertain> all = new TreeMap<>(known);
        for (int i = 0; i < more.length; i += 2) {
            all.put((String) more[i], (Uncertain) more[i + 1]);
        }
        return all;
    }

    /** Flow through the column at reference conditions, m3/s. */
    public Uncertain columnFlow() {
        return worked(
                PI + " * d^4 * (p_i^2 - p_o^2) * T_ref / (256 * eta * L * p_ref * T_c)",
                "m3/s",
                known);
    }

    /** Time that a compound that is not retained spends in the column, s. */
    public Uncertain holdUpTime() {
        return worked(
                "128 * eta * L^2 * (p_i^3 - p_o^3) / (3 * d^2 * (p_i^2 - p_o^2)^2)", "s", known);
    }

    /** Mean linear velocity, m/s: length over hold-up time. */
    public Uncertain linearVelocity() {
        return worked(
                "3 * d^2 * (p_i^2 - p_o^2)^2 / (128 * eta * L * (p_i^3 - p_o^3))", "m/s", known);
    }

    /**
     * Split ratio total to column flow; the other convention, vent to column, is 1 less.
     *
     * @param vent flow of the split vent, in the unit of {@code column}
     * @param column flow through the column
     */
    public static Uncertain splitRatio(Uncertain vent, Uncertain column) {
        final SortedMap<String, Uncertain> flows = new TreeMap<>();
        flows.put("F_v", vent);
        flows.put("F_c", column);
        return worked("(F_v + F_c) / F_c", "1", flows);
    }

    /**
     * Vent flow left by the total flow into the inlet.
     *
     * @param total flow into the inlet, purge included
     * @param purge flow of the septum purge
     * @param column flow through the column, all in one unit
     */
    public static Uncertain ventFlow(Uncertain total, Uncertain purge, Uncertain column) {
        return Uncertain.combine(
                total.value() - purge.value() - column.value(),
                total.unit(),
                new double[] {1, -1, -1},
                List.of(total, purge, column));
    }

    /**
     * Volume of the vapour in the inlet, m3, by the ideal gas law.
     *
     * @param volume injected, m3
     * @param density of the liquid, kg/m3
     * @param molarMass kg/mol
     * @param temperature of the inlet, K
     */
    public Uncertain vapourVolume(
            Uncertain volume, Uncertain density, Uncertain molarMass, Uncertain temperature) {
        return worked(
                "v * rho / M * " + R + " * T_i / p_i",
                "m3",
                with("v", volume, "rho", density, "M", molarMass, "T_i", temperature));
    }

    /**
     * Time that the gas stays in the liner, s: V (p/p_ref) (T_ref/T_inlet) / F, F being vent and
     * column flow at reference conditions.
     *
     * @param liner volume, m3
     * @param temperature of the inlet, K
     * @param flow of vent and column together, m3/s
     */
    public Uncertain residenceTime(Uncertain liner, Uncertain temperature, Uncertain flow) {
        return worked(
                "V * p_i / p_ref * T_ref / T_i / F",
                "s",
                with("V", liner, "T_i", temperature, "F", flow));
    }

    /**
     * The same for an inlet whose pressure is stated, s.
     *
     * @param liner volume, m3
     * @param head pressure in the inlet, Pa absolute
     * @param temperature of the inlet, K
     * @param flow of vent and column together at reference conditions, m3/s
     * @param referenceTemperature of the flow, K
     * @param referencePressure of the flow, Pa
     */
    public static double residenceTime(
            double liner,
            double head,
            double temperature,
            double flow,
            double referenceTemperature,
            double referencePressure) {
        return liner * (head / referencePressure) * (referenceTemperature / temperature) / flow;
    }

    /** Volume of a cylinder, straight: pi/4 d^2 l. */
    public static Uncertain cylinder(Uncertain diameter, Uncertain length) {
        final SortedMap<String, Uncertain> sizes = new TreeMap<>();
        sizes.put("d", diameter);
        sizes.put("l", length);
        return worked(PI / 4 + " * d^2 * l", "m3", sizes);
    }

    /** A quotient, such as the share of the liner that a vapour fills. */
    public static Uncertain quotient(Uncertain above, Uncertain below, String unit) {
        final SortedMap<String, Uncertain> both = new TreeMap<>();
        both.put("a", above);
        both.put("b", below);
        return worked("a / b", unit, both);
    }

    private static Uncertain worked(
            String equation, String unit, SortedMap<String, Uncertain> inputs) {
        try {
            final Expression parsed = ExpressionParser.parse(equation);
            final SortedMap<String, Uncertain> used = new TreeMap<>(inputs);
            used.keySet().retainAll(parsed.symbols());
            return LawOfPropagation.propagate(parsed, used, unit).result();
        } catch (ExpressionException e) {
            throw new IllegalStateException("the equation " + equation + " is one of ours", e);
        }
    }
}
