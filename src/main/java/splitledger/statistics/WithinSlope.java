package splitledger.statistics;

import java.util.Collections;
import java.util.List;

/**
 * A slope common to all groups, each group with its own level: y = level of the group + slope x +
 * residual. On the order of injection it is drift within days; on the amount injected just before
 * it is carry-over, and divided by the response to one unit of amount the fraction carried over.
 *
 * @param slope in units of y per unit of x
 * @param standardUncertainty of the slope
 * @param degreesOfFreedom rows - groups - 1
 * @param p two-sided, of no slope
 */
public record WithinSlope(
        double slope, double standardUncertainty, double degreesOfFreedom, double p) {

    /**
     * Fits the slope by least squares.
     *
     * @param y responses
     * @param x order, previous amount, ...
     * @param groups label of each row; all equal for one level
     * @return the slope, {@code TOO_FEW_POINTS} without a degree of freedom, {@code NO_SPREAD_IN_X}
     *     if x is constant within every group, {@code NO_SCATTER} if the rows fit exactly
     */
    public static Outcome<WithinSlope> of(double[] y, double[] x, ScatterFactor groups) {
        Checks.sameLength("x", y.length, x.length);
        Checks.sameLength("groups", y.length, groups.rows());
        Checks.allFinite("y", y);
        Checks.allFinite("x", x);
        final int df = y.length - groups.levels() - 1;
        if (df < 1) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_POINTS,
                    y.length + " rows in " + groups.levels() + " groups leave nothing for a slope");
        }
        final double[] dy = centred(y, groups);
        final double[] dx = centred(x, groups);
        final double sxx = Matrices.dot(dx, dx);
        if (!(sxx > 0)) {
            return Outcome.not(Outcome.Reason.NO_SPREAD_IN_X, "x is constant within every group");
        }
        final double slope = Matrices.dot(dx, dy) / sxx;
        double rest = 0;
        for (int i = 0; i < dy.length; i++) {
            final double e = dy[i] - slope * dx[i];
            rest += e * e;
        }
        if (!(rest > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "the rows lie exactly on lines");
        }
        final double u = Math.sqrt(rest / df / sxx);
        return Outcome.of(new WithinSlope(slope, u, df, Quantiles.tTwoSidedTail(slope / u, df)));
    }

    /** Values less the mean of their group. */
    static double[] centred(double[] values, ScatterFactor groups) {
        final double[] first = new double[groups.levels()];
        final double[] sum = new double[groups.levels()];
        final int[] count = new int[groups.levels()];
        for (int i = 0; i < values.length; i++) {
            final int g = groups.code(i);
            first[g] = count[g] == 0 ? values[i] : first[g];
            sum[g] += values[i] - first[g];
            count[g]++;
        }
        final double[] rest = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            final int g = groups.code(i);
            rest[i] = values[i] - first[g] - sum[g] / count[g];
        }
        return rest;
    }

    /** Half width of the interval of the slope. */
    public double halfWidth(double coverage) {
        return Quantiles.coverageFactor(coverage, degreesOfFreedom) * standardUncertainty;
    }

    /** All rows in one group. */
    public static ScatterFactor oneGroup(int rows) {
        return ScatterFactor.of("all", Collections.nCopies(rows, "all"));
    }

    /** Rows grouped by label. */
    public static ScatterFactor groups(List<String> labels) {
        return ScatterFactor.of("group", labels);
    }
}
