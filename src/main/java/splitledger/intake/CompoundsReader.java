package splitledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import splitledger.study.Compounds.Compound;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Place;
import splitledger.study.Tree;

/** Reads which compounds the protocol asks for, and the compound table. */
final class CompoundsReader {
    private static final Pattern RANGE =
            Pattern.compile("(.*?)(\\d{1,6})\\s+to\\s+(.*?)(\\d{1,6})");
    private static final List<String> IN_CHARACTERISTICS = List.of("parent", "labile", "products");

    private final Tree.Mapping protocol;
    private final Tree.Mapping compounds;
    private final InputFolder folder;
    private final Reading reading;
    private final Map<String, Place> places = new LinkedHashMap<>();

    CompoundsReader(Tree.Mapping protocol, InputFolder folder, Reading reading) {
        this.protocol = protocol;
        compounds = protocol.mapping("compounds");
        this.folder = folder;
        this.reading = reading;
    }

    /** All that can be told before the tables are read. */
    Candidates read() throws IOException {
        final Map<String, Compound> table = table();
        final List<String> targets = names(compounds, "targets");
        final Optional<Matcher> range = rangeText();
        final List<String> listed = range.isPresent() ? List.of() : names(compounds, "ladder");
        final Place ladderPlace = compounds.get("ladder").map(Tree::place).orElse(Place.NONE);
        final List<Compound> members =
                range.map(matcher -> members(matcher, table, ladderPlace)).orElse(List.of());
        final Optional<InternalStandard> internal = internalStandard();
        final Set<String> products = new LinkedHashSet<>();
        protocol.mapping("characteristics").entries().values().stream()
                .filter(Tree.Mapping.class::isInstance)
                .forEach(
                        c ->
                                IN_CHARACTERISTICS.forEach(
                                        key -> products.addAll(names((Tree.Mapping) c, key))));
        targets.forEach(products::remove);
        listed.forEach(products::remove);
        members.forEach(m -> products.remove(m.name()));
        internal.ifPresent(i -> products.remove(i.compound()));
        return new Candidates(
                targets,
                listed,
                members,
                List.copyOf(products),
                internal,
                table,
                places,
                ladderPlace);
    }

    private List<String> names(Tree.Mapping mapping, String key) {
        final Optional<Tree> tree = mapping.get(key);
        if (tree.isEmpty() || reading.touched(tree.get().place())) {
            return List.of();
        }
        if (tree.get() instanceof Tree.Sequence sequence) {
            for (Tree item : sequence.items()) {
                if (item instanceof Tree.Scalar scalar) {
                    places.putIfAbsent(scalar.text(), scalar.place());
                }
            }
        } else if (tree.get() instanceof Tree.Scalar scalar) {
            places.putIfAbsent(scalar.text(), scalar.place());
        }
        if (tree.get() instanceof Tree.Mapping groups) {
            final List<String> all = new ArrayList<>();
            for (Map.Entry<String, Tree> e : groups.entries().entrySet()) {
                places.putIfAbsent(e.getKey(), e.getValue().place());
                all.add(e.getKey());
                all.addAll(names(groups, e.getKey()));
            }
            return all;
        }
        return mapping.texts(key);
    }

    private Optional<Matcher> rangeText() {
        if (compounds.get("ladder").orElse(Tree.Mapping.EMPTY) instanceof Tree.Scalar scalar) {
            final Matcher matcher = RANGE.matcher(scalar.text().strip());
            if (matcher.matches()) {
                return Optional.of(matcher);
            }
        }
        return Optional.empty();
    }

    private List<Compound> members(Matcher range, Map<String, Compound> table, Place place) {
        final String prefix = range.group(1);
        final int from = Integer.parseInt(range.group(2));
        final int to = Integer.parseInt(range.group(4));
        if (!prefix.equals(range.group(3)) || from > to) {
            reading.problem(
                    place,
                    "'" + range.group() + "'",
                    "a range of one series, the shorter member first, such as n-C8 to n-C40",
                    "or list the members");
            return List.of();
        }
        if (compounds.get("from").isEmpty()) {
            reading.problem(
                    place,
                    "a range without a compound table",
                    "the key 'from' with a table that lists the members",
                    "add 'from', or list the members");
            return List.of();
        }
        final List<Compound> members = new ArrayList<>();
        for (int k = from; k <= to; k++) {
            Optional.ofNullable(table.get(prefix + k)).ifPresent(members::add);
        }
        return members;
    }

    private Optional<InternalStandard> internalStandard() {
        final Tree.Mapping given = compounds.mapping("internal-standard");
        final Optional<String> name = given.text("compound");
        if (name.isEmpty() || reading.touched(given.place())) {
            return Optional.empty();
        }
        names(given, "compound");
        final Optional<Quantity> amount = Quantity.ofSize(given, "amount", reading);
        final Optional<Quantity> u = Quantity.ofSize(given, "standard-uncertainty", reading);
        if (u.isPresent() && given.get("amount").isEmpty()) {
            reading.problem(
                    given.place(),
                    "a standard uncertainty without an amount",
                    "the key 'amount'",
                    "add the amount of the internal standard");
        }
        if (amount.isPresent() && u.isPresent()) {
            amount.get().agrees(u.get(), given, "standard-uncertainty", reading);
        }
        return Optional.of(
                new InternalStandard(
                        name.get(),
                        amount.map(a -> OptionalDouble.of(a.value()))
                                .orElse(OptionalDouble.empty()),
                        u.map(Quantity::value).orElse(0.0),
                        amount.map(Quantity::unit).orElse("")));
    }

    private Map<String, Compound> table() throws IOException {
        final Optional<Tree> from = compounds.get("from");
        final Optional<String> written = compounds.text("from");
        if (from.isEmpty() || written.isEmpty() || reading.touched(from.get().place())) {
            return Map.of();
        }
        final Optional<String> name = folder.find(from.get().place(), written.get());
        if (name.isEmpty()) {
            return Map.of();
        }
        final CompoundRows rows = new CompoundRows(written.get(), reading);
        TableFile.read(
                folder,
                "compounds",
                name.get(),
                written.get(),
                TableFormat.UNSTATED,
                reading,
                rows);
        return rows.compounds();
    }
}
