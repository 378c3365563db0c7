package splitledger.statistics;

/**
 * A fitted line y = a + b x with variance(y) = s^2 x^power.
 *
 * @param weighting the weights used
 * @param points number of points n
 * @param xMean weighted mean of x
 * @param yMean weighted mean of y
 * @param sumOfWeights sum of 1/x^power
 * @param sxx weighted sum of squares of x about its mean
 * @param slope b, y-unit per x-unit
 * @param residualSd s, in the y-unit per x-unit^(power/2)
 * @param residualSquares weighted sum of squared residuals
 * @param totalSquares weighted sum of squares of y about its mean
 */
public record LineFit(
        Weighting weighting,
        int points,
        double xMean,
        double yMean,
        double sumOfWeights,
        double sxx,
        double slope,
        double residualSd,
        double residualSquares,
        double totalSquares) {

    /** Intercept a = mean(y) - b mean(x), in the y-unit. */
    public double intercept() {
        return yMean - slope * xMean;
    }

    /** n - 2. */
    public double degreesOfFreedom() {
        return points - 2;
    }

    /** s^2 / Sxx. */
    public double slopeVariance() {
        return residualSd * residualSd / sxx;
    }

    /** s^2 (1/sum(w) + mean(x)^2 / Sxx). */
    public double interceptVariance() {
        return residualSd * residualSd * (1 / sumOfWeights + xMean * xMean / sxx);
    }

    /** -mean(x) s^2 / Sxx. */
    public double covariance() {
        return -xMean * slopeVariance();
    }

    /** a + b x. */
    public double at(double x) {
        return yMean + slope * (x - xMean);
    }

    /** Variance of the fitted line at x: s^2 (1/sum(w) + (x - mean(x))^2 / Sxx). */
    public double lineVariance(double x) {
        final double d = x - xMean;
        return residualSd * residualSd * (1 / sumOfWeights + d * d / sxx);
    }

    /**
     * Share of the (weighted) spread of y that the line takes up; proves nothing about linearity.
     */
    public double rSquared() {
        return totalSquares > 0 ? 1 - residualSquares / totalSquares : 1;
    }

    /** |b| / u(b); infinite for an exact line. */
    public double slopeT() {
        return Math.abs(slope) / Math.sqrt(slopeVariance());
    }
}
