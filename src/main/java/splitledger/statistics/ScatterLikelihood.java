package splitledger.statistics;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;

/**
 * Minus twice the restricted log-likelihood of variance components, up to a constant: sum over
 * strata of df ln(v) + SS/v, with v = sum of shares times components, and, where group means are no
 * strata, {@link GroupLikelihood}. (Patterson and Thompson, Biometrika 58 (1971) 545.)
 */
final class ScatterLikelihood {
    private final double[] df;
    private final double[][] strata;
    private final double[] squares;
    private final Optional<GroupLikelihood> groups;

    private ScatterLikelihood(
            double[] df, double[][] strata, double[] squares, Optional<GroupLikelihood> groups) {
        this.df = df;
        this.strata = strata;
        this.squares = squares;
        this.groups = groups;
    }

    /** Strata alone: sums of squares with their degrees of freedom and shares. */
    static ScatterLikelihood of(double[] df, double[][] strata, double[] squares) {
        return new ScatterLikelihood(df, strata, squares, Optional.empty());
    }

    /** Of the responses of a design, divided by a variance. */
    static ScatterLikelihood of(ScatterDesign design, ScatterSums sums, double scale) {
        final List<ScatterDesign.Stratum> pure = design.pure();
        final boolean blocks = design.isOrthogonal();
        final int n = pure.size() + (blocks ? design.blocks().size() : 0);
        final double[] df = new double[n];
        final double[][] strata = new double[n][];
        final double[] squares = new double[n];
        for (int s = 0; s < n; s++) {
            final boolean first = s < pure.size();
            final ScatterDesign.Stratum stratum =
                    first ? pure.get(s) : design.blocks().get(s - pure.size());
            df[s] = stratum.df();
            strata[s] = stratum.shares();
            squares[s] = (first ? sums.within()[s] : sums.inBlocks()[stratum.term()]) / scale;
        }
        if (blocks) {
            return of(df, strata, squares);
        }
        final double[] z = sums.groups().clone();
        for (int g = 0; g < z.length; g++) {
            z[g] /= Math.sqrt(scale);
        }
        return new ScatterLikelihood(
                df, strata, squares, Optional.of(new GroupLikelihood(design, z)));
    }

    /** Value at these components; infinite where a variance of a stratum is not above 0. */
    double value(double[] components) {
        final double strataAlone = ofStrata(components);
        return groups.isPresent() && strataAlone < Double.POSITIVE_INFINITY
                ? strataAlone + groups.get().value(components)
                : strataAlone;
    }

    private double ofStrata(double[] components) {
        double sum = 0;
        for (int s = 0; s < df.length; s++) {
            if (df[s] > 0) {
                final double v = Matrices.dot(strata[s], components);
                if (!(v > 0)) {
                    return Double.POSITIVE_INFINITY;
                }
                sum += df[s] * FastMath.log(v) + squares[s] / v;
            }
        }
        return sum;
    }

    /**
     * Gradient and second derivatives at these components, where the value is finite: their
     * expectation (twice the information), and their mean with it, which is never indefinite
     * (average information; Gilmour, Thompson and Cullis, Biometrics 51 (1995) 1440). The second
     * derivatives themselves are twice the mean less the expectation.
     */
    void derivatives(
            double[] components, double[] gradient, double[][] expected, double[][] average) {
        for (int j = 0; j < gradient.length; j++) {
            gradient[j] = 0;
            Arrays.fill(expected[j], 0);
            Arrays.fill(average[j], 0);
        }
        for (int s = 0; s < df.length; s++) {
            if (df[s] > 0) {
                final double v = Matrices.dot(strata[s], components);
                for (int j = 0; j < gradient.length; j++) {
                    final double share = strata[s][j] / v;
                    gradient[j] += share * (df[s] - squares[s] / v);
                    for (int l = 0; l < gradient.length; l++) {
                        final double both = share * strata[s][l] / v;
                        expected[j][l] += df[s] * both;
                        average[j][l] += squares[s] / v * both;
                    }
                }
            }
        }
        if (groups.isPresent()) {
            groups.get().add(components, gradient, expected, average);
        }
    }

    /** How many components. */
    int components() {
        return strata[0].length;
    }
}
