package splitledger.intake;

import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.Nearest;
import splitledger.study.Criterion;
import splitledger.study.Tree;

/** Reads one requirement. */
final class RequirementReader {
    private static final String REFERENCE = "reference";
    private static final double RISK = 0.05;

    private RequirementReader() {}

    /** A limit with its unit. */
    private record Stated(Criterion.Limit limit, String unit) {}

    static Optional<Criterion> read(Tree.Mapping item, Candidates candidates, Reading reading) {
        final Optional<Stated> stated = limit(item, reading);
        compound(item, "of", candidates, reading);
        compound(item, "to", candidates, reading);
        final SortedMap<String, String> condition = condition(item, reading);
        return stated.map(
                s ->
                        new Criterion(
                                item.text("quantity").orElse(""),
                                item.text("of"),
                                item.text("to"),
                                item.text("method"),
                                condition,
                                s.limit(),
                                s.unit(),
                                basis(item.text("basis").orElse("observed")),
                                item.number("risk").orElse(RISK),
                                item.text("source").orElse(""),
                                item.text("set").orElse(""),
                                item.place()));
    }

    private static Optional<Stated> limit(Tree.Mapping item, Reading reading) {
        final Optional<Quantity> most = Quantity.of(item, "at-most", reading);
        final Optional<Quantity> least = Quantity.of(item, "at-least", reading);
        final Optional<Quantity> equals = Quantity.of(item, "equals", reading);
        final Optional<Quantity> within = Quantity.ofSize(item, "within", reading);
        if (most.isPresent()) {
            return most.map(q -> new Stated(new Criterion.Limit.AtMost(q.value()), q.unit()));
        }
        if (least.isPresent()) {
            return least.map(q -> new Stated(new Criterion.Limit.AtLeast(q.value()), q.unit()));
        }
        if (equals.isEmpty() || within.isEmpty()) {
            return Optional.empty();
        }
        final Quantity middle = equals.get();
        if (!middle.agrees(within.get(), item, "within", reading)) {
            return Optional.empty();
        }
        return Optional.of(
                new Stated(
                        new Criterion.Limit.Within(middle.value(), within.get().value()),
                        middle.unit()));
    }

    /** A compound that the study does not have would make a requirement that nothing meets. */
    private static void compound(
            Tree.Mapping item, String key, Candidates candidates, Reading reading) {
        final Optional<Tree> tree = item.get(key);
        if (tree.isPresent()
                && tree.get() instanceof Tree.Scalar scalar
                && !candidates.possible().contains(scalar.text())) {
            reading.problem(
                    scalar.place(),
                    "'" + scalar.text() + "', which is no compound of the study",
                    "one of the targets, the ladder, the products or the internal standard",
                    Nearest.hint(scalar.text(), candidates.possible()));
        }
    }

    private static SortedMap<String, String> condition(Tree.Mapping item, Reading reading) {
        final SortedMap<String, String> condition = new TreeMap<>();
        for (Map.Entry<String, Tree> e : item.mapping("condition").entries().entrySet()) {
            if (e.getValue() instanceof Tree.Scalar scalar) {
                condition.put(e.getKey(), scalar.text());
            }
        }
        final Optional<String> to = item.text("to");
        if (to.isPresent()) {
            final String before = condition.put(REFERENCE, to.get());
            if (before != null && !before.equals(to.get())) {
                reading.problem(
                        item.mapping("condition").place(),
                        "the reference '" + before + "' beside to: " + to.get(),
                        "one reference",
                        "take one of them out");
            }
        }
        return condition;
    }

    private static Criterion.Basis basis(String code) {
        for (Criterion.Basis basis : Criterion.Basis.values()) {
            if (basis.code().equals(code)) {
                return basis;
            }
        }
        throw new IllegalStateException("the schema let the basis '" + code + "' pass");
    }
}
