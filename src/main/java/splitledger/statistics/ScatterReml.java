package splitledger.statistics;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;

/**
 * Variance components by restricted maximum likelihood (Patterson and Thompson, Biometrika 58
 * (1971) 545), none below 0, from the moment estimates by Fisher scoring.
 *
 * <p>Intervals: profile likelihood. The cut-offs are not those of chi-square with one degree of
 * freedom, which are right only for many labels, but those that make the interval exact where an
 * exact one is known ({@link ProfileCutOff}): for a sum of components the chi-square interval of a
 * variance with the degrees of freedom that the information gives at the end of the interval
 * itself, for a single component the F interval of its mean square against its denominator. Where a
 * component is estimated as 0, the likelihood takes its mean square, which happened to be small,
 * for more evidence about the others; their upper ends then are at least those by moments (without
 * this, 92 % instead of 95 % were covered).
 */
public final class ScatterReml {
    private static final double TOLERANCE = 1e-20;

    private final ScatterMoments moments;
    private final ScatterLikelihood likelihood;
    private final double scale;

    /** Components in units of the scale. */
    private final double[] best;

    private final double least;
    private final double[][] spread;

    private ScatterReml(
            ScatterMoments moments, ScatterLikelihood likelihood, double scale, double[] best) {
        this.moments = moments;
        this.likelihood = likelihood;
        this.scale = scale;
        this.best = best;
        least = likelihood.value(best);
        spread = inverseInformation(best);
    }

    /**
     * Estimates the components.
     *
     * @param moments estimates of the same data by moments
     * @return the estimates, or {@code NO_FINITE_VALUE} if the steps do not end (not met so far)
     */
    public static Outcome<ScatterReml> of(ScatterMoments moments) {
        final double scale =
                Arrays.stream(moments.sums().squares()).sum() / (moments.design().rows() - 1);
        final ScatterLikelihood likelihood =
                ScatterLikelihood.of(moments.design(), moments.sums(), scale);
        final double[] start = moments.variances();
        for (int j = 0; j < start.length; j++) {
            start[j] /= scale;
        }
        final Optional<double[]> best =
                new NonNegativeMinimum(likelihood, TOLERANCE)
                        .from(start, new boolean[start.length], new double[0]);
        return best.<Outcome<ScatterReml>>map(
                        b -> Outcome.of(new ScatterReml(moments, likelihood, scale, b)))
                .orElseGet(
                        () ->
                                Outcome.not(
                                        Outcome.Reason.NO_FINITE_VALUE,
                                        "the restricted likelihood was not maximised in 300 steps"));
    }

    /** Estimate of a component; the residual comes after the last term. */
    public double variance(int term) {
        return best[term] * scale;
    }

    /**
     * Covariances of the estimates, the inverse of the expected information of all components at
     * the estimates; a component at 0 counts as free.
     */
    public double[][] covariance() {
        final double[][] covariance = new double[spread.length][];
        for (int j = 0; j < spread.length; j++) {
            covariance[j] = spread[j].clone();
            for (int l = 0; l < spread.length; l++) {
                covariance[j][l] *= scale * scale;
            }
        }
        return covariance;
    }

    /** Restricted log-likelihood with all constants, for the model's one fixed mean. */
    public double logLikelihood() {
        final int n = moments.design().rows();
        return -0.5 * (least + (n - 1) * (FastMath.log(2 * FastMath.PI * scale)) + FastMath.log(n));
    }

    private double[][] inverseInformation(double[] at) {
        final int n = at.length;
        final double[][] expected = new double[n][n];
        likelihood.derivatives(at, new double[n], expected, new double[n][n]);
        final double[][] inverse = new double[n][n];
        for (int j = 0; j < n; j++) {
            final double[] unit = new double[n];
            unit[j] = 2;
            final double[] column = Matrices.eliminate(expected, unit);
            for (int l = 0; l < column.length; l++) {
                inverse[l][j] = column[l];
            }
        }
        return inverse;
    }

    /** 2 tau^2 / Var(tau) with the expected information. */
    private double degreesOfFreedom(double[] weights, double[] at) {
        final double value = Matrices.dot(weights, at);
        final double[] column = Matrices.times(inverseInformation(at), weights);
        return 2 * value * value / Matrices.dot(weights, column);
    }

    /**
     * One component.
     *
     * @param term from 0 on; the residual comes after the last term
     * @param coverage of the interval
     */
    public ScatterComponent component(int term, double coverage) {
        final double[] weights = new double[best.length];
        weights[term] = 1;
        if (term == best.length - 1) {
            return sum(weights, coverage);
        }
        final ProfileCutOff cut =
                ProfileCutOff.ofRatio(
                        coverage,
                        moments.design().degreesOfFreedom(term),
                        moments.denominatorDf(term));
        final double guess = moments.component(term, coverage).upper() / scale;
        final ProfileSearch search = profile(weights, term);
        final double upper = search.end(true, at -> cut.upper(), guess);
        final double widest = atEdge(term) ? Math.max(upper, guess) : upper;
        final double lower =
                search.deviance(0) <= cut.lower()
                        ? 0
                        : search.end(false, at -> cut.lower(), best[term] / 4);
        return found(weights, moments.design().degreesOfFreedom(term), lower, widest);
    }

    /**
     * A sum of components with the residual, such as {@link ScatterStructure#intermediate}.
     *
     * @param weights one a component, none negative, the residual's last and above 0
     * @param coverage of the interval
     */
    public ScatterComponent sum(double[] weights, double coverage) {
        Checks.sameLength("weights", best.length, weights.length);
        Checks.positive("weight of the residual", weights[best.length - 1]);
        final ProfileCutOff.Search high =
                new ProfileCutOff.Search(coverage, true, at -> degreesOfFreedom(weights, at));
        final ProfileCutOff.Search low =
                new ProfileCutOff.Search(coverage, false, at -> degreesOfFreedom(weights, at));
        final double value = Matrices.dot(weights, best);
        final ScatterComponent guess = moments.sum(weights, coverage);
        final ProfileSearch search = profile(weights, -1);
        final double upper = search.end(true, high, Math.max(guess.upper() / scale, value));
        final double widest = atEdge(-1) ? Math.max(upper, guess.upper() / scale) : upper;
        final double lower = search.end(false, low, Math.min(guess.lower() / scale, value * 0.9));
        return found(weights, degreesOfFreedom(weights, best), lower, widest);
    }

    /** Whether a component other than this one is estimated as 0. */
    private boolean atEdge(int term) {
        boolean edge = false;
        for (int j = 0; j < best.length; j++) {
            edge |= j != term && best[j] == 0;
        }
        return edge;
    }

    private ScatterComponent found(double[] weights, double df, double lower, double upper) {
        final double value = Matrices.dot(weights, best);
        final double ofSum = Matrices.dot(weights, Matrices.times(spread, weights));
        return new ScatterComponent(
                value * scale,
                value * scale,
                Math.sqrt(ofSum) * scale,
                value > 0 ? 2 * value * value / ofSum : df,
                lower * scale,
                Math.max(value, upper) * scale);
    }

    private ProfileSearch profile(double[] weights, int term) {
        return new ProfileSearch(likelihood, best, least, weights, term);
    }

    /** Estimates by moments of the same data. */
    public ScatterMoments moments() {
        return moments;
    }
}
