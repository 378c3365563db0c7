package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.evaluation.Minima;

/**
 * Ratios at equal steps of their logarithm over the whole range allowed, each set up once a day
 * with a solution of its own, so that the same mass reaches the column. A set-up scatters by
 * sigma^2 = setting^2 + preparation^2 + area^2 / m; days have levels of their own; so u(exponent) =
 * sigma / sqrt(days sum (ln r - mean)^2) with days (ratios - 1) - 1 degrees of freedom.
 */
record SplitExperiment(PlanFile file, List<Double> ratios, int set, int injections)
        implements Experiment {
    private static final int MOST_RATIOS = 8;
    private static final int LEAST_SETS = 2;
    private static final int MOST_SETS = 10;
    private static final int MOST_INJECTIONS = 4;

    SplitExperiment {
        ratios = List.copyOf(ratios);
    }

    /** The cheapest that gives what is wanted; empty if none within reach does. */
    static Optional<Experiment> of(PlanFile file) {
        Optional<Experiment> best = Optional.empty();
        double cost = Double.POSITIVE_INFINITY;
        for (int n = Minima.SETTINGS; n <= MOST_RATIOS; n++) {
            for (int s = LEAST_SETS; s <= MOST_SETS; s++) {
                for (int m = 1; m <= MOST_INJECTIONS; m++) {
                    final double c = Experiment.cost(file, s, s * n, s * n * m);
                    if (c >= cost) {
                        continue;
                    }
                    final Experiment e = new SplitExperiment(file, ratios(file.range(), n), s, m);
                    if (e.chance() >= file.wanted().chance()) {
                        best = Optional.of(e);
                        cost = c;
                    }
                }
            }
        }
        return best;
    }

    private static List<Double> ratios(PlanFile.Range range, int n) {
        final List<Double> all = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            final double exact =
                    range.lowest()
                            * FastMath.pow(range.highest() / range.lowest(), (double) i / (n - 1));
            all.add(i == 0 ? range.lowest() : i == n - 1 ? range.highest() : Math.rint(exact));
        }
        return all;
    }

    @Override
    public Expected expected() {
        final double sigma =
                Math.sqrt(
                        Experiment.square(file.range().setting().value())
                                + Experiment.square(file.prior().preparation().value())
                                + area() / injections);
        final double mean = ratios.stream().mapToDouble(FastMath::log).average().orElseThrow();
        final double squares =
                ratios.stream().mapToDouble(r -> Experiment.square(FastMath.log(r) - mean)).sum();
        return new Expected(sigma / Math.sqrt(set * squares), set * (ratios.size() - 1.0) - 1);
    }

    /** Areas as they are: what an internal standard cancels elsewhere is in them. */
    private double area() {
        final double own = Experiment.square(file.prior().injection().value());
        return file.standard().isPresent()
                ? own + Experiment.square(file.range().area().value())
                : own;
    }

    @Override
    public List<List<Part>> days() {
        final List<Part> day =
                ratios.stream()
                        .map(
                                r ->
                                        Part.made("split", "S", List.of(label(r)), 1, injections)
                                                .at(List.of(r), List.of()))
                        .toList();
        return java.util.Collections.nCopies(set, day);
    }

    private static String label(double ratio) {
        return "M" + Numbers.text(ratio);
    }

    @Override
    public Map<String, Map<String, Double>> levels() {
        final Map<String, Map<String, Double>> all = new LinkedHashMap<>();
        for (double r : ratios) {
            final double amount = file.amounts().result() * r / file.setting().split();
            final Map<String, Double> each = new LinkedHashMap<>();
            file.targets().forEach(t -> each.put(t, StudyDesign.threeDigits(amount)));
            all.put(label(r), each);
        }
        return all;
    }

    @Override
    public String block() {
        double nearest = ratios.get(0);
        for (double r : ratios) {
            if (Math.abs(FastMath.log(r / file.setting().split()))
                    < Math.abs(FastMath.log(nearest / file.setting().split()))) {
                nearest = r;
            }
        }
        return "  split-linearity: {where: {series: split}, reference-ratio: "
                + Numbers.text(nearest)
                + "}\n";
    }

    @Override
    public int solutions() {
        return set * ratios.size();
    }

    @Override
    public String figure() {
        return "split-exponent";
    }

    @Override
    public String compound() {
        return file.targets().get(0);
    }

    @Override
    public double wanted() {
        return file.wanted().exponent().orElseThrow();
    }

    @Override
    public String unit() {
        return "1";
    }

    @Override
    public List<Setting> settings() {
        return List.of(
                new Setting(
                        "split-ratios",
                        ratios.size(),
                        "1",
                        String.join(", ", ratios.stream().map(Numbers::text).toList())
                                + ": the whole range allowed, at equal steps of the logarithm, so"
                                + " that a bend shows; at least "
                                + Minima.SETTINGS
                                + " over a "
                                + Numbers.text(Minima.SPAN)
                                + "-fold range"),
                new Setting(
                        "set-ups-of-a-ratio",
                        set,
                        "1",
                        "one a day; at least "
                                + LEAST_SETS
                                + ": injections at one set-up share the error of its setting"),
                new Setting(
                        "injections-a-set-up",
                        injections,
                        "1",
                        "of a solution made for that ratio: the same mass on the column at each"));
    }
}
