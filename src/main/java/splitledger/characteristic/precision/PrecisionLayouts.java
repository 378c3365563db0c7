package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import splitledger.characteristic.Responses;
import splitledger.statistics.Outcome;
import splitledger.statistics.ScatterDesign;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.ScatterStructure;
import splitledger.study.InjectionTable;
import splitledger.study.Tree;

/**
 * How the rows of a precision study hang together; worked out once for all compounds that were seen
 * in the same injections.
 */
final class PrecisionLayouts {
    /** What a solution meets after it was made: one preparation can go to several of them. */
    private static final List<String> AFTER_PREPARATION = List.of("instrument", "liner");

    private final InjectionTable table;
    private final List<String> factors;
    private final Map<String, String> nestedIn = new LinkedHashMap<>();
    private final OptionalDouble meanOf;
    private final Map<List<String>, Layout> known = new ConcurrentHashMap<>();

    PrecisionLayouts(
            InjectionTable table,
            List<String> factors,
            Tree.Mapping nested,
            OptionalDouble meanOf) {
        this.table = table;
        this.factors = factors;
        this.meanOf = meanOf;
        nested.entries()
                .keySet()
                .forEach(name -> nested.text(name).ifPresent(in -> nestedIn.put(name, in)));
    }

    /** The same where one label of a preparation means another one at each level of a column. */
    PrecisionLayouts within(String level) {
        if (level.isEmpty()) {
            return this;
        }
        final List<String> more = new ArrayList<>(factors);
        more.add(level);
        return new PrecisionLayouts(table, more, Tree.Mapping.EMPTY, meanOf);
    }

    /**
     * One pattern of rows.
     *
     * @param factors as named in the protocol, without the preparation
     * @param structure read from the labels, before terms that add nothing are left out
     * @param design what the labels determine, or why they determine nothing
     * @param meanOf injections of one preparation that a result averages
     * @param preparations how many
     * @param rows how many
     * @param crossedWith factors under several of whose labels one preparation occurs
     * @param restarted whether labels of preparations occur again where they mean others
     */
    record Layout(
            List<ScatterFactor> factors,
            ScatterStructure structure,
            Outcome<ScatterDesign> design,
            double meanOf,
            int preparations,
            int rows,
            List<String> crossedWith,
            boolean restarted) {
        Layout {
            factors = List.copyOf(factors);
            crossedWith = List.copyOf(crossedWith);
        }
    }

    /** The layout of these responses, at least one. */
    Layout of(List<Responses.Response> used) {
        final List<String> cells = used.stream().map(this::cells).toList();
        return known.computeIfAbsent(cells, c -> read(used, c));
    }

    private String cells(Responses.Response r) {
        return conditions(r.row()) + "\t" + r.preparation();
    }

    /** Conditions and preparation of a row, unique for each solution under each set. */
    String cells(int row) {
        return conditions(row) + "\t" + table.label("preparation", row);
    }

    /** Labels of all factors of a row. */
    String conditions(int row) {
        return factors.stream().map(f -> cell(table, f, row)).collect(Collectors.joining("\t"));
    }

    static String cell(InjectionTable table, String column, int row) {
        return table.numbers(column).isPresent()
                ? Double.toString(table.number(column, row))
                : table.label(column, row);
    }

    private Layout read(List<Responses.Response> used, List<String> cells) {
        final List<ScatterFactor> own = new ArrayList<>();
        for (String factor : factors) {
            own.add(
                    ScatterFactor.of(
                            factor, used.stream().map(r -> cell(table, factor, r.row())).toList()));
        }
        final ScatterFactor preparation =
                ScatterFactor.of(
                        ScatterStructure.PREPARATION,
                        used.stream().map(Responses.Response::preparation).toList());
        final Map<String, String> overrides = new LinkedHashMap<>(nestedIn);
        final List<String> under =
                own.stream()
                        .filter(f -> f.levels() > 1 && !preparation.isNestedIn(f))
                        .map(ScatterFactor::name)
                        .toList();
        final boolean told = nestedIn.containsKey(ScatterStructure.PREPARATION);
        final boolean crossed = !told && !under.isEmpty() && isCrossed(own, preparation, under);
        if (crossed) {
            overrides.put(ScatterStructure.PREPARATION, "");
        }
        final ScatterStructure structure =
                ScatterStructure.read(own, java.util.Optional.of(preparation), overrides);
        final Outcome<ScatterDesign> design = ScatterDesign.of(structure, used.size());
        final int distinct = (int) cells.stream().distinct().count();
        final double perCell = (double) used.size() / distinct;
        return new Layout(
                own,
                structure,
                design,
                meanOf.orElseGet(
                        () -> crossed ? perCell : design.fold(d -> size(d, perCell), n -> perCell)),
                crossed ? preparation.levels() : distinct,
                used.size(),
                crossed ? under : List.of(),
                !crossed && !told && !under.isEmpty());
    }

    /**
     * A preparation that lies within some factors and under several labels of others is one
     * solution that was measured under each of them; labels that recur everywhere were numbered
     * anew, unless all they recur under is what a solution meets only after it was made.
     */
    private static boolean isCrossed(
            List<ScatterFactor> factors, ScatterFactor preparation, List<String> under) {
        return AFTER_PREPARATION.containsAll(under)
                || factors.stream().anyMatch(f -> f.levels() > 1 && preparation.isNestedIn(f));
    }

    /** Injections of a preparation, as the mean squares see them: a whole number if balanced. */
    private static double size(ScatterDesign design, double perCell) {
        final int place = design.structure().names().indexOf(ScatterStructure.PREPARATION);
        if (place < 0) {
            return perCell;
        }
        return place == design.components() - 1
                ? 1
                : design.expectedShare(place, place)
                        / design.expectedShare(place, design.components() - 1);
    }
}
