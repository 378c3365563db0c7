package splitledger.characteristic;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.RatioFit;
import splitledger.study.Compounds.Compound;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * The set-ups of the split in order of the run: a set-up is a run of injections at one ratio on one
 * day, or what the protocol names as such. Responses are areas as they are: a ratio to an internal
 * standard would cancel the split. Solutions that belong to one ratio each count by their amounts.
 */
final class SplitSetUps {
    /** Share of a compound's rows that must hold a positive area. */
    private static final double ENOUGH = 0.8;

    /** How unlike the areas of a peak may be at the lowest ratio. */
    private static final double UNLIKE = 10;

    /** Weights whose sum is this small set compounds against each other. */
    private static final double CONTRAST = 1e-9;

    private static final MathContext SIX = new MathContext(6);
    private static final String RATIO = "split_ratio";

    /**
     * One set-up.
     *
     * @param told the ratio as the table has it, to six digits
     * @param ratio total flow to column flow, by the protocol's convention
     * @param day day and instrument
     * @param solutions levels injected
     * @param logs logarithms of the responses by injection and compound; {@code NaN} where there is
     *     none
     * @param flowRatio from the flows of the table; {@code NaN} without them
     * @param meanAmount of the compounds in the solutions; {@code NaN} where it is not told
     */
    record SetUp(
            double told,
            double ratio,
            String day,
            String solutions,
            List<List<Double>> logs,
            double flowRatio,
            double meanAmount) {}

    private final Study study;
    private final Rows rows;
    private final String setUpColumn;
    private final double offset;
    private final List<Flag> flags = new ArrayList<>();
    private final List<String> compounds;
    private final boolean byAmount;
    private final boolean daysApart;
    private final List<SetUp> setUps;

    SplitSetUps(Study study, Rows rows, String setUpColumn) {
        this.study = study;
        this.rows = rows;
        this.setUpColumn = setUpColumn;
        this.offset =
                study.protocol().conventions().splitRatio().equals("vent-to-column")
                                && study.table().numbers(RATIO).isPresent()
                        ? 1
                        : 0;
        final List<String> candidates = seen();
        final Map<String, TreeSet<Double>> settings = new TreeMap<>();
        final List<SetUp> plain = collected(candidates, false);
        plain.forEach(
                s -> settings.computeIfAbsent(s.solutions(), k -> new TreeSet<>()).add(s.told()));
        final boolean tied =
                settings.size() > 1 && settings.values().stream().anyMatch(r -> r.size() == 1);
        this.byAmount = tied;
        this.compounds = tied ? candidates.stream().filter(this::hasAmounts).toList() : candidates;
        this.setUps = tied ? collected(compounds, true) : plain;
        this.daysApart =
                compounds.isEmpty() || fit(mean(compounds), true).line() instanceof Computed<?>;
    }

    /** In order of the run. */
    List<SetUp> setUps() {
        return setUps;
    }

    /** Those with positive areas, as the protocol lists them. */
    List<String> compounds() {
        return compounds;
    }

    /** Rows that gave no response, each with its reason. */
    List<Flag> flags() {
        return flags;
    }

    /** What the protocol's convention adds to the ratio of the table: 0 or 1. */
    double conventionOffset() {
        return offset;
    }

    /** Whether responses are divided by amounts, every ratio having a solution of its own. */
    boolean byAmount() {
        return byAmount;
    }

    /** Whether every day (and instrument) has a level of its own in the fit. */
    boolean daysApart() {
        return daysApart;
    }

    /** How many days and instruments. */
    long days() {
        return setUps.stream().map(SetUp::day).distinct().count();
    }

    /** How many solutions were injected. */
    long solutions() {
        return setUps.stream().map(SetUp::solutions).distinct().count();
    }

    /** The settings as the table has them, ascending. */
    List<Double> settings() {
        return setUps.stream().map(SetUp::told).distinct().sorted().toList();
    }

    /** The set-ups of a setting. */
    List<SetUp> at(double told) {
        return setUps.stream().filter(s -> s.told() == told).toList();
    }

    /** Normal boiling point, degC. */
    OptionalDouble boilingPoint(String compound) {
        return study.compounds().known().stream()
                .filter(c -> c.name().equals(compound))
                .findFirst()
                .map(Compound::boilingPoint)
                .orElse(OptionalDouble.empty());
    }

    /** Equal parts of some compounds. */
    double[] mean(List<String> some) {
        final double[] k = new double[compounds.size()];
        some.forEach(c -> k[compounds.indexOf(c)] = 1.0 / some.size());
        return k;
    }

