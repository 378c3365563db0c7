package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.study.Protocol;
import splitledger.study.Tree;
import splitledger.study.Where;

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
    private static final String AMOUNT_OF = "amount-of";
    private static final String FACTOR = "factor";
    static final String EFFECT = "effect";
    static final String ACTS_ON = "acts-on";
    static final String DIFFERS = "differs";
    static final String DISJOINT = "disjoint";

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
        if (reader.has(AMOUNT_OF)) {
            return reader.amountOf();
        }
        if (reader.has(FACTOR)) {
            return reader.splitFactor();
        }
        return reader.has(SPREAD) ? reader.spread() : reader.given();
    }

    private Optional<Protocol.Input> finding() {
        if (!alone(FINDING, "method", "condition", EFFECT, ACTS_ON, DIFFERS, DISJOINT)) {
            return Optional.empty();
        }
        final Map<String, String> condition = new LinkedHashMap<>();
        tree.mapping("condition")
                .entries()
                .forEach(
                        (name, t) -> {
                            if (t instanceof Tree.Scalar scalar) {
                                condition.put(name, scalar.text());
                            }
                        });
        return Optional.of(
                new Protocol.FromFinding(
                        tree.text(FINDING).orElse(""),
                        tree.text("method"),
                        condition,
                        home(tree),
                        tree.place()));
    }

    private Optional<Protocol.Input> amountOf() {
        return alone(AMOUNT_OF)
                ? Optional.of(
                        new Protocol.AmountOf(Where.of(tree.mapping(AMOUNT_OF)), tree.place()))
                : Optional.empty();
    }

    private Optional<Protocol.Input> splitFactor() {
        if (!alone(FACTOR, STANDARD, SOURCE)) {
            return Optional.empty();
        }
        final Optional<Quantity> u = Quantity.ofSize(tree, STANDARD, reading);
        if (u.isPresent() && !(u.get().unit().equals("%") || u.get().unit().isEmpty())) {
            new Quantity(0, "%").agrees(u.get(), tree, STANDARD, reading);
            return Optional.empty();
        }
        return Optional.of(
                new Protocol.SplitFactor(
                        u.map(q -> q.unit().equals("%") ? q.value() / 100 : q.value())
                                .map(OptionalDouble::of)
                                .orElse(OptionalDouble.empty()),
                        tree.text(SOURCE).orElse(""),
                        tree.place()));
    }

    /** Where a contribution belongs, as stated; the schema has checked the words. */
    static Protocol.Home home(Tree.Mapping tree) {
        return new Protocol.Home(
                tree.text(EFFECT)
                        .flatMap(
                                code ->
                                        Arrays.stream(Effect.values())
                                                .filter(e -> e.code().equals(code))
                                                .findFirst()),
                tree.text(ACTS_ON)
                        .flatMap(
                                code ->
                                        Arrays.stream(ActsOn.values())
                                                .filter(a -> a.code().equals(code))
                                                .findFirst()),
                tree.text(DIFFERS),
                tree.text(DISJOINT));
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
