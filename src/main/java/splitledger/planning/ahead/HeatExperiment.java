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
 * Inlet temperatures at equal steps where between 2 and 60 % are expected to be lost. The loss
 * comes from areas of one chromatogram, so that what all peaks share cancels; what is left scatters
 * by no more than that of two injections: u(ln k) = x / (-ln(1 - x)) sqrt(2) injection / sqrt(m),
 * and u(activation energy) = R / sqrt(sum w (1/T - mean)^2), w = 1 / u^2(ln k).
 */
record HeatExperiment(PlanFile file, List<Double> temperatures, int times, int injections)
        implements Experiment {
    /** Molar gas constant, kJ/(mol K), exact in the SI of 2019, rounded to what is needed here. */
    private static final double GAS = 8.314462618e-3;

    private static final double KELVIN = 273.15;
    private static final double LEAST_LOSS = 0.02;
    private static final double MOST_LOSS = 0.6;
    private static final int MOST_TEMPERATURES = 8;
    private static final int MOST_TIMES = 5;
    private static final int MOST_INJECTIONS = 4;

    HeatExperiment {
        temperatures = List.copyOf(temperatures);
    }

    /** The cheapest that gives what is wanted; empty if none within reach does. */
    static Optional<Experiment> of(PlanFile file) {
        final double[] ends = usable(file);
        Optional<Experiment> best = Optional.empty();
        double cost = Double.POSITIVE_INFINITY;
        if (ends[1] - ends[0] < Minima.DEGREES) {
            return best;
        }
        for (int n = Minima.TEMPERATURES; n <= MOST_TEMPERATURES; n++) {
            for (int s = 1; s <= MOST_TIMES; s++) {
                for (int m = 2; m <= MOST_INJECTIONS; m++) {
                    final double c = Experiment.cost(file, s, 1, s * n * m);
                    if (c >= cost) {
                        continue;
                    }
                    final Experiment e = new HeatExperiment(file, steps(ends, n), s, m);
                    if (e.chance() >= file.wanted().chance()) {
                        best = Optional.of(e);
                        cost = c;
                    }
                }
            }
        }
        return best;
    }

    /** Coolest and hottest whole degree of the range at which enough and not too much is lost. */
    static double[] usable(PlanFile file) {
        double low = Math.ceil(file.range().coolest());
        double high = Math.floor(file.range().hottest());
        while (low < high && loss(file, low) < LEAST_LOSS) {
            low++;
        }
        while (high > low && loss(file, high) > MOST_LOSS) {
            high--;
        }
        return new double[] {low, high};
    }

    private static List<Double> steps(double[] ends, int n) {
        final List<Double> all = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            all.add(Math.rint(ends[0] + (ends[1] - ends[0]) * i / (n - 1)));
        }
        return all;
    }

    /** Share lost at a temperature: first order, time in the liner as the gas expands. */
    static double loss(PlanFile file, double degrees) {
        final PlanFile.Labile labile = file.labile().orElseThrow();
        final double t = degrees + KELVIN;
        final double working = file.setting().temperature() + KELVIN;
        final double exponent =
                -FastMath.log1p(-labile.breakdown().value())
                        * working
                        / t
                        * FastMath.exp(labile.energy().value() / GAS * (1 / working - 1 / t));
        return -FastMath.expm1(-exponent);
    }

    @Override
    public Expected expected() {
        final double one = Math.sqrt(2.0 / injections) * file.prior().injection().value();
        double w = 0;
        double wx = 0;
        double wxx = 0;
        for (double t : temperatures) {
            final double x = loss(file, t);
            final double weight = times / Experiment.square(one * x / -FastMath.log1p(-x));
            final double inverse = 1 / (t + KELVIN);
            w += weight;
            wx += weight * inverse;
            wxx += weight * inverse * inverse;
        }
        return new Expected(GAS / Math.sqrt(wxx - wx * wx / w), times * temperatures.size() - 2.0);
    }

    @Override
    public List<List<Part>> days() {
        final Part day =
                Part.of("inlet-temperature", "LABILE", "labile", injections)
                        .at(List.of(file.setting().split()), temperatures);
        return java.util.Collections.nCopies(times, List.of(day));
    }

    @Override
    public Map<String, Map<String, Double>> levels() {
        final Map<String, Map<String, Double>> all = new LinkedHashMap<>();
        all.put("labile", Map.of(file.labile().orElseThrow().parent(), file.amounts().highest()));
        return all;
    }

    @Override
    public String block() {
        final PlanFile.Labile labile = file.labile().orElseThrow();
        return "  losses:\n    where: {series: inlet-temperature}\n    parent: "
                + PlanProtocol.quoted(labile.parent())
                + "\n    products: ["
                + String.join(", ", labile.products().stream().map(PlanProtocol::quoted).toList())
                + "]\n"
                + """
                    liner-volume: "ASK mL, inside the liner"
                    inlet-pressure: "ASK kPa absolute: gauge pressure and air pressure"
                    column-flow: "ASK mL/min at 25 degC and 101.325 kPa"
                """;
    }

    @Override
    public int solutions() {
        return 1;
    }

    @Override
    public String figure() {
        return "activation-energy";
    }

    @Override
    public String compound() {
        return file.labile().orElseThrow().parent();
    }

    @Override
    public double wanted() {
        return file.wanted().energy().orElseThrow();
    }

    @Override
    public String unit() {
        return "kJ/mol";
    }

    @Override
    public List<Setting> settings() {
        return List.of(
                new Setting(
                        "inlet-temperatures",
                        temperatures.size(),
                        "1",
                        String.join(", ", temperatures.stream().map(Numbers::text).toList())
                                + " degC, where "
                                + PlanWords.digits(100 * loss(file, temperatures.get(0)))
                                + " to "
                                + PlanWords.digits(
                                        100 * loss(file, temperatures.get(temperatures.size() - 1)))
                                + " % are expected to be lost; at least "
                                + Minima.TEMPERATURES
                                + " over "
                                + Numbers.text(Minima.DEGREES)
                                + " degC that lose 2 to 60 %"),
                new Setting("days-of-temperatures", times, "1", "all temperatures on each"),
                new Setting(
                        "injections-a-temperature",
                        injections,
                        "1",
                        "two or more, so that a peak that fails is noticed"));
    }
}
