package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/** Makes the record of a protocol out of its tree; what the schema refused is left out. */
final class ProtocolReader {
    private static final double COVERAGE = 0.95;

    private final Tree.Mapping tree;
    private final Candidates candidates;
    private final UnitTargets units;
    private final Reading reading;

    ProtocolReader(Tree.Mapping tree, Candidates candidates, UnitTargets units, Reading reading) {
        this.tree = tree;
        this.candidates = candidates;
        this.units = units;
        this.reading = reading;
    }

    Protocol read() {
        return new Protocol(
                tree.text("title").orElse("Study without a title"),
                tree.text("purpose").orElse(""),
                facts("laboratory"),
                facts("instrument"),
                conventions(),
                characteristics(),
                items("requirements", m -> RequirementReader.read(m, candidates, reading)),
                MeasurandReader.read(tree, reading),
                items("exclusions", this::exclusion),
                items("events", this::event));
    }

    private Map<String, String> facts(String key) {
        return facts(tree.mapping(key));
    }

    private static Map<String, String> facts(Tree.Mapping given) {
        final Map<String, String> facts = new LinkedHashMap<>();
        given.entries()
                .forEach(
                        (name, value) -> {
                            if (value instanceof Tree.Scalar scalar) {
                                facts.put(name, scalar.text());
                            }
                        });
        return facts;
    }

    private Protocol.Conventions conventions() {
        final Tree.Mapping given = tree.mapping("conventions");
        return new Protocol.Conventions(
                given.text("split-ratio").orElse(""),
                given.text("recalibrated").orElse("once"),
                given.number("coverage").orElse(COVERAGE),
                units.unit(Columns.AREA).orElse("area counts"),
                units.unit(Columns.AMOUNT).orElse("amount units"),
                facts(given.mapping("flows-at")));
    }

    private Map<String, Tree.Mapping> characteristics() {
        final Map<String, Tree.Mapping> options = new LinkedHashMap<>();
        tree.mapping("characteristics")
                .entries()
                .forEach(
                        (id, value) -> {
                            if (value instanceof Tree.Mapping mapping) {
                                options.put(id, mapping);
                            }
                        });
        return options;
    }

    private <T> List<T> items(String key, Function<Tree.Mapping, Optional<T>> read) {
        final List<T> items = new ArrayList<>();
        if (tree.get(key).orElse(Tree.Mapping.EMPTY) instanceof Tree.Sequence sequence) {
            for (Tree item : sequence.items()) {
                if (item instanceof Tree.Mapping mapping && !reading.touched(mapping.place())) {
                    read.apply(mapping).ifPresent(items::add);
                }
            }
        }
        return items;
    }

    private Optional<Protocol.Exclusion> exclusion(Tree.Mapping item) {
        return Optional.of(
                new Protocol.Exclusion(
                        item.text("injection").orElse(""),
                        item.text("compound").orElse("all"),
                        item.text("reason").orElse(""),
                        item.text("who").orElse(""),
                        item.place()));
    }

    private Optional<Protocol.Event> event(Tree.Mapping item) {
        return Optional.of(
                new Protocol.Event(item.text("date").orElse(""), item.text("what").orElse("")));
    }
}
