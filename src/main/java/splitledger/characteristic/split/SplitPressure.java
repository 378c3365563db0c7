package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import splitledger.characteristic.Digits;
import splitledger.inlet.Gas;
import splitledger.inlet.SplitInlet;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.propagation.Unit;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Choice;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/**
 * The split ratio that head pressure, column and vent flow let expect; the flow through the column
 * is that of {@link SplitInlet}, at the conditions of the protocol's {@code flows-at}. Gauge
 * pressures count from the standard atmosphere.
 */
final class SplitPressure {
    private static final double PERCENT = 100;
    private static final double ATMOSPHERE = 101_325;
    private static final double ZERO_CELSIUS = 273.15;
    private static final double MILLIMETRE = 1e-3;

    /** m3/s of 1 mL/min. */
    private static final double PER_MINUTE = 1e-6 / 60;

    /** Pa of 1 psi: 0.45359237 kg x 9.80665 m/s2 over the square of 0.0254 m, all exact. */
    private static final double PSI = 0.45359237 * 9.80665 / (0.0254 * 0.0254);

    private static final String NUMBER = "([0-9]+(?:\\.[0-9]+)?)";
    private static final Pattern COLUMN = Pattern.compile(NUMBER + " *m *x *" + NUMBER + " *mm.*");
    private static final Pattern PRESSURE =
            Pattern.compile(NUMBER + " *([A-Za-z]+) +(gauge|absolute)");
    private static final Pattern PLAIN = Pattern.compile(NUMBER + " *([A-Za-z]+)");

    private final Uncertain column;
    private final boolean whole;
    private final String outlet;

    private SplitPressure(Uncertain column, boolean whole, String outlet) {
        this.column = column;
        this.whole = whole;
        this.outlet = outlet;
    }

    /**
     * Reads instrument and options.
     *
     * @return {@code TOO_FEW_POINTS} with what is missing or not understood
     */
    static Outcome<SplitPressure> of(Protocol protocol, Tree.Mapping options) {
        final Map<String, String> facts = protocol.instrument();
        final Map<String, String> at = protocol.conventions().flowsAt();
        final List<String> missing = new ArrayList<>();
        final Optional<Gas> gas = Gas.of(facts.getOrDefault("gas", ""));
        if (gas.isEmpty()) {
            missing.add("gas of the instrument, one of He, H2, N2, Ar");
        }
        final Matcher sizes = COLUMN.matcher(facts.getOrDefault("column", ""));
        if (!sizes.matches()) {
            missing.add("column of the instrument such as 30 m x 0.25 mm");
        }
        final Matcher head = PRESSURE.matcher(facts.getOrDefault("head-pressure", ""));
        final OptionalDouble size = head.matches() ? pascal(head) : OptionalDouble.empty();
        if (size.isEmpty()) {
            missing.add("head-pressure of the instrument such as 100 kPa gauge");
        }
        final OptionalDouble oven = options.number("oven-temperature");
        if (oven.isEmpty()
                || !(oven.getAsDouble() > -ZERO_CELSIUS + Gas.COLDEST)
                || !(oven.getAsDouble() < Gas.HOTTEST - ZERO_CELSIUS)) {
            missing.add("oven-temperature during the injection, degC");
        }
        final Matcher temperature = PLAIN.matcher(at.getOrDefault("temperature", ""));
        final Matcher pressure = PLAIN.matcher(at.getOrDefault("pressure", ""));
        final boolean conditions =
                temperature.matches()
                        && List.of("degC", "K").contains(temperature.group(2))
                        && pressure.matches()
                        && pascal(pressure).isPresent();
        if (!conditions) {
            missing.add("flows-at of the conventions, temperature and pressure");
        }
        if (!missing.isEmpty()) {
            return Outcome.not(Reason.TOO_FEW_POINTS, String.join("; ", missing));
        }
        final boolean vacuum = options.text("outlet").orElse("").equals("vacuum");
        final double gauge = head.group(3).equals("gauge") ? ATMOSPHERE : 0;
        final double absolute = size.getAsDouble() + gauge;
        final double end = vacuum ? 0 : ATMOSPHERE;
        if (!(absolute > end)) {
            return Outcome.not(
                    Reason.TOO_FEW_POINTS, "a head-pressure above that at the end of the column");
        }
        final double kelvin =
                Double.parseDouble(temperature.group(1))
                        + (temperature.group(2).equals("degC") ? ZERO_CELSIUS : 0);
        final Uncertain flow =
                SplitInlet.of(
                                gas.orElseThrow(),
                                known("length", Double.parseDouble(sizes.group(1)), "m", options),
                                known(
                                        "diameter",
                                        MILLIMETRE * Double.parseDouble(sizes.group(2)),
                                        "m",
                                        options),
                                known("head-pressure", size.getAsDouble(), "Pa", options)
                                        .at(absolute),
                                Uncertain.exact(end, "Pa"),
                                Uncertain.exact(oven.getAsDouble() + ZERO_CELSIUS, "K"),
                                kelvin,
                                pascal(pressure).getAsDouble())
                        .columnFlow();
        final boolean whole =
                options.number("diameter-uncertainty").isPresent()
                        && options.number("head-pressure-uncertainty").isPresent();
        return Outcome.of(new SplitPressure(flow, whole, vacuum ? "in vacuum" : "at 101.325 kPa"));
    }

