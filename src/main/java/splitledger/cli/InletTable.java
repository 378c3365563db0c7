package splitledger.cli;

import java.util.List;
import java.util.Optional;
import splitledger.base.ProblemException;
import splitledger.cli.InletFile.Kind;
import splitledger.inlet.Gas;
import splitledger.inlet.GasUse;
import splitledger.inlet.SplitInlet;
import splitledger.propagation.Uncertain;
import splitledger.study.Tree;

/** Works out what an inlet file asks for, as lines of a plain table. */
final class InletTable {
    private static final double ATMOSPHERE = 101_325;
    private static final double LABORATORY = 298.15;
    private static final double ML_PER_MIN = 60e6;
    private static final double MICROLITRES = 1e9;
    private static final double MINUTE = 60;
    private static final double ZERO_CELSIUS = 273.15;

    private final InletFile file;
    private final Tree.Mapping tree;
    private final InletLines lines = new InletLines();
    private final double ambient;
    private double referenceTemperature = LABORATORY;
    private double referencePressure = ATMOSPHERE;

    private InletTable(String name, Tree.Mapping tree) {
        this.file = new InletFile(name);
        this.tree = tree;
        this.ambient =
                file.given(tree, "ambient-pressure", Kind.PRESSURE, 0)
                        .map(Uncertain::value)
                        .orElse(ATMOSPHERE);
    }

    /**
     * The lines.
     *
     * @throws ProblemException with everything that is wrong in the file
     */
    static List<String> of(String name, Tree.Mapping tree) throws ProblemException {
        final InletTable table = new InletTable(name, tree);
        table.all();
        if (!table.file.problems().isEmpty()) {
            throw new ProblemException(table.file.problems());
        }
        return table.lines.all();
    }

    private void all() {
        file.only(
                tree,
                List.of(
                        "splitledger-inlet",
                        "gas",
                        "column",
                        "head-pressure",
                        "ambient-pressure",
                        "outlet",
                        "oven-temperature",
                        "flows-at",
                        "vent-flow",
                        "total-flow",
                        "purge-flow",
                        "column-flow",
                        "split-ratio",
                        "split-ratio-is",
                        "inlet-temperature",
                        "liner",
                        "injection",
                        "gas-saver",
                        "cycle",
                        "injections-per-day",
                        "cylinder"));
        final Tree.Mapping at = tree.mapping("flows-at");
        file.only(at, List.of("temperature", "pressure"));
        referenceTemperature =
                file.given(at, "temperature", Kind.TEMPERATURE, ambient)
                        .map(Uncertain::value)
                        .orElse(LABORATORY);
        referencePressure =
                file.given(at, "pressure", Kind.PRESSURE, ambient)
                        .map(Uncertain::value)
                        .orElse(ATMOSPHERE);
        final Optional<SplitInlet> inlet = inlet();
        if (inlet.isEmpty()) {
            return;
        }
        lines.words(
                "flows at "
                        + InletLines.shown(referenceTemperature - ZERO_CELSIUS)
                        + " degC and "
                        + InletLines.shown(referencePressure / 1000)
                        + " kPa absolute"
                        + (tree.get("flows-at").isEmpty() ? " (not stated: assumed)" : ""));
        final Uncertain computed = inlet.get().columnFlow();
        lines.row(
                "column-flow",
                computed.scaled(ML_PER_MIN, "mL/min"),
                "from pressure and dimensions");
        lines.row("hold-up-time", inlet.get().holdUpTime(), "");
        lines.row("linear-velocity", inlet.get().linearVelocity().scaled(100, "cm/s"), "mean");
        final Optional<Uncertain> measured = file.given(tree, "column-flow", Kind.FLOW, ambient);
        measured.ifPresent(
                f -> lines.row("column-flow", f.scaled(ML_PER_MIN, "mL/min"), "as measured"));
        final Uncertain column = measured.orElse(computed);
        final Optional<Uncertain> vent = vent(column);
        vent.ifPresent(v -> split(v, column));
        vapour(inlet.get(), vent.map(v -> sum(v, column)));
        vent.ifPresent(v -> use(v, column));
    }

