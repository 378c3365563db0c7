package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.LawOfPropagation.Propagated;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.study.Budget.Correlation;
import splitledger.study.Budget.Row;

/**
 * The rows of a budget: each input is split by (effect, acts on); share = 100 c_i u_i sum over j of
 * r_ij c_j u_j / u^2, so that shares sum to 100 with correlations counted.
 */
final class BudgetRows {
    private BudgetRows() {}

    /** One part of an input: what belongs to one effect on one side. */
    record Part(String symbol, String input, Uncertain part, double sensitivity) {}

    private record Home(Effect effect, ActsOn actsOn) implements Comparable<Home> {
        @Override
        public int compareTo(Home other) {
            final int byEffect = effect.compareTo(other.effect);
            return byEffect != 0 ? byEffect : actsOn.compareTo(other.actsOn);
        }
    }

    /**
     * Rows.
     *
     * @param order symbols in the order of the report
     * @param inputs by symbol
     * @param sources by symbol, in words
     * @param fromData by symbol, for those of which it is plain whether data of this study give the
     *     uncertainty; else finite degrees of freedom say so
     */
    static List<Row> of(
            List<String> order,
            SortedMap<String, Uncertain> inputs,
            Map<String, String> sources,
            Map<String, Boolean> fromData,
            Propagated result) {
        final List<Part> parts = parts(order, inputs, result);
        final double variance = result.result().variance();
        final List<Row> rows = new ArrayList<>();
        for (Part part : parts) {
            final Uncertain input = inputs.getOrDefault(part.input(), part.part());
            final List<Root> roots = part.part().roots();
            final double u = part.part().standardUncertainty();
            final double covariance = part.part().covariance(result.result()) * part.sensitivity();
            final boolean finite =
                    roots.stream().anyMatch(r -> !Double.isInfinite(r.pool().degreesOfFreedom()));
            final boolean from = fromData.getOrDefault(part.input(), finite);
            rows.add(
                    new Row(
                            part.symbol(),
                            roots.stream().findFirst().map(Root::effect),
                            roots.stream().findFirst().map(Root::actsOn),
                            words(part, roots, fromData),
                            sources.getOrDefault(part.input(), ""),
                            input.value(),
                            input.unit(),
                            u,
                            roots.isEmpty() ? "" : from ? "A" : "B",
                            roots.isEmpty() ? "exact" : distribution(roots),
                            part.part().degreesOfFreedom(),
                            part.sensitivity(),
                            Math.abs(part.sensitivity()) * u,
                            variance > 0
                                    ? Optional.of(100 * covariance / variance)
                                    : Optional.empty()));
        }
        return rows;
    }

    /** Correlations of rows that share roots. */
    static List<Correlation> correlations(
            List<String> order, SortedMap<String, Uncertain> inputs, Propagated result) {
        final List<Part> parts = parts(order, inputs, result);
        final List<Correlation> all = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            for (int j = i + 1; j < parts.size(); j++) {
                final Uncertain a = parts.get(i).part();
                final Uncertain b = parts.get(j).part();
                final double r = a.correlation(b);
                if (r != 0) {
                    final String cause =
                            a.roots().stream()
                                    .filter(x -> b.part(x) != 0)
                                    .map(Root::source)
                                    .findFirst()
                                    .orElse("shared cause");
                    all.add(
                            new Correlation(
                                    parts.get(i).symbol(), parts.get(j).symbol(), r, cause));
                }
            }
        }
        return all;
    }

    /** The parts of all inputs in the order of the rows. */
    static List<Part> parts(
            List<String> order, SortedMap<String, Uncertain> inputs, Propagated result) {
        final List<Part> parts = new ArrayList<>();
        for (String symbol : order) {
            final Uncertain input = inputs.get(symbol);
            if (input == null) {
                continue;
            }
            final double c = result.sensitivities().getOrDefault(symbol, 0.0);
            final SortedMap<Home, Integer> homes = new TreeMap<>();
            input.roots()
                    .forEach(r -> homes.merge(new Home(r.effect(), r.actsOn()), 1, Integer::sum));
            if (homes.size() <= 1) {
                parts.add(new Part(symbol, symbol, input, c));
                continue;
            }
            for (Home home : homes.keySet()) {
                final Uncertain part =
                        input.only(r -> r.effect() == home.effect() && r.actsOn() == home.actsOn());
                parts.add(new Part(name(symbol, home, homes), symbol, part, c));
            }
        }
        return parts;
    }

    /**
     * {@code found_sample}, {@code found_calibrant}; with the effect where one side has several.
     */
    private static String name(String symbol, Home home, SortedMap<Home, Integer> homes) {
        final long sameSide =
                homes.keySet().stream().filter(h -> h.actsOn() == home.actsOn()).count();
        final String side = symbol + "_" + home.actsOn().code();
        return sameSide == 1 ? side : side + "_" + home.effect().code().replace('-', '_');
    }

    private static String words(Part part, List<Root> roots, Map<String, Boolean> fromData) {
        if (roots.isEmpty()) {
            return part.input() + ": taken as exact";
        }
        final Root first = roots.get(0);
        final boolean readings =
                first.effect() == Effect.REFERENCE_VALUE
                        && fromData.getOrDefault(part.input(), false);
        return part.input()
                + ": "
                + (readings ? "scatter of its readings" : first.effect().words())
                + ", acts on "
                + first.actsOn().words();
    }

    private static String distribution(List<Root> roots) {
        final Root first = roots.get(0);
        final boolean t =
                "normal".equals(first.shape().code())
                        && !Double.isInfinite(first.pool().degreesOfFreedom());
        return t ? "t" : first.shape().code();
    }
}
