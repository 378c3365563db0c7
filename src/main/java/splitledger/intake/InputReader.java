package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/** Reads what one symbol of the equation stands for. */
final class InputReader {
    private static final String VALUE = "value";
    private static final String VALUES = "values";
    private static final String STANDARD = "standard-uncertainty";
    private static final String SOURCE = "source";
    private static final String COLUMN = "column";
    private static final String UNIT = "unit";
    private static final String SPREAD = "spread-of";
    private static final String MEAN = "mean-of";
    private static final String FINDING = "finding";

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
        return has(VALUES)
                ? new ReadingsReader(tree, reading).read()
                : new GivenReader(tree, reading).read();
    }

    private boolean alone(String... allowed) {
        return alone(tree, reading, allowed);
    }

    /** Whether only these keys are there; a problem names the others. */
    static boolean alone(Tree.Mapping tree, Reading reading, String... allowed) {
        final List<String> others = new ArrayList<>(tree.entries().keySet());
        others.removeAll(List.of(allowed));
        for (String other : others) {
            tell(
                    tree,
                    reading,
                    other,
                    "the key '" + other + "' here",
                    "only " + String.join(", ", allowed),
                    "take it out, or use another form of input");
        }
        return others.isEmpty();
    }

    /** A problem at an entry. */
    static void tell(
            Tree.Mapping tree,
            Reading reading,
            String key,
            String found,
            String expected,
            String hint) {
        final Tree at = tree.get(key).orElse(tree);
        reading.problem(at.place(), found, expected, hint);
    }

    private boolean has(String key) {
        return tree.get(key).isPresent();
    }

    static String orOne(String unit) {
        return unit.isEmpty() ? "1" : unit;
    }
}
