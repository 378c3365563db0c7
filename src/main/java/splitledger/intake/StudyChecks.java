package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.base.Nearest;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.State;
import splitledger.study.Tree;
import splitledger.study.Where;

/** What only protocol and tables together can show. */
final class StudyChecks {
    private static final List<String> NEED_PREPARATIONS =
            List.of("calibration", "repeatability", "detection");

    private final Tree.Mapping tree;
    private final Reading reading;

    StudyChecks(Tree.Mapping tree, Reading reading) {
        this.tree = tree;
        this.reading = reading;
    }

    /** Every column that the protocol names must be in a table. */
    void columns(Wanted wanted, Set<String> columns) {
        final Set<String> told = new LinkedHashSet<>();
        for (Wanted.Mention mention : wanted.mentions()) {
            if (!columns.contains(mention.column())
                    && told.add(mention.column() + mention.place())) {
                reading.problem(
                        mention.place(),
                        "the column '" + mention.column() + "', which no table has",
                        "a column of the tables",
                        Nearest.hint(mention.column(), columns));
            }
        }
    }

    /** Asks what a preparation is where a characteristic needs it and nothing tells. */
    void preparations(Set<String> columns) {
        final Optional<String> stated = tree.mapping("conventions").text("preparation");
        if (columns.contains(Columns.PREPARATION)) {
            if (stated.isPresent()) {
                final Place place =
                        tree.mapping("conventions")
                                .get("preparation")
                                .map(Tree::place)
                                .orElse(tree.place());
                reading.problem(
                        place,
                        "each-injection beside a column 'preparation'",
                        "one meaning of a preparation",
                        "take the convention out, or map the column to another name");
            }
            return;
        }
        final Tree.Mapping asked = tree.mapping("characteristics");
        final List<String> needy =
                NEED_PREPARATIONS.stream().filter(c -> asked.get(c).isPresent()).toList();
        if (stated.isEmpty() && !needy.isEmpty()) {
            reading.problem(
                    asked.place(),
                    "no column 'preparation', which " + String.join(", ", needy) + " must know",
                    "an answer to: which injections are of one independently made solution?",
                    "map the column that tells flasks apart (columns: {preparation: HEADING}); or, if"
                            + " every injection was of a solution made for it alone, say conventions:"
                            + " {preparation: each-injection}");
        }
    }

    /** Asks which split ratio the tables hold. */
    void splitRatio(List<RawTable> tables) {
        if (tree.mapping("conventions").text("split-ratio").isPresent()) {
            return;
        }
        tables.stream()
                .filter(t -> t.columns().contains(Columns.SPLIT_RATIO))
                .findFirst()
                .ifPresent(
                        t ->
                                reading.problem(
                                        tree.get("conventions")
                                                .map(Tree::place)
                                                .orElse(
                                                        new Place(
                                                                tree.place().file(),
                                                                0,
                                                                "conventions")),
                                        "no key 'split-ratio' though "
                                                + t.spec().file()
                                                + " has a column 'split_ratio'",
                                        "an answer to: is it (vent + column flow)/column flow, or vent"
                                                + " flow/column flow?",
                                        "add split-ratio: total-to-column, or split-ratio:"
                                                + " vent-to-column"));
    }

    /** Every exclusion must name rows. */
    void exclusions(List<Protocol.Exclusion> exclusions, Frame frame) {
        final Set<String> injections = new LinkedHashSet<>(frame.injections());
        for (Protocol.Exclusion exclusion : exclusions) {
            if (!injections.contains(exclusion.injection())) {
                reading.problem(
                        exclusion.place(),
                        "the injection '" + exclusion.injection() + "', which no table has",
                        "an injection of the tables",
                        Nearest.to(exclusion.injection(), injections)
                                .map(near -> "did you mean '" + near + "'?")
                                .orElse("write its label as in the table"));
            }
            if (!exclusion.compound().equals("all")
                    && !frame.compounds().contains(exclusion.compound())) {
                reading.problem(
                        exclusion.place(),
                        "the compound '" + exclusion.compound() + "', which is not in the study",
                        "a compound of the study, or all",
                        Nearest.hint(exclusion.compound(), frame.compounds()));
            }
        }
    }

