package splitledger.characteristic.split;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.split.SplitSetUps.SetUp;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/** Reads rows of the split experiment into set-ups in order of the run. */
final class SplitRows {
    static final String RATIO = "split_ratio";

    /** Share of a compound's rows that must hold a positive area. */
    private static final double ENOUGH = 0.8;

    /** How unlike the areas of a peak may be at the lowest ratio. */
    private static final double UNLIKE = 2;

    private static final MathContext SIX = new MathContext(6);
    private final Study study;
    private final Rows rows;
    private final String setUpColumn;
    private final double offset;
    private final List<Flag> flags = new ArrayList<>();

    SplitRows(Study study, Rows rows, String setUpColumn, double offset) {
        this.study = study;
        this.rows = rows;
        this.setUpColumn = setUpColumn;
        this.offset = offset;
    }

    /** Rows that gave no response, each with its reason. */
    List<Flag> flags() {
        return List.copyOf(flags);
    }

    /** Compounds with positive areas at all ratios, as the protocol lists them. */
    List<String> seen() {
        final InjectionTable table = study.table();
        final List<String> all = new ArrayList<>(study.compounds().targets());
        study.compounds().ladder().stream().filter(c -> !all.contains(c)).forEach(all::add);
        study.compounds()
                .internalStandard()
                .map(InternalStandard::compound)
                .filter(c -> !all.contains(c))
                .ifPresent(all::add);
        final List<String> seen = new ArrayList<>();
        for (String compound : all) {
            final Rows own = rows.only(r -> table.compound(r).equals(compound));
            final long positive = own.stream().filter(this::positive).count();
            if (!own.isEmpty() && positive >= ENOUGH * own.size() && isPeak(own)) {
                seen.add(compound);
                own.stream().filter(r -> !positive(r)).forEach(r -> flags.add(left(r)));
            }
        }
        return seen;
    }

    /**
     * Areas forced where there is no peak scatter about 0: those of a peak at the lowest ratio are
     * alike, solution by solution.
     */
    private boolean isPeak(Rows own) {
        final double lowest = own.stream().mapToDouble(this::ratio).min().orElse(Double.NaN);
        final Map<String, DoubleSummaryStatistics> bySolution = new LinkedHashMap<>();
        own.stream()
                .filter(r -> ratio(r) == lowest && study.table().state(r) == State.MEASURED)
                .forEach(
                        r ->
                                bySolution
                                        .computeIfAbsent(
                                                study.table().label("level", r),
                                                l -> new DoubleSummaryStatistics())
                                        .accept(study.table().area(r)));
        return bySolution.values().stream().allMatch(a -> a.getMin() > a.getMax() / UNLIKE);
    }

    private boolean positive(int row) {
        return study.table().state(row) == State.MEASURED && study.table().area(row) > 0;
    }

    private Flag left(int row) {
        final InjectionTable table = study.table();
        return new Flag(
                table.place(row),
                "injection " + table.injection(row) + ", " + table.compound(row),
                "left out of the split: "
                        + (table.state(row) == State.MEASURED
                                ? "its area is not above 0"
                                : table.state(row).code().replace('-', ' ')));
    }

    /** Whether every positive area of a compound has its amount. */
    boolean hasAmounts(String compound) {
        final InjectionTable table = study.table();
        return rows.stream()
                .filter(r -> table.compound(r).equals(compound) && positive(r))
                .allMatch(r -> table.number("amount", r) > 0);
    }

    /** Injections in order of the run; a change of ratio, day or instrument begins a new set-up. */
    List<SetUp> setUps(List<String> some, boolean divided) {
        final InjectionTable table = study.table();
        final Map<String, List<Integer>> injections = new LinkedHashMap<>();
        rows.stream()
                .filter(r -> ratio(r) > 0 && some.contains(table.compound(r)))
                .forEach(
                        r ->
                                injections
                                        .computeIfAbsent(table.injection(r), i -> new ArrayList<>())
                                        .add(r));
        final Map<String, List<List<Integer>>> groups = new LinkedHashMap<>();
        String before = "";
        int number = 0;
        for (List<Integer> injection : injections.values()) {
            final int first = injection.get(0);
            final String setting = ratio(first) + "\u0000" + day(first);
            if (setUpColumn.isEmpty()) {
                number += setting.equals(before) ? 0 : 1;
                before = setting;
            }
            final String key = setting + "\u0000" + (setUpColumn.isEmpty() ? number : cell(first));
            groups.computeIfAbsent(key, k -> new ArrayList<>()).add(injection);
        }
        return groups.values().stream().map(g -> setUp(g, some, divided)).toList();
    }

    private SetUp setUp(List<List<Integer>> group, List<String> some, boolean divided) {
        final InjectionTable table = study.table();
        final int first = group.get(0).get(0);
        final List<List<Double>> logs = new ArrayList<>();
        final List<String> levels = new ArrayList<>();
        for (List<Integer> injection : group) {
            final Double[] values = new Double[some.size()];
            Arrays.fill(values, Double.NaN);
            for (int row : injection) {
                if (positive(row)) {
                    final double amount = divided ? table.number("amount", row) : 1;
                    values[some.indexOf(table.compound(row))] =
                            FastMath.log(table.area(row) / amount);
                }
            }
            logs.add(List.of(values));
            levels.add(table.label("level", injection.get(0)));
        }
        final double flows =
                group.stream().mapToDouble(i -> flowRatio(i.get(0))).average().orElse(Double.NaN);
        return new SetUp(
                ratio(first),
                ratio(first) + offset,
                day(first),
                String.join(" + ", new TreeSet<>(levels)),
                levels,
                logs,
                flows,
                group.stream()
                        .mapToDouble(i -> table.number("split_flow", i.get(0)))
                        .average()
                        .orElse(Double.NaN),
                group.stream()
                        .flatMap(List::stream)
                        .mapToDouble(r -> table.number("amount", r))
                        .average()
                        .orElse(Double.NaN));
    }

    private String cell(int row) {
        final Function<Integer, String> number =
                r -> Double.toString(study.table().number(setUpColumn, r));
        return study.table().numbers(setUpColumn).isPresent()
                ? number.apply(row)
                : study.table().label(setUpColumn, row);
    }

    private String day(int row) {
        return study.table().label("day", row) + "\u0000" + study.table().label("instrument", row);
    }

    /** As the table has it, or from its flows; to six digits. */
    private double ratio(int row) {
        final double stated = study.table().number(RATIO, row);
        final double ratio = Double.isNaN(stated) ? flowRatio(row) : stated;
        return Double.isFinite(ratio) ? new BigDecimal(ratio).round(SIX).doubleValue() : Double.NaN;
    }

    private double flowRatio(int row) {
        final double column = study.table().number("column_flow", row);
        return (study.table().number("split_flow", row) + column) / column;
    }
}