    private Optional<SplitInlet> inlet() {
        final Optional<Gas> gas = tree.text("gas").flatMap(Gas::of);
        if (gas.isEmpty()) {
            file.problem(tree, "gas '" + tree.text("gas").orElse("") + "'", "He, H2, N2 or Ar");
        }
        final Tree.Mapping column = tree.mapping("column");
        file.only(column, List.of("length", "diameter"));
        final Uncertain length = file.needed(column, "length", Kind.LENGTH, ambient);
        final Uncertain diameter = file.needed(column, "diameter", Kind.LENGTH, ambient);
        final Uncertain head = file.needed(tree, "head-pressure", Kind.PRESSURE, ambient);
        final Uncertain oven = file.needed(tree, "oven-temperature", Kind.TEMPERATURE, ambient);
        final String outlet = tree.text("outlet").orElse("atmosphere");
        if (!List.of("atmosphere", "vacuum").contains(outlet)) {
            file.problem(tree, "outlet '" + outlet + "'", "atmosphere or vacuum");
        }
        final double end = outlet.equals("vacuum") ? 0 : ambient;
        if (file.problems().isEmpty() && !(head.value() > end)) {
            file.problem(
                    tree,
                    "a head-pressure of " + InletLines.shown(head.value() / 1000) + " kPa absolute",
                    "one above that of the outlet, " + InletLines.shown(end / 1000) + " kPa");
        }
        final boolean stated = tree.get("oven-temperature").isPresent();
        if (stated && (oven.value() < Gas.COLDEST || oven.value() > Gas.HOTTEST)) {
            file.problem(
                    tree, "an oven of " + InletLines.shown(oven.value()) + " K", "100 to 700 K");
        }
        return file.problems().isEmpty()
                ? gas.map(
                        g ->
                                SplitInlet.of(
                                        g,
                                        length,
                                        diameter,
                                        head,
                                        Uncertain.exact(end, "Pa"),
                                        oven,
                                        referenceTemperature,
                                        referencePressure))
                : Optional.empty();
    }

    /** As measured, left by the total flow, or asked for by a ratio. */
    private Optional<Uncertain> vent(Uncertain column) {
        final Optional<Uncertain> vent = file.given(tree, "vent-flow", Kind.FLOW, ambient);
        if (vent.isPresent()) {
            return vent;
        }
        final Optional<Uncertain> total = file.given(tree, "total-flow", Kind.FLOW, ambient);
        if (total.isPresent()) {
            final Uncertain purge = file.needed(tree, "purge-flow", Kind.FLOW, ambient);
            final Uncertain left = SplitInlet.ventFlow(total.get(), purge, column);
            if (!(left.value() > 0)) {
                file.problem(
                        tree, "a total-flow that purge and column use up", "a larger total-flow");
                return Optional.empty();
            }
            lines.row(
                    "vent-flow", left.scaled(ML_PER_MIN, "mL/min"), "total less purge less column");
            return Optional.of(left);
        }
        final Optional<Uncertain> ratio = file.given(tree, "split-ratio", Kind.NUMBER, ambient);
        if (ratio.isEmpty()) {
            return Optional.empty();
        }
        final String is = tree.text("split-ratio-is").orElse("");
        if (!List.of("total-to-column", "vent-to-column").contains(is)) {
            file.problem(
                    tree,
                    "split-ratio without its convention",
                    "split-ratio-is: total-to-column or vent-to-column");
            return Optional.empty();
        }
        final double parts = ratio.get().value() - (is.equals("total-to-column") ? 1 : 0);
        if (!(parts > 0)) {
            file.problem(tree, "a split-ratio that leaves no vent flow", "a larger split-ratio");
            return Optional.empty();
        }
        final Uncertain wanted = column.scaled(parts, column.unit());
        lines.row("vent-flow", wanted.scaled(ML_PER_MIN, "mL/min"), "to set for this ratio");
        return Optional.of(Uncertain.exact(wanted.value(), wanted.unit()));
    }

    private void split(Uncertain vent, Uncertain column) {
        final Uncertain ratio = SplitInlet.splitRatio(vent, column);
        lines.row("split-ratio", ratio, "total to column");
        lines.row("split-ratio", ratio.at(ratio.value() - 1), "vent to column");
        lines.words("  septum purge is in the balance of gas, not in the split ratio");
    }

