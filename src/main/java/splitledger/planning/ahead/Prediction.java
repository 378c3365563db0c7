package splitledger.planning.ahead;

import java.util.Arrays;
import splitledger.statistics.Quantiles;
import splitledger.statistics.RandomStream;
import splitledger.statistics.SampleSizes;

/**
 * The uncertainty of a result that a study will find. The mean squares of the precision study,
 * E(day) = m P d^2 + m p^2 + i^2 with D - 1 and E(preparation) = m p^2 + i^2 with D (P - 1) degrees
 * of freedom, give the scatter between results of different days; it and the uncertainty of the
 * calibration function add up, with Welch and Satterthwaite's degrees of freedom.
 *
 * @param standard relative standard uncertainty, as a fraction
 * @param degreesOfFreedom effective
 * @param factor coverage factor for 0.95
 * @param precisionShare of the variance
 * @param calibrationShare of the variance
 */
public record Prediction(
        double standard,
        double degreesOfFreedom,
        double factor,
        double precisionShare,
        double calibrationShare) {
    static final double COVERAGE = 0.95;

    /** Relative expanded uncertainty, as a fraction. */
    public double expanded() {
        return factor * standard;
    }

    /** Probability that a study finds no more than a wanted expanded uncertainty; closed form. */
    public double chanceBelow(double wanted) {
        return SampleSizes.chanceBelow(wanted / expanded(), degreesOfFreedom);
    }

    /** Expected mean squares of the precision study and variances beside it. */
    private record Parts(double day, double preparation, double calibration, double other) {}

    /** What is expected of a design. */
    public static Prediction of(StudyDesign d, PlanFile file) {
        final Parts parts = parts(d, file, file.prior(), calibration(d, file));
        return of(d, parts);
    }

    private static Parts parts(
            StudyDesign d, PlanFile file, PlanFile.Prior prior, double calibration) {
        final double within =
                d.injections() * square(prior.preparation().value())
                        + square(prior.injection().value());
        return new Parts(
                d.injections() * d.preparations() * square(prior.day().value()) + within,
                within,
                calibration,
                square(file.prior().other().value()));
    }

    private static Prediction of(StudyDesign d, Parts p) {
        final double m = d.injections();
        final double between = Math.max(0, p.day() - p.preparation()) / (m * d.preparations());
        final double one = p.preparation() / m;
        final double single = between + one;
        // days that scatter less than their preparations count as days that scatter alike
        final double outer = Math.max(p.day(), p.preparation()) / (m * d.preparations());
        final double top =
                square(outer) / (d.days() - 1)
                        + square(one * (1 - 1.0 / d.preparations())) / nested(d);
        final double precisionFreedom = single * single / top;
        final double precision = between + one / d.ofResult();
        final double total = precision + p.calibration() + p.other();
        final double freedom =
                total
                        * total
                        / (square(precision) / precisionFreedom
                                + square(p.calibration()) / calibrationFreedom(d));
        return new Prediction(
                Math.sqrt(total),
                freedom,
                Quantiles.coverageFactor(COVERAGE, freedom),
                precision / total,
                p.calibration() / total);
    }

    private static double nested(StudyDesign d) {
        return (double) d.days() * (d.preparations() - 1);
    }

    private static double calibrationFreedom(StudyDesign d) {
        return d.levels() * d.calibrants() - 2.0;
    }

    /**
     * Relative variance of the amount at the result that comes from the fitted line: a' (X' W X)^-1
     * a / x^2 with a = (1, x), weights 1/variance of a preparation, s0^2/m + (p^2 + i^2/m) x^2.
     */
    static double calibration(StudyDesign d, PlanFile file) {
        final double[] sums = sums(d, file);
        final double x = file.amounts().result();
        return (sums[2] - 2 * x * sums[1] + x * x * sums[0])
                / (sums[0] * sums[2] - sums[1] * sums[1])
                / (x * x);
    }

    /** Relative variance of the slope of the same line. */
    static double slope(StudyDesign d, PlanFile file) {
        final double[] sums = sums(d, file);
        return sums[0] / (sums[0] * sums[2] - sums[1] * sums[1]);
    }

    /** Sums of weights, of weights times x, of weights times x^2. */
    private static double[] sums(StudyDesign d, PlanFile file) {
        final PlanFile.Prior prior = file.prior();
        final double m = d.injections();
        final double constant = square(prior.blank().map(PlanFile.Known::value).orElse(0.0)) / m;
        final double relative =
                square(prior.preparation().value()) + square(prior.injection().value()) / m;
        final double[] sums = new double[3];
        for (double x : d.amounts(file.amounts())) {
            final double weight = d.calibrants() / (constant + relative * x * x);
            sums[0] += weight;
            sums[1] += weight * x;
            sums[2] += weight * x * x;
        }
        return sums;
    }

    /**
     * Expanded uncertainties that studies of this design would find, sorted: mean squares and the
     * calibration's scatter are drawn from their chi-square laws.
     *
     * @param doubted whether the prior is drawn, too, from what its degrees of freedom allow;
     *     otherwise it is taken as true
     */
    public static double[] draws(StudyDesign d, PlanFile file, int studies, boolean doubted) {
        final RandomStream random = RandomStream.of(file.seed(), 1);
        final double[] found = new double[studies];
        final double calibration = calibration(d, file);
        for (int i = 0; i < studies; i++) {
            final PlanFile.Prior prior = file.prior();
            final PlanFile.Prior drawn =
                    !doubted
                            ? prior
                            : new PlanFile.Prior(
                                    drawn(prior.injection(), random),
                                    drawn(prior.preparation(), random),
                                    drawn(prior.day(), random),
                                    prior.occasion(),
                                    prior.other(),
                                    prior.blank());
            final Parts expected = parts(d, file, drawn, calibration);
            found[i] =
                    of(
                                    d,
                                    new Parts(
                                            expected.day() * scatter(random, d.days() - 1.0),
                                            expected.preparation() * scatter(random, nested(d)),
                                            calibration * scatter(random, calibrationFreedom(d)),
                                            expected.other()))
                            .expanded();
        }
        Arrays.sort(found);
        return found;
    }

    private static double scatter(RandomStream random, double freedom) {
        return random.nextChiSquare(freedom) / freedom;
    }

    private static PlanFile.Known drawn(PlanFile.Known known, RandomStream random) {
        return Double.isInfinite(known.degreesOfFreedom())
                ? known
                : new PlanFile.Known(
                        known.value() / Math.sqrt(scatter(random, known.degreesOfFreedom())),
                        known.basis(),
                        known.degreesOfFreedom());
    }

    private static double square(double x) {
        return x * x;
    }
}
