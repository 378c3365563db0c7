package splitledger.characteristic.maintenance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.LadderEquivalence.Change;
import splitledger.statistics.Moments;
import splitledger.statistics.Quantiles;
import splitledger.study.Study;
import splitledger.study.Trail;

/** Says in words what changed between two occasions, and what the areas cannot tell. */
final class MaintenanceWords {
    private static final double PERCENT = 100;
    private static final double RISK = 0.05;
    private static final int FEWEST = 3;

    private final MaintenanceRows before;
    private final MaintenanceRows after;
    private final Map<String, Change> changes;
    private final Map<String, Double> points = new TreeMap<>();

    MaintenanceWords(
            Study study,
            MaintenanceRows before,
            MaintenanceRows after,
            Map<String, Change> changes) {
        this.before = before;
        this.after = after;
        this.changes = changes;
        for (String compound : changes.keySet()) {
            study.compounds()
                    .known(compound)
                    .ifPresent(k -> k.boilingPoint().ifPresent(b -> points.put(compound, b)));
        }
    }

    /** One sentence a finding. */
    List<String> all() {
        final List<String> words = new ArrayList<>();
        level(words);
        slope(words);
        scatter(words);
        single(words);
        return words;
    }

    private void level(List<String> words) {
        final double mean = mean();
        words.add(
                "level: all peaks together changed by "
                        + percent(mean)
                        + " % on the average; ageing of the standard, detector gain, injected volume and split"
                        + " look alike here: the cause is not identifiable from areas");
    }

    private double mean() {
        return changes.values().stream().mapToDouble(Change::value).average().orElse(0);
    }

    private void slope(List<String> words) {
        if (points.size() < FEWEST) {
            return;
        }
        final Map<String, Double> means = new TreeMap<>();
        points.keySet()
                .forEach(
                        c ->
                                means.put(
                                        c,
                                        (before.moments(c).mean() + after.moments(c).mean()) / 2));
        final double[] first = before.slopes(points, means);
        final double[] second = after.slopes(points, means);
        if (first.length < FEWEST || second.length < FEWEST) {
            return;
        }
        final Welch welch = Welch.of(first, second);
        final double change = welch.change();
        final double p = welch.p();
        words.add(
                "slope with boiling point: "
                        + percent(change)
                        + " % per 100 degC ("
                        + (p <= RISK ? "told from 0" : "not told from 0")
                        + ", p "
                        + rounded(p)
                        + "); a slope points to discrimination (needle, liner, wool, cold places), not to the"
                        + " level");
    }

    private void scatter(List<String> words) {
        double first = 0;
        double second = 0;
        double firstDf = 0;
        double secondDf = 0;
        for (String compound : changes.keySet()) {
            first += before.moments(compound).squares();
            second += after.moments(compound).squares();
            firstDf = Math.max(firstDf, before.count(compound) - 1.0);
            secondDf = Math.max(secondDf, after.count(compound) - 1.0);
        }
        if (!(first > 0 && second > 0)) {
            return;
        }
        // peaks of one injection go together: the degrees of freedom are those of one peak
        final double f = second / secondDf / (first / firstDf);
        final double upper =
                f >= 1
                        ? Quantiles.fTail(f, secondDf, firstDf)
                        : Quantiles.fTail(1 / f, firstDf, secondDf);
        words.add(
                "scatter of injections: "
                        + rounded(Math.sqrt(f))
                        + " times what it was ("
                        + (2 * upper <= RISK ? "told from 1" : "not told from 1")
                        + ", p "
                        + rounded(Math.min(1, 2 * upper))
                        + ")");
    }

    /** The compound that moved most against its two neighbours in boiling point. */
    private void single(List<String> words) {
        final List<String> inOrder =
                points.keySet().stream()
                        .sorted(Comparator.comparingDouble(c -> points.getOrDefault(c, 0.0)))
                        .toList();
        double least = RISK;
        String said = "";
        for (int i = 1; i + 1 < inOrder.size(); i++) {
            final double[] first =
                    before.beside(inOrder.get(i), inOrder.get(i - 1), inOrder.get(i + 1));
            final double[] second =
                    after.beside(inOrder.get(i), inOrder.get(i - 1), inOrder.get(i + 1));
            if (first.length < FEWEST || second.length < FEWEST) {
                continue;
            }
            final Welch welch = Welch.of(first, second);
            final double p = welch.p() * (inOrder.size() - 2);
            if (p < least) {
                least = p;
                said =
                        "one compound: "
                                + inOrder.get(i)
                                + " changed by "
                                + percent(welch.change())
                                + " % beside its neighbours; look for adsorption, decomposition or its"
                                + " integration";
            }
        }
        if (!said.isEmpty()) {
            words.add(said);
        }
    }

    /** Difference of two means, each with its own variance. */
    private record Welch(double change, double u, double df) {
        static Welch of(double[] first, double[] second) {
            final Moments a = Moments.ofAll(first);
            final Moments b = Moments.ofAll(second);
            final double va = a.variance() / a.count();
            final double vb = b.variance() / b.count();
            return new Welch(
                    b.mean() - a.mean(),
                    Math.sqrt(va + vb),
                    (va + vb)
                            * (va + vb)
                            / (va * va / (a.count() - 1) + vb * vb / (b.count() - 1)));
        }

        /** Two-sided probability. */
        double p() {
            if (u > 0) {
                return Quantiles.tTwoSidedTail(change / u, df);
            }
            return change == 0 ? 1 : 0;
        }
    }

    private static String percent(double log) {
        return rounded(PERCENT * FastMath.expm1(log));
    }

    private static String rounded(double value) {
        return Trail.digits(
                new java.math.BigDecimal(value).round(new java.math.MathContext(2)).doubleValue());
    }
}