    private void vapour(SplitInlet inlet, Optional<Uncertain> flow) {
        final Optional<Uncertain> temperature =
                file.given(tree, "inlet-temperature", Kind.TEMPERATURE, ambient);
        final Tree.Mapping injection = tree.mapping("injection");
        final Tree.Mapping sizes = tree.mapping("liner");
        file.only(injection, List.of("volume", "density", "molar-mass"));
        file.only(sizes, List.of("diameter", "length"));
        final Optional<Uncertain> liner =
                sizes.entries().isEmpty()
                        ? Optional.empty()
                        : Optional.of(
                                SplitInlet.cylinder(
                                        file.needed(sizes, "diameter", Kind.LENGTH, ambient),
                                        file.needed(sizes, "length", Kind.LENGTH, ambient)));
        if (temperature.isEmpty()) {
            return;
        }
        if (!injection.entries().isEmpty()) {
            final Uncertain vapour =
                    inlet.vapourVolume(
                            file.needed(injection, "volume", Kind.VOLUME, ambient),
                            file.needed(injection, "density", Kind.DENSITY, ambient),
                            file.needed(injection, "molar-mass", Kind.MOLAR_MASS, ambient),
                            temperature.get());
            lines.row("vapour-volume", vapour.scaled(MICROLITRES, "uL"), "ideal gas, all at once");
            liner.ifPresent(
                    l ->
                            lines.row(
                                    "liner-fill-fraction",
                                    SplitInlet.quotient(vapour, l, "1"),
                                    "information: vapour is swept out while it forms; up to 0.5 to 0.75 is"
                                            + " common practice, no source"));
        }
        if (liner.isPresent() && flow.isPresent()) {
            lines.row(
                    "residence-time",
                    inlet.residenceTime(liner.get(), temperature.get(), flow.get()),
                    "liner empty of packing");
        }
    }

    private void use(Uncertain vent, Uncertain column) {
        final Tree.Mapping saver = tree.mapping("gas-saver");
        file.only(saver, List.of("vent-flow", "after"));
        final Optional<Uncertain> cycle = file.given(tree, "cycle", Kind.TIME, ambient);
        final Optional<Uncertain> daily =
                file.given(tree, "injections-per-day", Kind.NUMBER, ambient);
        if (cycle.isEmpty() || daily.isEmpty()) {
            return;
        }
        final double purge =
                file.given(tree, "purge-flow", Kind.FLOW, ambient)
                        .map(Uncertain::value)
                        .orElse(0.0);
        final double always = (column.value() + purge) * ML_PER_MIN;
        final double full = always + vent.value() * ML_PER_MIN;
        final double minutes = cycle.get().value() / MINUTE;
        final boolean saving = !saver.entries().isEmpty();
        final double reduced =
                saving
                        ? always
                                + file.needed(saver, "vent-flow", Kind.FLOW, ambient).value()
                                        * ML_PER_MIN
                        : full;
        final double after =
                saving ? file.needed(saver, "after", Kind.TIME, ambient).value() / MINUTE : 0;
        final GasUse use = new GasUse(full, reduced, after, minutes);
        gas("as it is", use, daily.get().value());
        if (saving) {
            gas("without reduced vent flow", use.unreduced(), daily.get().value());
        }
    }

    private void gas(String what, GasUse use, double daily) {
        lines.plain("gas-per-injection", use.perInjection() / 1000, "L", what);
        lines.plain("gas-per-day", use.perDay(daily) / 1000, "L", what);
        final Tree.Mapping cylinder = tree.mapping("cylinder");
        file.only(cylinder, List.of("volume", "pressure", "changed-at"));
        if (cylinder.entries().isEmpty()) {
            return;
        }
        final double volume = file.needed(cylinder, "volume", Kind.VOLUME, ambient).value() * 1e6;
        final double usable =
                file.needed(cylinder, "pressure", Kind.PRESSURE, ambient).value()
                        - file.needed(cylinder, "changed-at", Kind.PRESSURE, ambient).value();
        if (!(usable > 0)) {
            file.problem(cylinder, "no usable pressure", "a pressure above changed-at");
            return;
        }
        lines.plain(
                "cylinder-life", use.days(volume, usable / referencePressure, daily), "d", what);
    }

    private static Uncertain sum(Uncertain a, Uncertain b) {
        return Uncertain.combine(
                a.value() + b.value(), a.unit(), new double[] {1, 1}, List.of(a, b));
    }
}
