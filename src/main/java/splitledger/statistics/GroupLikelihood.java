package splitledger.statistics;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * The part of the restricted likelihood that group means hold in unbalanced data: ln|V| + ln(x'
 * V^-1 x / x'x) + z' P z, with z the means and x the roots of the rows a group has, z's mean being
 * a multiple of x. V is the sum over components of variance times x_g x_h where two groups share a
 * label; for the finest term the diagonal of rows a cell; for the residual the identity. P = V^-1 -
 * V^-1 x x' V^-1 / (x' V^-1 x). All traces are sums over labels, so the inverse is the one step
 * that costs the cube of the number of groups. Not for use by several threads at once.
 */
final class GroupLikelihood {
    private final int n;

    /** Label of each group by component; empty for the finest term and the residual. */
    private final int[][] codes;

    private final int[] levels;

    /** Diagonal of the finest term and of the residual; empty for the others. */
    private final double[][] diagonal;

    private final double[] x;
    private final double xx;
    private final double[] z;

    /** Components of which the Cholesky factor was needed last; derivatives ask for it again. */
    private double[] lastAt = new double[0];

    private double[][] lastFactor = new double[0][];
    private double lastLog;

    GroupLikelihood(ScatterDesign design, double[] z) {
        final ScatterGroups groups = design.groups();
        final List<ScatterFactor> terms = design.structure().terms();
        n = groups.count();
        codes = new int[terms.size() + 1][0];
        levels = new int[terms.size() + 1];
        diagonal = new double[terms.size() + 1][0];
        x = new double[n];
        for (int g = 0; g < n; g++) {
            x[g] = groups.root(g);
        }
        for (int j = 0; j <= terms.size(); j++) {
            if (j == groups.finest || j == terms.size()) {
                diagonal[j] = new double[n];
                for (int g = 0; g < n; g++) {
                    diagonal[j][g] = j == groups.finest ? groups.size[g] : 1;
                }
            } else {
                levels[j] = terms.get(j).levels();
                codes[j] = new int[n];
                for (int g = 0; g < n; g++) {
                    codes[j][g] = terms.get(j).code(groups.example[g]);
                }
            }
        }
        xx = Matrices.dot(x, x);
        this.z = z;
    }

    double value(double[] components) {
        final double[][] v = factor(components);
        final double log = lastLog;
        if (Double.isNaN(log)) {
            return Double.POSITIVE_INFINITY;
        }
        final double[] whiteX = Matrices.forward(v, x);
        final double[] whiteZ = Matrices.forward(v, z);
        final double s = Matrices.dot(whiteX, whiteX);
        final double c = Matrices.dot(whiteX, whiteZ);
        return log + FastMath.log(s / xx) + Matrices.dot(whiteZ, whiteZ) - c * c / s;
    }

    /** Adds gradient and second derivatives, expected and averaged with their expectation. */
    void add(double[] components, double[] gradient, double[][] expected, double[][] average) {
        final double[][] p = projection(components);
        final double[] w = Matrices.times(p, z);
        final double[][][] sums = new double[codes.length][][];
        final double[][] turned = new double[codes.length][];
        final double[][] projected = new double[codes.length][];
        for (int j = 0; j < codes.length; j++) {
            sums[j] = sums(j, p);
            turned[j] = times(j, w);
            projected[j] = Matrices.times(p, turned[j]);
            gradient[j] += trace(j, p, sums[j]) - Matrices.dot(w, turned[j]);
        }
        for (int j = 0; j < codes.length; j++) {
            for (int l = 0; l <= j; l++) {
                final double both = both(j, l, p, sums);
                expected[j][l] += both;
                expected[l][j] += l == j ? 0 : both;
                final double mean = Matrices.dot(turned[j], projected[l]);
                average[j][l] += mean;
                average[l][j] += l == j ? 0 : mean;
            }
        }
    }

    private double[][] factor(double[] components) {
        if (!Arrays.equals(lastAt, components)) {
            lastFactor = covariance(components);
            lastLog = Matrices.cholesky(lastFactor);
            lastAt = components.clone();
        }
        return lastFactor;
    }

    private double[][] covariance(double[] components) {
        final double[][] v = new double[n][n];
        for (int j = 0; j < codes.length; j++) {
            for (int g = 0; components[j] != 0 && g < n; g++) {
                if (diagonal[j].length > 0) {
                    v[g][g] += components[j] * diagonal[j][g];
                } else {
                    for (int h = 0; h <= g; h++) {
                        v[g][h] += codes[j][g] == codes[j][h] ? components[j] * x[g] * x[h] : 0;
                    }
                }
            }
        }
        return v;
    }

    private double[][] projection(double[] components) {
        final double[][] p = Matrices.inverse(factor(components));
        final double[] u = Matrices.times(p, x);
        final double s = Matrices.dot(x, u);
        for (int g = 0; g < n; g++) {
            Matrices.addTo(p[g], -u[g] / s, u);
        }
        return p;
    }

    /** Rows of P added up by label, times x; empty for a diagonal. */
    private double[][] sums(int j, double[][] p) {
        final double[][] sums = new double[levels[j]][n];
        for (int g = 0; levels[j] > 0 && g < n; g++) {
            Matrices.addTo(sums[codes[j][g]], x[g], p[g]);
        }
        return sums;
    }

    private double trace(int j, double[][] p, double[][] sums) {
        double trace = 0;
        for (int g = 0; g < n; g++) {
            trace += levels[j] > 0 ? sums[codes[j][g]][g] * x[g] : diagonal[j][g] * p[g][g];
        }
        return trace;
    }

    /** V_j w. */
    private double[] times(int j, double[] w) {
        final double[] byLabel = new double[levels[j]];
        final double[] product = new double[n];
        for (int g = 0; g < n; g++) {
            if (levels[j] > 0) {
                byLabel[codes[j][g]] += x[g] * w[g];
            }
        }
        for (int g = 0; g < n; g++) {
            product[g] = levels[j] > 0 ? x[g] * byLabel[codes[j][g]] : diagonal[j][g] * w[g];
        }
        return product;
    }

    /** tr(P V_j P V_l). */
    private double both(int j, int l, double[][] p, double[][][] sums) {
        if (levels[j] == 0 && levels[l] == 0) {
            double sum = 0;
            for (int g = 0; g < n; g++) {
                double row = 0;
                for (int h = 0; h < n; h++) {
                    row += diagonal[l][h] * p[g][h] * p[g][h];
                }
                sum += diagonal[j][g] * row;
            }
            return sum;
        }
        if (levels[j] == 0) {
            return both(l, j, p, sums);
        }
        double sum = 0;
        for (double[] row : sums[j]) {
            if (levels[l] == 0) {
                for (int h = 0; h < n; h++) {
                    sum += diagonal[l][h] * row[h] * row[h];
                }
            } else {
                final double[] cells = new double[levels[l]];
                for (int h = 0; h < n; h++) {
                    cells[codes[l][h]] += x[h] * row[h];
                }
                sum += Matrices.dot(cells, cells);
            }
        }
        return sum;
    }
}