    private static OptionalDouble pascal(Matcher text) {
        final double value = Double.parseDouble(text.group(1));
        if (text.group(2).equals("psi")) {
            return OptionalDouble.of(value * PSI);
        }
        final Optional<Unit> pascal = Unit.parse("Pa");
        return Unit.parse(text.group(2))
                .filter(u -> pascal.isPresent() && u.isLike(pascal.get()))
                .map(u -> OptionalDouble.of(value * u.factor() / pascal.get().factor()))
                .orElse(OptionalDouble.empty());
    }

    private static Uncertain known(String name, double value, String unit, Tree.Mapping options) {
        final String option = name + "-uncertainty";
        final Root root =
                Root.normal(
                        SplitLinearity.ID + "/" + name,
                        Pool.known(SplitLinearity.ID + "/" + name, "stated in the protocol"),
                        Effect.SPLIT,
                        ActsOn.BOTH,
                        option);
        return Uncertain.of(value, unit, root, value * options.number(option).orElse(0) / PERCENT);
    }

    /** Whether the uncertainties that matter are stated. */
    boolean whole() {
        return whole;
    }

    /**
     * Total to column flow.
     *
     * @param vent flow of the vent, mL/min at {@code flows-at}
     * @param relative standard uncertainty of it
     * @param meter whose error it is
     */
    Uncertain ratio(double vent, double relative, Root meter) {
        final double flow = vent * PER_MINUTE;
        return SplitInlet.splitRatio(Uncertain.of(flow, "m3/s", meter, flow * relative), column);
    }

    /** What was taken as given. */
    List<Choice> choices() {
        return List.of(
                choice(
                        "The expected ratio is worked from head pressure, column and vent flow",
                        "column flow "
                                + Digits.three(column.value() / PER_MINUTE)
                                + " mL/min at the conditions of flows-at; the column ends "
                                + outlet
                                + ", gauge pressures count from 101.325 kPa; laminar flow of an ideal gas"));
    }

    /** Why there is none. */
    static List<Choice> without(NotComputed<SplitPressure> not) {
        return List.of(
                choice(
                        "No ratio is worked from head pressure, column and vent flow",
                        "the protocol lacks: " + not.detail()));
    }

    private static Choice choice(String what, String why) {
        return new Choice(
                SplitLinearity.ID, "", what, why, "Hagen and Poiseuille, textbook (from memory)");
    }
}
