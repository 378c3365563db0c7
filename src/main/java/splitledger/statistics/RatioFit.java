package splitledger.statistics;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Outcome.Reason;

/**
 * One logarithmic response a set-up against the ratio that was set: z = block - beta ln r + error,
 * the errors of set-ups being independent of each other. Blocks (days, solutions) have levels of
 * their own. The degrees of freedom count set-ups, never injections. Where all compounds are seen
 * in the same set-ups with the same relative variances, generalised least squares over all
 * compounds together gives for every combination of them what this gives for the combination (A.
 * Zellner, J. Am. Stat. Assoc. 57 (1962) 348, for equal regressors; from memory).
 *
 * <p>Immutable; arrays are copied.
 */
public final class RatioFit {
    /** Steps of the ladder of relative variances, each twice the one before; the first is 0. */
    private static final int LADDER = 12;

    private final double[] ratios;
    private final double[] z;
    private final double[] variances;
    private final int[] blocks;
    private final int blockCount;

    private RatioFit(double[] ratios, double[] z, double[] variances, int[] blocks, int count) {
        this.ratios = ratios.clone();
        this.z = z.clone();
        this.variances = variances.clone();
        this.blocks = blocks.clone();
        this.blockCount = count;
    }

    /**
     * Set-ups with their logarithmic responses.
     *
     * @param ratios set, each above 0
     * @param z logarithm of the response, mean of the set-up's injections
     * @param variances of the set-ups' errors, up to a common factor
     * @param blocks numbered from 0 without gaps
     */
    public static RatioFit of(double[] ratios, double[] z, double[] variances, int[] blocks) {
        return new RatioFit(
                ratios, z, variances, blocks, Arrays.stream(blocks).max().orElse(-1) + 1);
    }

    /**
     * Relative variances of set-ups with unequal numbers of injections: that of the setting plus
     * that of the injections over their number, both by moments.
     *
     * @param injectionVariance pooled within set-ups; {@code NaN} if no set-up was injected twice
     * @param injections in each set-up
     * @return this, or with all variances 1 if the numbers are equal
     */
    public RatioFit weighted(double injectionVariance, int... injections) {
        final boolean equal = Arrays.stream(injections).allMatch(n -> n == injections[0]);
        if (equal || !(injectionVariance > 0)) {
            return this;
        }
        final double total =
                line().fold(
                                GeneralLeastSquares::scale,
                                (NotComputed<GeneralLeastSquares> n) -> Double.NaN);
        final double mean = Arrays.stream(injections).mapToDouble(n -> 1.0 / n).average().orElse(1);
        final double setting =
                Double.isNaN(total) ? 0 : Math.max(0, total - injectionVariance * mean);
        final double[] v =
                Arrays.stream(injections)
                        .mapToDouble(
                                n ->
                                        (setting + injectionVariance / n)
                                                / (setting + injectionVariance * mean))
                        .toArray();
        return of(ratios, z, v, blocks);
    }

    /**
     * Relative variances where compounds are set against each other: what they share drops out, and
     * their own scatter is a proportional part and a constant one, which weighs the more the
     * smaller the areas, v = 1 + lambda (r / r_max)^2. Lambda is the most likely one of a fixed
     * ladder of values by the scatter within set-ups; this is divided by the number of injections.
     *
     * @param squares sum of squares within each set-up
     * @param injections in each set-up
     */
    public RatioFit weightedByScatter(double[] squares, int[] injections) {
        double bestLambda = 0;
        double best = Double.NEGATIVE_INFINITY;
        for (int step = 0; step <= LADDER; step++) {
            final double lambda = step == 0 ? 0 : FastMath.pow(2, step - 4.0);
            final double[] v = growing(lambda);
            double sum = 0;
            double logs = 0;
            double freedom = 0;
            for (int i = 0; i < v.length; i++) {
                sum += squares[i] / v[i];
                logs += (injections[i] - 1) * FastMath.log(v[i]);
                freedom += injections[i] - 1;
            }
            final double likelihood =
                    freedom > 0 && sum > 0 ? -logs - freedom * FastMath.log(sum / freedom) : 0;
            if (likelihood > best) {
                best = likelihood;
                bestLambda = lambda;
            }
        }
        final double[] v = growing(bestLambda);
        Arrays.setAll(v, i -> v[i] / injections[i]);
        return of(ratios, z, v, blocks);
    }

    private double[] growing(double lambda) {
        final double most = Arrays.stream(ratios).max().orElse(1);
        return Arrays.stream(ratios).map(r -> 1 + lambda * (r / most) * (r / most)).toArray();
    }

    /** How many set-ups. */
    public int setUps() {
        return z.length;
    }

    /** The same with other responses. */
    public RatioFit with(double[] other) {
        return of(ratios, other, variances, blocks);
    }

    /** The exponent: coefficient 0 is beta, the others are the blocks. */
    public Outcome<GeneralLeastSquares> line() {
        final double[][] rows = new double[z.length][];
        for (int i = 0; i < z.length; i++) {
            rows[i] = row(-FastMath.log(ratios[i]), i);
        }
        return fitted(rows, z);
    }

    /**
     * Residuals of the exponent's line, each over the root of its variance.
     *
     * @param line as {@link #line()} gives it
     */
    public double[] residuals(GeneralLeastSquares line) {
        final double[] rest = new double[z.length];
        for (int i = 0; i < z.length; i++) {
            final double[] row = row(-FastMath.log(ratios[i]), i);
            double fitted = 0;
            for (int l = 0; l < row.length; l++) {
                fitted += row[l] * line.coefficients().get(l);
            }
            rest[i] = (z[i] - fitted) / Math.sqrt(variances[i]);
        }
        return rest;
    }

