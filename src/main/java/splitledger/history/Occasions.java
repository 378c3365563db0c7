package splitledger.history;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.characteristic.maintenance.Maintenance;
import splitledger.characteristic.maintenance.OccasionScatter;
import splitledger.evaluation.Evaluator;
import splitledger.study.Compounds;
import splitledger.study.Compounds.Compound;
import splitledger.study.Criterion;
import splitledger.study.Doubles;
import splitledger.study.Extent;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.InputFile;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * Makes one study of two, told apart by the column {@code occasion}: the rows that each protocol's
 * block {@code maintenance} names, under that characteristic alone.
 */
public final class Occasions {
    /** Label of the earlier study. */
    public static final String BEFORE = "before";

    /** Label of the later study. */
    public static final String AFTER = "after";

    private static final String OCCASION = "occasion";
    private static final Set<String> QUANTITIES =
            Set.of("response-change", "equivalence-p", "restored", "injections-needed");

    private final Study before;
    private final Study after;

    private Occasions(Study before, Study after) {
        this.before = before;
        this.after = after;
    }

    /**
     * Merges. Options of the later protocol go before those of the earlier one.
     *
     * @throws ProblemException if neither states what to compare, or the areas have other units
     */
    public static Study merged(Study before, Study after) throws ProblemException {
        return new Occasions(before, after).study();
    }

    /** The compared rows of the later study. */
    public static Rows compared(Study after) {
        return after.table()
                .rows(
                        Where.of(
                                after.protocol()
                                        .characteristics()
                                        .getOrDefault(Maintenance.ID, Tree.Mapping.EMPTY)
                                        .mapping("where")));
    }

    /**
     * The earlier study's own scatter between days or occasions, where it has the characteristic
     * repeatability and neither protocol states another.
     */
    private Tree.Mapping scatter(Tree.Mapping stated) throws ProblemException {
        final String id = "repeatability";
        final Tree.Mapping block = before.protocol().characteristics().get(id);
        if (block == null || stated.get(OccasionScatter.SCATTER).isPresent()) {
            return stated;
        }
        final Protocol all = before.protocol();
        final Protocol alone =
                new Protocol(
                        all.title(),
                        all.purpose(),
                        all.laboratory(),
                        all.instrument(),
                        all.conventions(),
                        Map.of(id, block),
                        List.of(),
                        Optional.empty(),
                        all.exclusions(),
                        all.events());
        final Study precision =
                new Study(
                        alone,
                        before.compounds(),
                        before.table(),
                        before.inputs(),
                        List.of(),
                        List.of());
        return OccasionScatter.found(
                        precision, Evaluator.evaluate(precision, Extent.FORMULAS).findings())
                .in(stated);
    }

    private Study study() throws ProblemException {
        final String one = before.protocol().conventions().areaUnit();
        final String other = after.protocol().conventions().areaUnit();
        if (!one.equals(other)) {
            throw refused(
                    "areas in '" + one + "' before and '" + other + "' after",
                    "areas in the same unit",
                    "bring both tables to one unit");
        }
        final Tree.Mapping options = options();
        final Tree.Mapping first = options(before, options);
        final Tree.Mapping second = options(after, options);
        final List<Row> rows = new ArrayList<>();
        rows(before, BEFORE, first, rows);
        rows(after, AFTER, second, rows);
        final List<Flag> flags = new ArrayList<>(before.flags());
        after.flags().stream().filter(f -> !flags.contains(f)).forEach(flags::add);
        final Map<String, InputFile> inputs = new LinkedHashMap<>();
        before.inputs().forEach(i -> inputs.put(i.role() + " " + i.name(), i));
        after.inputs().forEach(i -> inputs.put(i.role() + " " + i.name(), i));
        return new Study(
                protocol(scatter(options)),
                compounds(),
                table(rows),
                List.copyOf(inputs.values()),
                flags,
                List.of());
    }

    private Tree.Mapping options() throws ProblemException {
        final Tree.Mapping all = own(before).with(own(after));
        if (all.number("margin").isEmpty()) {
            throw refused(
                    "no block 'maintenance' with a margin in either protocol",
                    "characteristics: {maintenance: {where: {series: ladder}, margin: 5}}",
                    "say in the later protocol which rows are compared and which change does not matter");
        }
        return all;
    }

    private static Tree.Mapping own(Study study) {
        return study.protocol().characteristics().getOrDefault(Maintenance.ID, Tree.Mapping.EMPTY);
    }

    /** Where a study's own rows are: its own block, else the other's. */
    private static Tree.Mapping options(Study study, Tree.Mapping merged) {
        return own(study).get("where").isPresent() ? own(study) : merged;
    }

