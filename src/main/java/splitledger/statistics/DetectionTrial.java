package splitledger.statistics;

import java.util.Arrays;
import splitledger.statistics.ErrorRates.Rate;

/**
 * Imagined repetitions of a detection decision. The true line and scatter are the fitted ones; an
 * amount is reported as present when the found amount (y - a)/b exceeds the threshold. The
 * threshold is this study's; a repetition of the whole experiment finds it anew, with another slope
 * and another standard deviation of the same degrees of freedom.
 *
 * @param fit the line
 * @param x amounts of the calibrants
 * @param shares variance of each calibrant relative to the law
 * @param share variance of a sample's mean response relative to the law
 * @param threshold the limit that decides; its degrees of freedom say how it would scatter
 * @param claimed the amount at which misses are counted
 */
public record DetectionTrial(
        ScatterFit fit,
        double[] x,
        double[] shares,
        double share,
        Limit threshold,
        double claimed) {
    private static final double MOST_FREE = 1e6;
    private static final int DRAWS = 2000;

    /** Keeps copies. */
    public DetectionTrial {
        if (fit.mean() != MeanLaw.LINE) {
            throw new IllegalArgumentException("mean = " + fit.mean() + ", must be LINE");
        }
        x = x.clone();
        shares = shares.clone();
    }

    @Override
    public double[] x() {
        return x.clone();
    }

    @Override
    public double[] shares() {
        return shares.clone();
    }

    /**
     * Over repetitions of everything: new calibration responses, a line with the same weights, a
     * new threshold, a new sample. A falling line of a repetition finds nothing.
     *
     * <p>The standard deviation behind the threshold scatters as chi with its degrees of freedom,
     * beside the line (with the same scatter everywhere it is that of the line's residuals, which
     * does not depend on the line). Standard uncertainty and interval of the rates come from the
     * same calculation in closed form ({@link #exact}) with the law's scatter at the ends of its
     * chi-square interval; the false positive rate does not depend on it.
     *
     * @param repetitions how many
     * @param stream random numbers
     * @param coverage of the intervals
     */
    public ErrorRates wholeExperiment(int repetitions, RandomStream stream, double coverage) {
        final int n = x.length;
        final double[] slopeWeights = new double[n];
        final double[] interceptWeights = new double[n];
        final double[] sds = lineWeights(interceptWeights, slopeWeights);
        final double sign = Math.signum(fit.coefficient(1));
        final double b = Math.abs(fit.coefficient(1));
        final double sdBlank = sd(0);
        final double sdClaimed = sd(claimed);
        final double nu = threshold.degreesOfFreedom();
        final double sdThreshold = threshold.value() * b;
        int positives = 0;
        int negatives = 0;
        for (int k = 0; k < repetitions; k++) {
            double da = 0;
            double db = 0;
            for (int i = 0; i < n; i++) {
                final double e = sds[i] * stream.nextNormal();
                da += interceptWeights[i] * e;
                db += slopeWeights[i] * e;
            }
            final double chi = Double.isInfinite(nu) ? 1 : Math.sqrt(stream.nextChiSquare(nu) / nu);
            final boolean rising = b + sign * db > 0;
            final double limit = sdThreshold * chi;
            final double net = sdBlank * stream.nextNormal() - sign * da;
            if (rising && net > limit) {
                positives++;
            }
            final double present = b * claimed + sdClaimed * stream.nextNormal() - sign * da;
            if (!rising || present <= limit) {
                negatives++;
            }
        }
        final double tail = (1 - coverage) / 2;
        final double fp = (double) positives / repetitions;
        final double fn = (double) negatives / repetitions;
        final double few = missed(lawFactor(1 - tail));
        final double many = missed(lawFactor(tail));
        final double k = Quantiles.normal(1 - tail);
        final double ofLaw = (many - few) / (2 * k);
        return new ErrorRates(
                rate(fp, simulation(fp, repetitions), k),
                new Rate(
                        fn,
                        Math.sqrt(square(simulation(fn, repetitions)) + square(ofLaw)),
                        Math.min(fn, few),
                        Math.max(fn, many)));
    }

    /** Rates of the whole experiment without simulation; a line of a repetition always rises. */
    public ErrorRates exact() {
        final double b = Math.abs(fit.coefficient(1));
        final double sd = Math.sqrt(square(sd(0)) + fit.covariance(0, 0));
        final double fp = Quantiles.tTail(threshold.value() * b / sd, threshold.degreesOfFreedom());
        final double fn = missed(1);
        return new ErrorRates(new Rate(fp, 0, fp, fp), new Rate(fn, 0, fn, fn));
    }

    /**
     * With this calibration and this threshold kept: {@code 1 - Phi((L b - da)/sd)} at 0 and {@code
     * Phi((L b - b x - da)/sd)} at the claimed amount, with the intercept's error da = 0 and the
     * fitted scatter. The interval and the standard uncertainty come from draws of da, of the
     * slope's error and of the scatter.
     */
    public ErrorRates calibrationKept(RandomStream stream, double coverage) {
        final double[] fp = new double[DRAWS];
        final double[] fn = new double[DRAWS];
        final double va = fit.covariance(0, 0);
        final double cab = fit.covariance(0, 1) / Math.sqrt(va);
        final double rest = Math.sqrt(Math.max(0, fit.covariance(1, 1) - cab * cab));
        final double sign = Math.signum(fit.coefficient(1));
        final double nuBlank = blankFreedom();
        for (int k = 0; k < DRAWS; k++) {
            final double z = stream.nextNormal();
            final double da = sign * Math.sqrt(va) * z;
            final double db = sign * (cab * z + rest * stream.nextNormal());
            final double factor = Math.sqrt(nuBlank / stream.nextChiSquare(nuBlank));
            fp[k] = above(da, factor);
            fn[k] = below(da, db, factor);
        }
        return new ErrorRates(rate(above(0, 1), fp, coverage), rate(below(0, 0, 1), fn, coverage));
    }

    /** True blank response above the kept threshold; da is the intercept's error (true - found). */
    private double above(double da, double factor) {
        final double limit = threshold.value() * Math.abs(fit.coefficient(1));
        return normalTail((limit - da) / (sd(0) * factor));
    }

    private double below(double da, double db, double factor) {
        final double b = Math.abs(fit.coefficient(1));
        final double limit = threshold.value() * b;
        final double net = (b + db) * claimed + da;
        return normalTail((net - limit) / (sd(claimed) * factor));
    }

    private static double normalTail(double z) {
        return Quantiles.tTail(z, Double.POSITIVE_INFINITY);
    }

    /** Probability of a miss when all scatter is so many times the fitted one. */
    private double missed(double factor) {
        final double b = Math.abs(fit.coefficient(1));
        final double sd = Math.sqrt(square(sd(claimed)) + fit.covariance(0, 0));
        // the threshold found anew grows with the scatter, the claimed amount does not
        return NoncentralT.cumulative(
                threshold.value() * b / sd,
                threshold.degreesOfFreedom(),
                b * claimed / (sd * factor));
    }

    /** True over fitted standard deviation that is exceeded with probability p. */
    private double lawFactor(double p) {
        final double nu = blankFreedom();
        return Math.sqrt(nu / Quantiles.chiSquare(p, nu));
    }

    /** Degrees of freedom of the scatter of blanks; no number where that is 0. */
    private double blankFreedom() {
        final double found = fit.scatter(0).degreesOfFreedom();
        return found > 1 ? Math.min(found, MOST_FREE) : 1;
    }

    private double sd(double amount) {
        return Math.sqrt(share * fit.law().variance(fit.at(amount)));
    }

    private static double square(double v) {
        return v * v;
    }

    /** Standard deviations of the calibrants; fills in what each adds to intercept and slope. */
    private double[] lineWeights(double[] intercept, double[] slope) {
        final int n = x.length;
        final double[] sds = new double[n];
        double sum = 0;
        double mean = 0;
        for (int i = 0; i < n; i++) {
            final double v = shares[i] * fit.law().variance(fit.at(x[i]));
            sds[i] = Math.sqrt(v);
            sum += 1 / v;
            mean += x[i] / v;
        }
        mean /= sum;
        double sxx = 0;
        for (int i = 0; i < n; i++) {
            sxx += square((x[i] - mean) / sds[i]);
        }
        for (int i = 0; i < n; i++) {
            final double w = 1 / square(sds[i]);
            slope[i] = w * (x[i] - mean) / sxx;
            intercept[i] = w / sum - mean * slope[i];
        }
        return sds;
    }

    private static double simulation(double rate, int repetitions) {
        // a rate seen as 0 is not known to be 0
        final double p = (rate * repetitions + 1) / (repetitions + 2.0);
        return Math.sqrt(p * (1 - p) / repetitions);
    }

    private static Rate rate(double value, double u, double k) {
        return new Rate(value, u, Math.max(0, value - k * u), Math.min(1, value + k * u));
    }

    private static Rate rate(double value, double[] drawn, double coverage) {
        Arrays.sort(drawn);
        final int cut = (int) Math.round(drawn.length * (1 - coverage) / 2);
        return new Rate(
                value, Moments.ofAll(drawn).sd(), drawn[cut], drawn[drawn.length - 1 - cut]);
    }
}