    /** Every condition on rows must be met by some. */
    void wheres(ProtocolSchema schema, InjectionTable table) {
        tree.mapping("characteristics")
                .entries()
                .forEach(
                        (id, options) -> {
                            if (options instanceof Tree.Mapping mapping) {
                                schema.wheres(id).forEach(w -> where(mapping.get(w), table));
                            }
                        });
        where(tree.mapping("measurand").get("results-for"), table);
    }

    private void where(Optional<Tree> there, InjectionTable table) {
        if (there.isEmpty()
                || !(there.get() instanceof Tree.Mapping mapping)
                || reading.touched(mapping.place())) {
            return;
        }
        final Where where = Where.of(mapping);
        if (boundsOnLabels(mapping, where, table)) {
            return;
        }
        if (table.rows(where).isEmpty()) {
            reading.problem(
                    mapping.place(),
                    "no row where " + where.words(),
                    "at least one row",
                    emptyHint(where, table));
            return;
        }
        for (Where.Condition condition : where.conditions()) {
            if (condition instanceof Where.OneOf some && some.labels().size() > 1) {
                tellUnusedLabels(mapping.place(), some, table);
            }
        }
    }

    private boolean boundsOnLabels(Tree.Mapping mapping, Where where, InjectionTable table) {
        boolean any = false;
        for (Where.Condition condition : where.conditions()) {
            if (condition instanceof Where.Within && table.labels(condition.column()).isPresent()) {
                any = true;
                reading.problem(
                        mapping.get(condition.column()).map(Tree::place).orElse(mapping.place()),
                        "bounds on the column '" + condition.column() + "', which holds labels",
                        "labels, or a column of numbers",
                        "list the labels");
            }
        }
        return any;
    }

    private void tellUnusedLabels(Place place, Where.OneOf some, InjectionTable table) {
        for (String label : some.labels()) {
            final Where alone =
                    new Where(place, List.of(new Where.OneOf(some.column(), List.of(label))));
            if (table.rows(alone).isEmpty()) {
                reading.flag(place, some.column(), "no row where " + alone.words());
            }
        }
    }

    private static String emptyHint(Where where, InjectionTable table) {
        for (Where.Condition condition : where.conditions()) {
            if (table.rows(new Where(where.place(), List.of(condition))).isEmpty()) {
                return "the column '"
                        + condition.column()
                        + "' holds: "
                        + Reading.listed(values(condition.column(), table));
            }
        }
        return "each condition alone is met by rows, all together by none";
    }

    private static List<String> values(String column, InjectionTable table) {
        final Set<String> values = new TreeSet<>();
        for (int row = 0; row < table.size(); row++) {
            final double number = table.number(column, row);
            final String text =
                    Double.isNaN(number)
                            ? table.label(column, row)
                            : splitledger.base.Numbers.text(number);
            values.add(text.isEmpty() ? "(empty)" : text);
        }
        return new ArrayList<>(values);
    }

    /** Flags how often each compound was not detected, or has no row. */
    static void tellGaps(InjectionTable table, Reading reading) {
        final TreeMap<State, TreeMap<String, int[]>> gaps = new TreeMap<>();
        for (int row = 0; row < table.size(); row++) {
            final State state = table.state(row);
            if (state != State.MEASURED) {
                gaps.computeIfAbsent(state, s -> new TreeMap<>())
                        .computeIfAbsent(table.compound(row), c -> new int[1])[0]++;
            }
        }
        if (gaps.isEmpty()) {
            return;
        }
        final Set<String> injections = new TreeSet<>();
        for (int row = 0; row < table.size(); row++) {
            if (row == 0 || !table.injection(row).equals(table.injection(row - 1))) {
                injections.add(table.injection(row));
            }
        }
        gaps.forEach(
                (state, counts) ->
                        counts.forEach(
                                (compound, count) ->
                                        reading.flag(
                                                Place.NONE,
                                                compound,
                                                words(state)
                                                        + " in "
                                                        + count[0]
                                                        + " of "
                                                        + injections.size()
                                                        + " injections")));
    }

    private static String words(State state) {
        return state == State.ABSENT ? "no row" : state.code().replace('-', ' ');
    }
}