    /** Mean logarithm of a compound's responses at the lowest ratio: its largest ones. */
    double largest(String compound) {
        final double least = setUps.stream().mapToDouble(SetUp::told).min().orElse(Double.NaN);
        final int at = compounds.indexOf(compound);
        return at(least).stream()
                .flatMap(s -> s.logs().stream())
                .mapToDouble(l -> l.get(at))
                .filter(v -> !Double.isNaN(v))
                .average()
                .orElse(Double.NaN);
    }

    /** The rows of some compounds. */
    Rows rows(List<String> some) {
        final InjectionTable table = study.table();
        return rows.only(r -> some.contains(table.compound(r)) && table.state(r) == State.MEASURED);
    }

    /** A combination of compounds' logarithmic responses over set-ups, against the ratio. */
    RatioFit fit(double... weights) {
        return fit(weights, daysApart);
    }

    private RatioFit fit(double[] weights, boolean days) {
        final List<Double> z = new ArrayList<>();
        final List<Double> ratios = new ArrayList<>();
        final List<Integer> counts = new ArrayList<>();
        final Map<String, Integer> numbers = new LinkedHashMap<>();
        final List<Integer> blocks = new ArrayList<>();
        final List<Double> squares = new ArrayList<>();
        for (SetUp s : setUps) {
            final double[] values =
                    s.logs().stream()
                            .mapToDouble(l -> combined(weights, l))
                            .filter(v -> !Double.isNaN(v))
                            .toArray();
            if (values.length == 0) {
                continue;
            }
            final double mean = Arrays.stream(values).average().orElse(Double.NaN);
            squares.add(Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum());
            z.add(mean);
            ratios.add(s.ratio());
            counts.add(values.length);
            final String block = (days ? s.day() : "") + "\u0000" + (byAmount ? "" : s.solutions());
            blocks.add(numbers.computeIfAbsent(block, b -> numbers.size()));
        }
        final RatioFit plain = RatioFit.of(array(ratios), array(z), ones(z.size()), ints(blocks));
        if (Math.abs(Arrays.stream(weights).sum()) < CONTRAST * largest(weights)) {
            return plain.weightedByScatter(array(squares), ints(counts));
        }
        final int freedom = counts.stream().mapToInt(n -> n - 1).sum();
        final double sum = squares.stream().mapToDouble(s -> s).sum();
        return plain.weighted(freedom > 0 ? sum / freedom : Double.NaN, ints(counts));
    }

    private static double largest(double... weights) {
        return Arrays.stream(weights).map(Math::abs).max().orElse(0);
    }

    /** Not a number if a compound with a weight is missing. */
    private static double combined(double[] weights, List<Double> logs) {
        double sum = 0;
        for (int c = 0; c < weights.length; c++) {
            if (weights[c] != 0) {
                sum += weights[c] * logs.get(c);
            }
        }
        return sum;
    }

    private static double[] array(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static int[] ints(List<Integer> values) {
        return values.stream().mapToInt(Integer::intValue).toArray();
    }

    private static double[] ones(int n) {
        final double[] ones = new double[n];
        Arrays.fill(ones, 1);
        return ones;
    }

    private List<String> seen() {
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

    /** Areas forced where there is no peak scatter about 0: at the lowest ratio a peak does not. */
    private boolean isPeak(Rows own) {
        final double lowest = own.stream().mapToDouble(this::ratio).min().orElse(Double.NaN);
        final DoubleSummaryStatistics areas =
                own.stream()
                        .filter(r -> ratio(r) == lowest && study.table().state(r) == State.MEASURED)
                        .mapToDouble(r -> study.table().area(r))
                        .summaryStatistics();
        return areas.getMin() > areas.getMax() / UNLIKE;
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

    private boolean hasAmounts(String compound) {
        final InjectionTable table = study.table();
        return rows.stream()
                .filter(r -> table.compound(r).equals(compound) && positive(r))
                .allMatch(r -> table.number("amount", r) > 0);
    }

    /** Injections in order of the run; a change of ratio, day or instrument begins a new set-up. */
    private List<SetUp> collected(List<String> some, boolean divided) {
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
        final TreeSet<String> levels = new TreeSet<>();
        for (List<Integer> injection : group) {
            final Double[] values = new Double[some.size()];
            Arrays.fill(values, Double.NaN);
            for (int row : injection) {
                levels.add(table.label("level", row));
                if (positive(row)) {
                    final double amount = divided ? table.number("amount", row) : 1;
                    values[some.indexOf(table.compound(row))] =
                            FastMath.log(table.area(row) / amount);
                }
            }
            logs.add(List.of(values));
        }
        final double flows =
                group.stream().mapToDouble(i -> flowRatio(i.get(0))).average().orElse(Double.NaN);
        return new SetUp(
                ratio(first),
                ratio(first) + offset,
                day(first),
                String.join(" + ", levels),
                logs,
                flows,
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
