package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.propagation.Shape;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/** Reads what one symbol of the equation stands for. */
final class InputReader {
    private static final String VALUE = "value";
    private static final String HALF_WIDTH = "half-width";
    private static final String STANDARD = "standard-uncertainty";
    private static final String FREEDOM = "degrees-of-freedom";
    private static final String SHAPE = "shape";
    private static final String SOURCE = "source";
    private static final String COLUMN = "column";
    private static final String UNIT = "unit";
    private static final String SPREAD = "spread-of";
    private static final String MEAN = "mean-of";
    private static final String FINDING = "finding";
    private static final String NORMAL = "normal";

    private final Tree.Mapping tree;
    private final Reading reading;

    private InputReader(Tree.Mapping tree, Reading reading) {
        this.tree = tree;
        this.reading = reading;
    }

    /** The input; empty, with a problem, if its parts do not fit together. */
    static Optional<Protocol.Input> read(Tree tree, Reading reading) {
        if (!(tree instanceof Tree.Mapping mapping)) {
            return Optional.of(new Protocol.NotCorrected(tree.place()));
        }
        final InputReader reader = new InputReader(mapping, reading);
        if (reader.has(FINDING)) {
            return reader.finding();
        }
        if (reader.has(COLUMN)) {
            return reader.column();
        }
        return reader.has(SPREAD) ? reader.spread() : reader.given();
    }

    private Optional<Protocol.Input> finding() {
        return alone(FINDING)
                ? Optional.of(new Protocol.FromFinding(tree.text(FINDING).orElse(""), tree.place()))
                : Optional.empty();
    }

    private Optional<Protocol.Input> column() {
        if (!alone(COLUMN, UNIT, STANDARD, SOURCE)) {
            return Optional.empty();
        }
        final String unit = tree.text(UNIT).orElse("");
        final Optional<Quantity> u = Quantity.ofSize(tree, STANDARD, reading);
        if (has(STANDARD)
                && (u.isEmpty()
                        || !new Quantity(0, unit).agrees(u.get(), tree, STANDARD, reading))) {
            return Optional.empty();
        }
        return Optional.of(
                new Protocol.RowVariable(
                        tree.text(COLUMN).orElse(""),
                        orOne(unit),
                        u.map(Quantity::value).orElse(0.0),
                        tree.text(SOURCE).orElse(""),
                        tree.place()));
    }

    private Optional<Protocol.Input> spread() {
        final Optional<Quantity> value = Quantity.of(tree, VALUE, reading);
        if (!alone(VALUE, SPREAD, MEAN, SOURCE) || value.isEmpty()) {
            return Optional.empty();
        }
        if (!value.get().unit().isEmpty()) {
            new Quantity(0, "").agrees(value.get(), tree, VALUE, reading);
            return Optional.empty();
        }
        return Optional.of(
                new Protocol.Spread(
                        value.get().value(),
                        tree.text(SPREAD).orElse(""),
                        tree.number(MEAN),
                        tree.place()));
    }

    private Optional<Protocol.Input> given() {
        final Optional<Quantity> value = Quantity.of(tree, VALUE, reading);
        if (has(HALF_WIDTH)) {
            final boolean fits = alone(VALUE, HALF_WIDTH, SHAPE, SOURCE);
            final Optional<Quantity> half = beside(value, HALF_WIDTH);
            return fits && half.isPresent() && value.isPresent()
                    ? betweenLimits(value.get(), half.get())
                    : Optional.empty();
        }
        final boolean fits =
                has(STANDARD)
                        ? alone(VALUE, STANDARD, FREEDOM, SHAPE, SOURCE)
                        : alone(VALUE, SOURCE);
        final Optional<Quantity> u = beside(value, STANDARD);
        if (!fits || value.isEmpty() || (has(STANDARD) && u.isEmpty()) || !isNormal()) {
            return Optional.empty();
        }
        return Optional.of(
                new Protocol.Given(
                        value.get().value(),
                        orOne(value.get().unit()),
                        u.map(Quantity::value).orElse(0.0),
                        NORMAL,
                        tree.number(FREEDOM).orElse(Double.POSITIVE_INFINITY),
                        tree.text(SOURCE).orElse(""),
                        tree.place()));
    }

    private boolean isNormal() {
        final String shape = tree.text(SHAPE).orElse(NORMAL);
        if (!shape.equals(NORMAL)) {
            tell(
                    SHAPE,
                    "'" + shape + "' beside a standard uncertainty",
                    NORMAL,
                    "give the half-width between the limits instead");
        }
        return shape.equals(NORMAL);
    }

    private Optional<Protocol.Input> betweenLimits(Quantity value, Quantity half) {
        final Optional<String> stated = tree.text(SHAPE);
        final String code = stated.orElse("rectangular");
        if (code.equals(NORMAL)) {
            tell(
                    SHAPE,
                    "'normal' beside a half-width",
                    "rectangular or triangular",
                    "a normal shape has no ends: give the standard uncertainty instead");
            return Optional.empty();
        }
        if (stated.isEmpty()) {
            reading.choice(
                    tree.place().path() + " is taken as rectangular",
                    "only the half-width between its limits is stated",
                    "JCGM 100:2008, 4.3.7");
        }
        final Shape shape =
                code.equals("triangular") ? new Shape.Triangular() : new Shape.Rectangular();
        return Optional.of(
                new Protocol.Given(
                        value.value(),
                        orOne(value.unit()),
                        half.value() / shape.halfWidthInDeviations(),
                        code,
                        Double.POSITIVE_INFINITY,
                        tree.text(SOURCE).orElse(""),
                        tree.place()));
    }

    /** A quantity that must have the unit of the value. */
    private Optional<Quantity> beside(Optional<Quantity> value, String key) {
        return Quantity.ofSize(tree, key, reading)
                .filter(q -> value.isEmpty() || value.get().agrees(q, tree, key, reading));
    }

    /** Whether only these keys are there; a problem names the others. */
    private boolean alone(String... allowed) {
        final List<String> others = new ArrayList<>(tree.entries().keySet());
        others.removeAll(List.of(allowed));
        for (String other : others) {
            tell(
                    other,
                    "the key '" + other + "' here",
                    "only " + String.join(", ", allowed),
                    "take it out, or use another form of input");
        }
        return others.isEmpty();
    }

    private void tell(String key, String found, String expected, String hint) {
        final Tree at = tree.get(key).orElse(tree);
        reading.problem(at.place(), found, expected, hint);
    }

    private boolean has(String key) {
        return tree.get(key).isPresent();
    }

    private static String orOne(String unit) {
        return unit.isEmpty() ? "1" : unit;
    }
}
