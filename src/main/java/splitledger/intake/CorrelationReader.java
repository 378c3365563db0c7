package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.Nearest;
import splitledger.propagation.CorrelatedRoots;
import splitledger.propagation.Shape;
import splitledger.statistics.Moments;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/**
 * Reads which given inputs are correlated: by a stated coefficient, or because their readings were
 * taken together (JCGM 100:2008, 5.2.3 and H.2). Inputs that hang together form one group, whose
 * coefficients must be possible together.
 */
final class CorrelationReader {
    private static final String BETWEEN = "between";
    private static final String COEFFICIENT = "r";
    private static final String FROM = "from";

    private final Map<String, Protocol.Input> inputs;
    private final Reading reading;
    private final Map<String, String> groupOf = new LinkedHashMap<>();
    private final SortedMap<String, Double> stated = new TreeMap<>();
    private final Map<String, Place> observed = new LinkedHashMap<>();

    private CorrelationReader(Map<String, Protocol.Input> inputs, Reading reading) {
        this.inputs = inputs;
        this.reading = reading;
    }

    /** All groups; those that cannot be read are problems. */
    static List<Protocol.Correlated> read(
            Tree.Mapping measurand, Map<String, Protocol.Input> inputs, Reading reading) {
        final CorrelationReader reader = new CorrelationReader(inputs, reading);
        if (measurand.get("correlations").orElse(Tree.Mapping.EMPTY)
                instanceof Tree.Sequence sequence) {
            for (Tree item : sequence.items()) {
                if (item instanceof Tree.Mapping one && !reading.touched(one.place())) {
                    reader.one(one);
                }
            }
            return reader.groups(sequence.place());
        }
        return List.of();
    }

    private void one(Tree.Mapping item) {
        final List<String> symbols = item.texts(BETWEEN);
        final boolean fromReadings = item.get(FROM).isPresent();
        if (fromReadings == item.get(COEFFICIENT).isPresent()) {
            reading.problem(
                    item.place(),
                    fromReadings ? "r and from" : "a correlation without r",
                    "r, or from: values",
                    "state the coefficient, or say that the readings were taken together");
            return;
        }
        if (symbols.size() < 2 || (!fromReadings && symbols.size() != 2)) {
            tell(item, symbols.size() + " symbols", fromReadings ? "two or more" : "two symbols");
            return;
        }
        boolean fit = true;
        for (String symbol : symbols) {
            fit &= fits(item, symbol, fromReadings);
        }
        if (!fit || (fromReadings && !sameCount(item, symbols))) {
            return;
        }
        for (int i = 0; i < symbols.size(); i++) {
            for (int j = i + 1; j < symbols.size(); j++) {
                final double r =
                        fromReadings
                                ? observed(symbols.get(i), symbols.get(j))
                                : item.number(COEFFICIENT).orElse(0);
                if (stated.putIfAbsent(pair(symbols.get(i), symbols.get(j)), r) != null) {
                    tell(item, "this pair twice", "each pair once");
                }
            }
            join(symbols.get(0), symbols.get(i));
        }
        if (fromReadings) {
            symbols.forEach(s -> observed.put(s, item.place()));
        }
    }

    private boolean fits(Tree.Mapping item, String symbol, boolean fromReadings) {
        final Protocol.Input input = inputs.get(symbol);
        if (input == null) {
            reading.problem(
                    item.get(BETWEEN).orElse(item).place(),
                    "the symbol '" + symbol + "', which is no input",
                    "symbols that stand under inputs",
                    Nearest.hint(symbol, inputs.keySet()));
            return false;
        }
        final boolean readings =
                input instanceof Protocol.Readings r && !(fromReadings && r.pooled());
        final boolean normal =
                input instanceof Protocol.Given g && g.shape() instanceof Shape.Normal;
        if (!(readings || (normal && !fromReadings))) {
            tell(
                    item,
                    "the input '" + symbol + "'",
                    fromReadings
                            ? "inputs that are lists of readings with their own scatter"
                            : "inputs given with a normal or t distribution, or as readings");
        }
        return readings || (normal && !fromReadings);
    }

    private boolean sameCount(Tree.Mapping item, List<String> symbols) {
        final int n = readings(symbols.get(0)).length;
        final boolean same = symbols.stream().allMatch(s -> readings(s).length == n);
        if (!same) {
            tell(item, "readings of different number", "as many readings of each, in one order");
        }
        return same;
    }

    private double[] readings(String symbol) {
        return inputs.get(symbol) instanceof Protocol.Readings r
                ? r.values().toArray()
                : new double[0];
    }

    /** Correlation coefficient of two means of readings taken together. */
    private double observed(String a, String b) {
        final double[] x = readings(a);
        final double[] y = readings(b);
        final Moments mx = Moments.ofAll(x);
        final Moments my = Moments.ofAll(y);
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            sum += (x[i] - mx.mean()) * (y[i] - my.mean());
        }
        final double size = Math.sqrt(mx.squares() * my.squares());
        return size > 0 ? Math.max(-1, Math.min(1, sum / size)) : 0;
    }

    private void join(String a, String b) {
        final String to = groupOf.getOrDefault(a, a);
        final String from = groupOf.getOrDefault(b, b);
        groupOf.putIfAbsent(a, to);
        groupOf.putIfAbsent(b, from);
        groupOf.replaceAll((symbol, group) -> group.equals(from) ? to : group);
    }

    private List<Protocol.Correlated> groups(Place place) {
        final Map<String, List<String>> members = new LinkedHashMap<>();
        groupOf.forEach(
                (symbol, group) ->
                        members.computeIfAbsent(group, g -> new ArrayList<>()).add(symbol));
        final List<Protocol.Correlated> groups = new ArrayList<>();
        members.values().forEach(symbols -> group(symbols, place).ifPresent(groups::add));
        return groups;
    }

    private Optional<Protocol.Correlated> group(List<String> symbols, Place place) {
        final int n = symbols.size();
        final double[][] r = new double[n][n];
        final List<List<Double>> rows = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            final List<Double> row = new ArrayList<>();
            for (int j = 0; j < n; j++) {
                r[i][j] =
                        i == j ? 1 : stated.getOrDefault(pair(symbols.get(i), symbols.get(j)), 0.0);
                row.add(r[i][j]);
            }
            rows.add(row);
        }
        if (CorrelatedRoots.factor(r).isEmpty()) {
            reading.problem(
                    place,
                    "correlations between "
                            + Reading.listed(symbols)
                            + " that cannot hold together",
                    "a matrix of coefficients that is positive semidefinite",
                    "check signs and sizes: what two inputs have with a third limits what they have"
                            + " with each other; a pair that is not stated counts as 0");
            return Optional.empty();
        }
        final boolean all = symbols.stream().allMatch(observed::containsKey);
        return Optional.of(new Protocol.Correlated(symbols, rows, all));
    }

    private void tell(Tree.Mapping item, String found, String expected) {
        reading.problem(
                item.get(BETWEEN).orElse(item).place(), found, expected, "see 'correlations'");
    }

    private static String pair(String a, String b) {
        return a.compareTo(b) < 0 ? a + " " + b : b + " " + a;
    }
}