    /**
     * What each set-up's error, in units of its standard deviation with the scale 1, adds to the
     * exponent; the sum of squares is the unscaled variance of the exponent.
     *
     * @param line as {@link #line()} gives it
     */
    public double[] lineParts(GeneralLeastSquares line) {
        final double[][] rows = new double[z.length][];
        Arrays.setAll(rows, i -> row(-FastMath.log(ratios[i]), i));
        return parts(rows, line, 0);
    }

    /**
     * The same of a setting's level against the reference.
     *
     * @param settings as for {@link #levels}
     * @param levels what that gave
     * @param k which setting
     */
    public double[] levelParts(List<Double> settings, GeneralLeastSquares levels, int k) {
        return parts(levelRows(settings), levels, k);
    }

    /** Row k of (X' V^-1 X)^-1 X' V^-1, each column times the root of its variance. */
    private double[] parts(double[][] rows, GeneralLeastSquares fit, int k) {
        final List<Double> inverse = fit.unscaled().get(k);
        final double[] parts = new double[z.length];
        for (int i = 0; i < parts.length; i++) {
            double sum = 0;
            for (int l = 0; l < inverse.size(); l++) {
                sum += inverse.get(l) * rows[i][l];
            }
            parts[i] = sum / Math.sqrt(variances[i]);
        }
        return parts;
    }

    /** The ratios, one a set-up. */
    public double[] ratios() {
        return ratios.clone();
    }

    /**
     * The responses with the levels of their blocks replaced by the mean level, for figures.
     *
     * @param line as {@link #line()} gives it
     */
    public double[] withoutBlocks(GeneralLeastSquares line) {
        final double mean =
                line.coefficients().stream().skip(1).mapToDouble(b -> b).average().orElse(0);
        final double[] free = new double[z.length];
        Arrays.setAll(free, i -> z[i] - line.coefficients().get(1 + blocks[i]) + mean);
        return free;
    }

    /**
     * A level for each setting against that of one of them, with the blocks: coefficient k is the
     * difference of {@code settings[k]} from the reference, the reference itself left out. Where
     * every setting was set up once no degree of freedom is left.
     *
     * @param settings ratios, all but the reference
     */
    public Outcome<GeneralLeastSquares> levels(List<Double> settings) {
        final double[] kept = new double[z.length];
        Arrays.setAll(kept, i -> z[i] + FastMath.log(ratios[i]));
        return GeneralLeastSquares.independent(levelRows(settings), kept, variances);
    }

    private double[][] levelRows(List<Double> settings) {
        final double[][] rows = new double[z.length][settings.size() + blockCount];
        for (int i = 0; i < z.length; i++) {
            final int at = settings.indexOf(ratios[i]);
            if (at >= 0) {
                rows[i][at] = 1;
            }
            rows[i][settings.size() + blocks[i]] = 1;
        }
        return rows;
    }

    /**
     * The fit of the response to 1/(r + offset), the exponent being 1.
     *
     * @param offset above minus the smallest ratio
     */
    GeneralLeastSquares atOffset(double offset) {
        final double[] rest = new double[z.length];
        final double[][] rows = new double[z.length][];
        for (int i = 0; i < z.length; i++) {
            rest[i] = z[i] + FastMath.log(ratios[i] + offset);
            rows[i] = row(-1 / (ratios[i] + offset), i);
        }
        final Outcome<GeneralLeastSquares> fit = fitted(rows, rest);
        if (fit instanceof Computed<GeneralLeastSquares> c) {
            return c.value();
        }
        throw new IllegalStateException(
                "ratios differ, so that the offset has a column of its own");
    }

    /** Sum of squares about the response 1/(r + offset), the blocks fitted. */
    public double squaresAt(double offset) {
        final double[] rest = new double[z.length];
        Arrays.setAll(rest, i -> z[i] + FastMath.log(ratios[i] + offset));
        final double[] sums = new double[blockCount];
        final double[] weights = new double[blockCount];
        for (int i = 0; i < z.length; i++) {
            sums[blocks[i]] += rest[i] / variances[i];
            weights[blocks[i]] += 1 / variances[i];
        }
        double squares = 0;
        for (int i = 0; i < z.length; i++) {
            final double e = rest[i] - sums[blocks[i]] / weights[blocks[i]];
            squares += e * e / variances[i];
        }
        return squares;
    }

    /** The smallest ratio. */
    double least() {
        return Arrays.stream(ratios).min().orElse(Double.NaN);
    }

    private double[] row(double first, int i) {
        final double[] row = new double[1 + blockCount];
        row[0] = first;
        row[1 + blocks[i]] = 1;
        return row;
    }

    private Outcome<GeneralLeastSquares> fitted(double[][] rows, double[] response) {
        final Outcome<GeneralLeastSquares> fit =
                GeneralLeastSquares.independent(rows, response, variances);
        if (fit instanceof Computed<GeneralLeastSquares> c && !(c.value().degreesOfFreedom() > 0)) {
            return Outcome.not(
                    Reason.TOO_FEW_SET_UPS,
                    z.length + " set-ups leave no degree of freedom to judge their scatter");
        }
        return fit;
    }
}
