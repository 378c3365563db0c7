package splitledger.statistics;

import java.util.Arrays;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Variance components by the method of moments: sequential mean squares are set equal to their
 * expectations. In balanced data this is the usual analysis of variance. Negative estimates are
 * kept as they come out ({@link #raw}) and counted as 0 in sums ({@link #variance}).
 *
 * <p>Intervals: modified large sample ({@link MeanSquareIntervals}). In unbalanced data a mean
 * square is not a multiple of chi-square; it is taken as one with the degrees of freedom that its
 * variance implies, 2 E^2 / Var at the estimates, and independent of the others.
 */
public final class ScatterMoments {
    private final ScatterDesign design;
    private final ScatterSums sums;
    private final double[] meanSquares;
    private final double[] raw;
    private final double[] variance;

    /** Covariances of the mean squares. */
    private final double[][] covariance;

    private final double[] effective;
    private final Map<Double, MeanSquareIntervals> intervals = new ConcurrentHashMap<>();

    private ScatterMoments(ScatterDesign design, ScatterSums sums) {
        this.design = design;
        this.sums = sums;
        final int n = design.components();
        meanSquares = new double[n];
        for (int k = 0; k < n; k++) {
            meanSquares[k] = sums.squares()[k] / design.degreesOfFreedom(k);
        }
        raw = Matrices.eliminate(design.expectation(), meanSquares);
        variance = Arrays.stream(raw).map(v -> Math.max(0, v)).toArray();
        final MeanSquareSpread spread = new MeanSquareSpread(design, variance);
        covariance = spread.covariance();
        effective = spread.degreesOfFreedom();
    }

    /**
     * Estimates the components.
     *
     * @param design of the rows
     * @param y responses, one a row, all finite
     * @return the estimates, or {@code NO_SCATTER} if the residual's mean square is 0
     * @throws IllegalArgumentException if the length differs or a value is not finite
     */
    public static Outcome<ScatterMoments> of(ScatterDesign design, double[] y) {
        final ScatterSums sums = design.sums(y);
        if (!(sums.squares()[design.components() - 1] > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER,
                    "the scatter of " + design.structure().residual() + " is exactly 0");
        }
        return Outcome.of(new ScatterMoments(design, sums));
    }

    /** Factors of the mean squares in a combination of the components. */
    double[] factors(double[] weights) {
        final int n = weights.length;
        final double[][] transposed = new double[n][n];
        for (int k = 0; k < n; k++) {
            for (int j = 0; j < n; j++) {
                transposed[j][k] = design.expectation()[k][j];
            }
        }
        final double[] factors = Matrices.eliminate(transposed, weights);
        double most = 0;
        for (double f : factors) {
            most = Math.max(most, Math.abs(f));
        }
        for (int k = 0; k < n; k++) {
            // rounding alone must not count as a factor of its own sign
            factors[k] = Math.abs(factors[k]) < 1e-12 * most ? 0 : factors[k];
        }
        return factors;
    }

    /**
     * One component.
     *
     * @param term from 0 on; the residual comes after the last term
     * @param coverage of the interval
     */
    public ScatterComponent component(int term, double coverage) {
        final double[] weights = new double[raw.length];
        weights[term] = 1;
        final double[] factors = factors(weights);
        final MeanSquareIntervals method = intervals(coverage);
        final double low = Math.max(0, method.lower(factors, meanSquares));
        final double high =
                Math.max(
                        method.upper(factors, meanSquares), method.upper(factors, lifted(factors)));
        return found(weights, factors, term, low, high);
    }

    /**
     * Mean squares raised to what the components, none below 0, make them expect: so an upper end
     * never shrinks to 0 because a mean square fell below its denominator.
     */
    private double[] lifted(double[] factors) {
        final double[] lifted = meanSquares.clone();
        for (int k = 0; k < lifted.length; k++) {
            if (factors[k] != 0) {
                lifted[k] = Math.max(lifted[k], Matrices.dot(design.expectation()[k], variance));
            }
        }
        return lifted;
    }

    /**
     * A sum of components, such as {@link ScatterStructure#intermediate}.
     *
     * @param weights one a component, none negative, the residual's last
     * @param coverage of the interval
     */
    public ScatterComponent sum(double[] weights, double coverage) {
        Checks.sameLength("weights", raw.length, weights.length);
        final double[] factors = factors(weights);
        final MeanSquareIntervals method = intervals(coverage);
        final double value = Matrices.dot(weights, variance);
        final double low = Math.min(value, Math.max(0, method.lower(factors, meanSquares)));
        final double high = Math.max(value, method.upper(factors, meanSquares));
        return found(weights, factors, raw.length - 1, low, high);
    }

    private ScatterComponent found(
            double[] weights, double[] factors, int term, double low, double high) {
        final double value = Matrices.dot(weights, variance);
        final double spread = Matrices.dot(factors, Matrices.times(covariance, factors));
        return new ScatterComponent(
                value,
                Matrices.dot(weights, raw),
                Math.sqrt(spread),
                value > 0 ? degreesOfFreedom(factors, value, spread) : effective[term],
                low,
                high);
    }

    /** Satterthwaite; where one mean square alone makes the estimate, exactly its own. */
    private double degreesOfFreedom(double[] factors, double value, double spread) {
        int only = -1;
        int count = 0;
        for (int k = 0; k < factors.length; k++) {
            only = factors[k] == 0 ? only : k;
            count += factors[k] == 0 ? 0 : 1;
        }
        return count == 1 ? effective[only] : 2 * value * value / spread;
    }

    /** Variance of a combination of the components, none of them cut at 0. */
    double spread(double[] weights) {
        final double[] factors = factors(weights);
        return Matrices.dot(factors, Matrices.times(covariance, factors));
    }

    /** All mean squares, the residual's last. */
    double[] meanSquares() {
        return meanSquares.clone();
    }

    MeanSquareIntervals intervals(double coverage) {
        if (design.isOrthogonal()) {
            return design.intervals(coverage);
        }
        return intervals.computeIfAbsent(coverage, c -> new MeanSquareIntervals(c, effective));
    }

    /**
     * Variance of the mean of all rows, with its degrees of freedom. The combination of mean
     * squares that is expected to be right is used as it comes out (in balanced nested data one
     * mean square divided by the number of rows); where it falls below the scatter of injections
     * alone, the components, none below 0. A difference of mean squares never has fewer degrees of
     * freedom than the poorest of them: below 1 the t interval would say nothing at all.
     */
    public VarianceEstimate meanVariance() {
        final double[] weights = design.meanShares();
        final double[] factors = factors(weights);
        final double floor = meanSquares[raw.length - 1];
        final double sum = Matrices.dot(factors, meanSquares);
        final double spread = Matrices.dot(factors, Matrices.times(covariance, factors));
        if (sum >= floor && spread > 0) {
            double own = 0;
            double fewest = Double.POSITIVE_INFINITY;
            for (int k = 0; k < factors.length; k++) {
                final double part = factors[k] * meanSquares[k];
                own += part * part / effective[k];
                fewest = factors[k] == 0 ? fewest : Math.min(fewest, effective[k]);
            }
            return new VarianceEstimate(sum / design.rows(), Math.max(fewest, sum * sum / own));
        }
        final double value = Matrices.dot(weights, variance);
        return new VarianceEstimate(value / design.rows(), 2 * value * value / spread);
    }

    /** Mean of all rows. */
    public double mean() {
        return sums.mean();
    }

    /** Mean square of a term; the residual comes after the last. */
    public double meanSquare(int term) {
        return meanSquares[term];
    }

    /**
     * Degrees of freedom of a term's mean square, effective ones if the rows are not balanced; the
     * residual comes after the last.
     */
    public double degreesOfFreedom(int term) {
        return effective[term];
    }

    /** Estimate of a component as it comes out, possibly negative. */
    public double raw(int term) {
        return raw[term];
    }

    /** Estimate of a component, 0 where it comes out negative. */
    public double variance(int term) {
        return variance[term];
    }

    /** Covariance of two estimates, at the estimates. */
    public double covariance(int first, int second) {
        final double[] one = new double[raw.length];
        final double[] two = new double[raw.length];
        one[first] = 1;
        two[second] = 1;
        return Matrices.dot(factors(one), Matrices.times(covariance, factors(two)));
    }

    /**
     * Degrees of freedom of what a term's mean square is expected to be without its own component,
     * made up from the other mean squares (Satterthwaite); in balanced nested data those of the
     * next mean square.
     */
    double denominatorDf(int term) {
        final double[] weights = new double[raw.length];
        weights[term] = 1;
        final double[] factors = factors(weights);
        double sum = 0;
        double spread = 0;
        double fewest = Double.POSITIVE_INFINITY;
        for (int k = 0; k < factors.length; k++) {
            if (k != term && factors[k] != 0) {
                final double part = factors[k] * meanSquares[k];
                sum += part;
                spread += part * part / effective[k];
                fewest = Math.min(fewest, effective[k]);
            }
        }
        // mean squares that are exactly 0 leave nothing to weigh their degrees of freedom with
        return spread > 0 ? Math.max(1, sum * sum / spread) : Math.max(1, fewest);
    }

    /**
     * How probable a mean square as small as a term's, or smaller, is against what the others make
     * it expected to be without its own component, by F with {@link #degreesOfFreedom} and those of
     * the combination (Satterthwaite; exact in balanced nested data).
     */
    public double lowerTail(int term) {
        final double[] weights = new double[raw.length];
        weights[term] = 1;
        final double[] factors = factors(weights);
        double others = 0;
        for (int k = 0; k < factors.length; k++) {
            others -= k == term ? 0 : factors[k] / factors[term] * meanSquares[k];
        }
        if (!(others > 0)) {
            return 1;
        }
        return meanSquares[term] > 0
                ? Quantiles.fTail(others / meanSquares[term], denominatorDf(term), effective[term])
                : 0;
    }

    double[] variances() {
        return variance.clone();
    }

    ScatterSums sums() {
        return sums;
    }

    /** What the labels determine. */
    public ScatterDesign design() {
        return design;
    }
}
