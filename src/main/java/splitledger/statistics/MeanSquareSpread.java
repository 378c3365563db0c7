package splitledger.statistics;

/**
 * How uncertain the mean squares of a design are at given components: variances and covariances 2
 * tr(P_k V P_l V) / (df_k df_l), and the degrees of freedom 2 E^2 / Var that a mean square has as a
 * multiple of chi-square; in balanced data exactly its own.
 */
final class MeanSquareSpread {
    private final ScatterDesign design;
    private final double[] variance;
    private final double[] expected;

    /** Covariances of the sums of squares. */
    private final double[][] products;

    MeanSquareSpread(ScatterDesign design, double[] variance) {
        this.design = design;
        this.variance = variance.clone();
        this.expected = new double[variance.length];
        this.products = new double[variance.length][variance.length];
        for (ScatterDesign.Stratum s : design.pure()) {
            add(s);
        }
        if (design.isOrthogonal()) {
            for (ScatterDesign.Stratum s : design.blocks()) {
                add(s);
            }
        } else {
            addGroups();
        }
    }

    private void add(ScatterDesign.Stratum s) {
        final double v = Matrices.dot(s.shares(), variance);
        expected[s.term()] += s.df() * v;
        products[s.term()][s.term()] += 2 * s.df() * v * v;
    }

    /** Covariances of the mean squares. */
    double[][] covariance() {
        final int n = variance.length;
        final double[][] covariance = new double[n][n];
        for (int k = 0; k < n; k++) {
            for (int l = 0; l < n; l++) {
                covariance[k][l] =
                        products[k][l] / (design.degreesOfFreedom(k) * design.degreesOfFreedom(l));
            }
        }
        return covariance;
    }

    /** Degrees of freedom of the mean squares, at most those of the design. */
    double[] degreesOfFreedom() {
        final double[] effective = new double[variance.length];
        for (int k = 0; k < effective.length; k++) {
            effective[k] =
                    design.isOrthogonal()
                            ? design.degreesOfFreedom(k)
                            : Math.min(
                                    design.degreesOfFreedom(k),
                                    2 * expected[k] * expected[k] / products[k][k]);
        }
        return effective;
    }

    private void addGroups() {
        final int[] owner = design.basis().owner;
        for (int a = 1; a < owner.length; a++) {
            for (int b = 1; b < owner.length; b++) {
                double v = 0;
                for (int j = 0; j < variance.length; j++) {
                    v += variance[j] * design.shares()[j][a][b];
                }
                expected[owner[a]] += a == b ? v : 0;
                products[owner[a]][owner[b]] += 2 * v * v;
            }
        }
    }
}