    private ProblemException refused(String found, String expected, String hint) {
        final String file =
                after.inputs().stream()
                        .filter(i -> i.role().equals("protocol"))
                        .map(InputFile::name)
                        .findFirst()
                        .orElse("");
        return new ProblemException(new Problem(file, 0, Maintenance.ID, found, expected, hint));
    }

    /** One row of one of the studies. */
    private record Row(InjectionTable table, int row, String occasion) {}

    private static void rows(Study study, String occasion, Tree.Mapping options, List<Row> into) {
        study.table().rows(Where.of(options.mapping("where"))).stream()
                .forEach(row -> into.add(new Row(study.table(), row, occasion)));
    }

    private static InjectionTable table(List<Row> rows) {
        final InjectionTable.Builder builder = InjectionTable.ofSize(rows.size());
        final Set<String> columns = new TreeSet<>();
        final Set<String> labelled = new TreeSet<>(Set.of(OCCASION, "injection", "compound"));
        for (Row r : rows) {
            columns.addAll(r.table().columns());
            r.table().columns().stream()
                    .filter(c -> r.table().labels(c).isPresent())
                    .forEach(labelled::add);
        }
        columns.add(OCCASION);
        for (String column : columns) {
            if (labelled.contains(column)) {
                builder.labels(column, labels(rows.stream().map(r -> label(r, column)).toList()));
            } else {
                builder.numbers(
                        column,
                        Doubles.of(
                                rows.stream()
                                        .mapToDouble(r -> r.table().number(column, r.row()))
                                        .toArray()));
            }
        }
        final List<State> states = rows.stream().map(r -> r.table().state(r.row())).toList();
        final List<Place> places = rows.stream().map(r -> r.table().place(r.row())).toList();
        final InjectionTable.Labels files = labels(places.stream().map(Place::file).toList());
        return builder.states(states)
                .places(
                        files.labels(),
                        files.codes(),
                        InjectionTable.Codes.of(places.stream().mapToInt(Place::row).toArray()))
                .build();
    }

    private static String label(Row r, String column) {
        if (column.equals(OCCASION)) {
            return r.occasion();
        }
        final double number = r.table().number(column, r.row());
        final String text =
                Double.isNaN(number) ? r.table().label(column, r.row()) : Numbers.text(number);
        return column.equals("injection") ? r.occasion() + "/" + text : text;
    }

    private static InjectionTable.Labels labels(List<String> texts) {
        final List<String> distinct = new ArrayList<>(new LinkedHashSet<>(texts));
        final Map<String, Integer> codes = new LinkedHashMap<>();
        distinct.forEach(t -> codes.put(t, codes.size()));
        return new InjectionTable.Labels(
                InjectionTable.Codes.of(
                        texts.stream().mapToInt(t -> codes.getOrDefault(t, 0)).toArray()),
                distinct);
    }

    private Compounds compounds() {
        return new Compounds(
                together(before.compounds().targets(), after.compounds().targets()),
                together(before.compounds().ladder(), after.compounds().ladder()),
                List.of(),
                Optional.empty(),
                known());
    }

    private static List<String> together(List<String> one, List<String> other) {
        final Set<String> all = new LinkedHashSet<>(one);
        all.addAll(other);
        return List.copyOf(all);
    }

    private List<Compound> known() {
        final Map<String, Compound> known = new LinkedHashMap<>();
        before.compounds().known().forEach(c -> known.put(c.name(), c));
        after.compounds().known().forEach(c -> known.put(c.name(), c));
        return List.copyOf(known.values());
    }

    private Protocol protocol(Tree.Mapping options) {
        final Protocol later = after.protocol();
        final Map<String, Tree> own = new LinkedHashMap<>(options.entries());
        own.put(
                "where",
                mapping(
                        OCCASION,
                        new Tree.Sequence(Place.NONE, List.of(text(BEFORE), text(AFTER)))));
        own.put(BEFORE, text(BEFORE));
        own.put(AFTER, text(AFTER));
        final List<Criterion> requirements =
                later.requirements().stream()
                        .filter(r -> QUANTITIES.contains(r.quantity()))
                        .toList();
        final List<Protocol.Exclusion> exclusions = new ArrayList<>(before.protocol().exclusions());
        exclusions.addAll(later.exclusions());
        return new Protocol(
                later.title() + " (compared with: " + before.protocol().title() + ")",
                "after-maintenance",
                later.laboratory(),
                later.instrument(),
                later.conventions(),
                Map.of(Maintenance.ID, new Tree.Mapping(Place.NONE, own)),
                requirements,
                Optional.empty(),
                exclusions,
                later.events());
    }

    private static Tree.Mapping mapping(String key, Tree value) {
        return new Tree.Mapping(Place.NONE, Map.of(key, value));
    }

    private static Tree text(String text) {
        return new Tree.Scalar(Place.NONE, text, true);
    }
}
