package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.base.Nearest;
import splitledger.propagation.Unit;
import splitledger.study.Reporting;
import splitledger.study.Reporting.BelowLimit;
import splitledger.study.Reporting.Evidence;
import splitledger.study.Reporting.Specification;
import splitledger.study.Tree;

/** Reads how results are reported: routine, limits, specifications and values from outside. */
final class ReportingReader {
    private static final double RISK = 0.05;
    private static final String VALUE = "value";
    private static final String STANDARD = "standard-uncertainty";
    private static final String EXPANDED = "expanded";

    private final Tree.Mapping measurand;
    private final List<String> compounds;
    private final Reading reading;
    private final String unit;

    ReportingReader(Tree.Mapping measurand, List<String> compounds, Reading reading) {
        this.measurand = measurand;
        this.compounds = compounds;
        this.reading = reading;
        this.unit = measurand.text("unit").orElse("1");
    }

    Reporting read() {
        final Tree.Mapping routine = measurand.mapping("routine");
        return new Reporting(
                routine.text("sample"),
                (int) routine.number("preparations").orElse(1),
                routine.number("injections"),
                belowLimit(),
                specifications(),
                evidence());
    }

    private Optional<BelowLimit> belowLimit() {
        return measurand
                .get("below-limit")
                .filter(Tree.Mapping.class::isInstance)
                .map(Tree.Mapping.class::cast)
                .map(
                        m ->
                                new BelowLimit(
                                        m.text("report").orElse(VALUE).equals("words"),
                                        m.text("limit").orElse("quantification-limit"),
                                        m.text("method"),
                                        m.place()));
    }

    private List<Specification> specifications() {
        final List<Specification> all = new ArrayList<>();
        for (Tree.Mapping m : mappings("specification")) {
            compound(m);
            final OptionalDouble least = inUnit(m, "at-least");
            final OptionalDouble most = inUnit(m, "at-most");
            if (least.isEmpty() && most.isEmpty()) {
                if (m.get("at-least").isEmpty() && m.get("at-most").isEmpty()) {
                    reading.problem(
                            m.place(),
                            "a specification without a limit",
                            "at-most, at-least or both",
                            "add the limit that results are held against");
                }
                continue;
            }
            all.add(
                    new Specification(
                            m.text("of"),
                            least,
                            most,
                            m.number("risk").orElse(RISK),
                            m.text("source").orElse(""),
                            m.place()));
        }
        return all;
    }

    private List<Evidence> evidence() {
        final List<Evidence> all = new ArrayList<>();
        for (Tree.Mapping m : mappings("evidence")) {
            compound(m);
            final OptionalDouble value = inUnit(m, VALUE);
            final OptionalDouble u = inUnit(m, STANDARD);
            final OptionalDouble expanded = inUnit(m, EXPANDED);
            if (value.isEmpty()) {
                continue;
            }
            if (u.isEmpty() && (expanded.isEmpty() || m.number("k").isEmpty())) {
                reading.problem(
                        m.place(),
                        "a value from outside without its uncertainty",
                        "standard-uncertainty, or expanded with k",
                        "the certificate or the report of the comparison states it");
                continue;
            }
            final double k = m.number("k").orElse(2);
            final double standard = u.orElseGet(() -> expanded.orElse(0) / k);
            all.add(
                    new Evidence(
                            m.text("name").orElse(m.text("result").orElse("")),
                            m.text("kind").orElse(""),
                            m.text("of").orElse(""),
                            m.text("result").orElse(""),
                            value.getAsDouble(),
                            standard,
                            expanded.orElse(k * standard),
                            m.text("source").orElse(""),
                            m.place()));
        }
        return all;
    }

    private List<Tree.Mapping> mappings(String key) {
        final Tree tree = measurand.get(key).orElse(Tree.Mapping.EMPTY);
        final List<Tree.Mapping> all = new ArrayList<>();
        if (tree instanceof Tree.Sequence sequence) {
            for (Tree item : sequence.items()) {
                if (item instanceof Tree.Mapping m && !reading.touched(m.place())) {
                    all.add(m);
                }
            }
        }
        return all;
    }

    private void compound(Tree.Mapping m) {
        final Optional<Tree> tree = m.get("of");
        if (tree.isPresent()
                && tree.get() instanceof Tree.Scalar scalar
                && !compounds.contains(scalar.text())) {
            reading.problem(
                    scalar.place(),
                    "'" + scalar.text() + "', which is no target",
                    "one of the targets",
                    Nearest.hint(scalar.text(), compounds));
        }
    }

    /** A number in the unit of the measurand; another prefix is converted, another kind refused. */
    private OptionalDouble inUnit(Tree.Mapping m, String key) {
        final Optional<Quantity> stated = Quantity.of(m, key, reading);
        if (stated.isEmpty()) {
            return OptionalDouble.empty();
        }
        final Quantity q = stated.get();
        if (q.unit().isEmpty() || q.unit().equals(unit)) {
            return OptionalDouble.of(q.value());
        }
        final Optional<Unit> own = Unit.parse(unit);
        final Optional<Unit> other = Unit.parse(q.unit());
        if (own.isPresent() && other.isPresent() && own.get().isLike(other.get())) {
            return OptionalDouble.of(q.value() * other.get().factor() / own.get().factor());
        }
        reading.problem(
                m.get(key).orElse(m).place(),
                "the unit '" + q.unit() + "'",
                "the unit of the result, '" + unit + "'",
                "write it in the unit of the measurand");
        return OptionalDouble.empty();
    }
}
