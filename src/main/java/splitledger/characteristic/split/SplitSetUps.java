package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.RatioFit;
import splitledger.study.Compounds.Compound;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * The set-ups of the split in order of the run: a set-up is a run of injections at one ratio on one
 * day, or what the protocol names as such. Responses are areas as they are: a ratio to an internal
 * standard would cancel the split. Solutions that belong to one ratio each count by their amounts.
 */
final class SplitSetUps {
    /** Weights whose sum is this small set compounds against each other. */
    private static final double CONTRAST = 1e-9;

    /**
     * One set-up.
     *
     * @param told the ratio as the table has it, to six digits
     * @param ratio total flow to column flow, by the protocol's convention
     * @param day day and instrument
     * @param solutions levels injected
     * @param levels of each injection
     * @param logs logarithms of the responses by injection and compound; {@code NaN} where there is
     *     none
     * @param flowRatio from the flows of the table; {@code NaN} without them
     * @param vent flow of the split vent in the table, mL/min; {@code NaN} without it
     * @param meanAmount of the compounds in the solutions; {@code NaN} where it is not told
     */
    record SetUp(
            double told,
            double ratio,
            String day,
            String solutions,
            List<String> levels,
            List<List<Double>> logs,
            double flowRatio,
            double vent,
            double meanAmount) {}

    private final Study study;
    private final Rows rows;
    private final double offset;
    private final List<Flag> flags;
    private final List<String> compounds;
    private final boolean byAmount;
    private final boolean daysApart;
    private final List<SetUp> setUps;

    SplitSetUps(Study study, Rows rows, String setUpColumn) {
        this.study = study;
        this.rows = rows;
        this.offset =
                study.protocol().conventions().splitRatio().equals("vent-to-column")
                                && study.table().numbers(SplitRows.RATIO).isPresent()
                        ? 1
                        : 0;
        final SplitRows reading = new SplitRows(study, rows, setUpColumn, offset);
        final List<String> candidates = reading.seen();
        this.flags = reading.flags();
        final Map<String, TreeSet<Double>> settings = new TreeMap<>();
        final List<SetUp> plain = reading.setUps(candidates, false);
        plain.forEach(
                s -> settings.computeIfAbsent(s.solutions(), k -> new TreeSet<>()).add(s.told()));
        final boolean tied =
                settings.size() > 1 && settings.values().stream().anyMatch(r -> r.size() == 1);
        this.byAmount = tied;
        this.compounds =
                tied ? candidates.stream().filter(reading::hasAmounts).toList() : candidates;
        this.setUps = tied ? reading.setUps(compounds, true) : plain;
        this.daysApart =
                compounds.isEmpty() || fit(mean(compounds), true).line() instanceof Computed<?>;
    }

    /** The protocol of the study. */
    Protocol protocol() {
        return study.protocol();
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

    /** Whether more than one solution was injected. */
    boolean several() {
        return setUps.stream().flatMap(s -> s.levels().stream()).distinct().count() > 1;
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
        int freedom = 0;
        for (SetUp s : setUps) {
            // solutions count equally, so that a lost injection does not shift the mean
            final SortedMap<String, List<Double>> values = values(s, weights);
            if (!complete(s, values)) {
                continue;
            }
            double mean = 0;
            double square = 0;
            int count = 0;
            for (List<Double> own : values.values()) {
                final double level = own.stream().mapToDouble(v -> v).average().orElse(0);
                square += own.stream().mapToDouble(v -> (v - level) * (v - level)).sum();
                mean += level / values.size();
                count += own.size();
            }
            squares.add(square);
            freedom += count - values.size();
            z.add(mean);
            ratios.add(s.ratio());
            counts.add(count);
            final String block = (days ? s.day() : "") + "\u0000" + (byAmount ? "" : s.solutions());
            blocks.add(numbers.computeIfAbsent(block, b -> numbers.size()));
        }
        final RatioFit plain = RatioFit.of(array(ratios), array(z), ones(z.size()), ints(blocks));
        if (Math.abs(Arrays.stream(weights).sum()) < CONTRAST * largest(weights)) {
            return plain.weightedByScatter(array(squares), ints(counts));
        }
        final double sum = squares.stream().mapToDouble(s -> s).sum();
        return plain.weighted(freedom > 0 ? sum / freedom : Double.NaN, ints(counts));
    }

    /** The numbers of the set-ups that the fit of these compounds uses, in its order. */
    List<Integer> used(double... weights) {
        return IntStream.range(0, setUps.size())
                .filter(i -> complete(setUps.get(i), values(setUps.get(i), weights)))
                .boxed()
                .toList();
    }

    private static boolean complete(SetUp setUp, SortedMap<String, List<Double>> values) {
        return values.size() >= setUp.levels().stream().distinct().count();
    }

    /** Combined responses of a set-up's injections by solution. */
    private static SortedMap<String, List<Double>> values(SetUp setUp, double... weights) {
        final SortedMap<String, List<Double>> all = new TreeMap<>();
        for (int i = 0; i < setUp.logs().size(); i++) {
            final double value = combined(weights, setUp.logs().get(i));
            if (!Double.isNaN(value)) {
                all.computeIfAbsent(setUp.levels().get(i), l -> new ArrayList<>()).add(value);
            }
        }
        return all;
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
}
