package splitledger.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.Problem;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.propagation.Unit;
import splitledger.study.Tree;

/**
 * Values with their units out of an inlet file, in SI units. A value is a text such as {@code 30
 * m}, or {@code {value: 30 m, standard-uncertainty: 0.1 m}}; a pressure says {@code gauge} or
 * {@code absolute} behind its unit. What is wrong is collected.
 */
final class InletFile {
    private static final double ZERO_CELSIUS = 273.15;

    /** Pa of 1 psi: 0.45359237 kg x 9.80665 m/s2 over the square of 0.0254 m, all exact. */
    private static final double PSI = 0.45359237 * 9.80665 / (0.0254 * 0.0254);

    private final String file;
    private final List<Problem> problems = new ArrayList<>();

    InletFile(String file) {
        this.file = file;
    }

    List<Problem> problems() {
        return List.copyOf(problems);
    }

    /** Kinds of value with the unit that they are turned into. */
    enum Kind {
        LENGTH("m", "30 m"),
        TEMPERATURE("K", "40 degC"),
        PRESSURE("Pa", "100 kPa gauge"),
        FLOW("m3/s", "60 mL/min"),
        VOLUME("m3", "1 uL"),
        DENSITY("kg/m3", "0.655 g/mL"),
        MOLAR_MASS("kg/mol", "86.18 g/mol"),
        TIME("s", "2 min"),
        NUMBER("1", "20");

        private final String unit;
        private final String example;

        Kind(String unit, String example) {
            this.unit = unit;
            this.example = example;
        }
    }

    /** Keys that nobody knows become problems. */
    void only(Tree.Mapping mapping, List<String> keys) {
        for (Map.Entry<String, Tree> e : mapping.entries().entrySet()) {
            if (!keys.contains(e.getKey())) {
                problem(
                        e.getValue(),
                        "the key '" + e.getKey() + "'",
                        "one of " + String.join(", ", keys));
            }
        }
    }

    /** A value that must be there; 1 in its unit if it is not, and a problem. */
    Uncertain needed(Tree.Mapping mapping, String key, Kind kind, double ambient) {
        if (mapping.get(key).isEmpty()) {
            problem(mapping, "no '" + key + "'", "a value such as " + kind.example);
        }
        return given(mapping, key, kind, ambient).orElse(Uncertain.exact(1, kind.unit));
    }

    /**
     * A value, if it is there.
     *
     * @param ambient pressure outside that gauge pressures count from, Pa
     */
    Optional<Uncertain> given(Tree.Mapping mapping, String key, Kind kind, double ambient) {
        final Optional<Tree> tree = mapping.get(key);
        if (tree.isEmpty()) {
            return Optional.empty();
        }
        if (tree.get() instanceof Tree.Mapping both) {
            only(both, List.of("value", "standard-uncertainty"));
            final Optional<Double> value =
                    both.get("value").flatMap(t -> number(t, kind, ambient, false));
            final double u =
                    both.get("standard-uncertainty")
                            .flatMap(t -> number(t, kind, ambient, true))
                            .orElse(0.0);
            if (both.get("value").isEmpty() || u < 0) {
                problem(both, "'" + key + "'", "a value and a standard-uncertainty of 0 or more");
                return Optional.empty();
            }
            return value.map(v -> Uncertain.of(v, kind.unit, root(key), u));
        }
        return number(tree.get(), kind, ambient, false).map(v -> Uncertain.exact(v, kind.unit));
    }

    private static Root root(String key) {
        return Root.normal(
                "inlet:" + key,
                Pool.known("inlet:" + key, "as stated"),
                Effect.SPLIT,
                ActsOn.BOTH,
                "as stated");
    }

    private Optional<Double> number(Tree tree, Kind kind, double ambient, boolean size) {
        final String text = tree instanceof Tree.Scalar s ? s.text().strip() : "";
        final int space = text.indexOf(' ');
        final String digits = space < 0 ? text : text.substring(0, space);
        String unit = space < 0 ? "" : text.substring(space + 1).strip();
        final var parsed = new Tree.Scalar(tree.place(), digits, false).number();
        double zero = 0;
        boolean understood = parsed.isPresent();
        if (kind == Kind.PRESSURE) {
            final boolean gauge = unit.endsWith(" gauge");
            understood &= size || gauge || unit.endsWith(" absolute");
            zero = gauge && !size ? ambient : 0;
            unit = unit.replaceAll(" (gauge|absolute)$", "");
        }
        if (kind == Kind.TEMPERATURE && !size && unit.equals("degC")) {
            zero = ZERO_CELSIUS;
        }
        final Optional<Double> factor = factor(unit, kind);
        if (!understood || factor.isEmpty()) {
            problem(tree, "'" + text + "'", "a number with its unit such as " + kind.example);
            return Optional.empty();
        }
        final double value = parsed.getAsDouble() * factor.get() + zero;
        final boolean allowed = size ? value >= 0 : value > 0;
        if (!allowed) {
            problem(tree, "'" + text + "'", "a value above 0");
            return Optional.empty();
        }
        return Optional.of(value);
    }

    private static Optional<Double> factor(String unit, Kind kind) {
        if (kind == Kind.PRESSURE && unit.equals("psi")) {
            return Optional.of(PSI);
        }
        if (kind == Kind.TEMPERATURE) {
            return unit.equals("degC") || unit.equals("K") ? Optional.of(1.0) : Optional.empty();
        }
        final Optional<Unit> own = Unit.parse(kind.unit.equals("1") ? "" : kind.unit);
        return Unit.parse(unit)
                .filter(u -> own.isPresent() && u.isLike(own.get()))
                .map(u -> u.factor() / own.get().factor());
    }

    /** Notes a problem at a place of the file. */
    void problem(Tree tree, String found, String expected) {
        problems.add(
                new Problem(file, tree.place().row(), tree.place().path(), found, expected, ""));
    }
}
