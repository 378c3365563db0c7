package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * What the labels of a precision study alone determine, computed once and used for the responses of
 * every compound: degrees of freedom, expected mean squares, and the strata in which independent
 * chi-squares are found. Model: y = mean + one random effect a label of each term + residual.
 * Immutable, thread-safe.
 *
 * <p>The sums of squares are sequential (each term adjusted for the terms before it); their
 * expectations are exact for any pattern of rows, balanced or not: E SS_k = sum over terms of
 * variance_j trace(P_k Z_j Z_j') with P_k the projection onto what term k adds (Searle, Casella and
 * McCulloch, Variance Components, 1992, chapter 5, from memory). In balanced data they are the
 * usual mean squares.
 */
public final class ScatterDesign {
    private static final double EQUAL = 1e-9;

    /**
     * Sums of squares with one common expectation each.
     *
     * @param term to which it belongs; the residual comes after the last
     * @param df degrees of freedom
     * @param shares of the variances of all terms and the residual in its mean square's expectation
     */
    record Stratum(int term, double df, double[] shares) {}

    private final ScatterStructure structure;
    private final ScatterGroups groups;
    private final ScatterBasis basis;

    /**
     * Strata with a sum of squares of their own, in the order in which groups.reduce gives them.
     */
    private final List<Stratum> pure = new ArrayList<>();

    /** Blocks of the basis that are strata too; only if the design is orthogonal. */
    private final List<Stratum> blocks = new ArrayList<>();

    /** Covariances of the turned group means, a matrix a component. */
    private final double[][][] shares;

    private final Map<Double, MeanSquareIntervals> intervals = new ConcurrentHashMap<>();
    private final boolean orthogonal;
    private final double[] df;
    private final double[][] expectation;

    private ScatterDesign(ScatterStructure structure, int rows) {
        this.structure = structure;
        final int n = structure.terms().size() + 1;
        groups = new ScatterGroups(structure.terms(), rows);
        basis = new ScatterBasis(structure.terms(), groups);
        shares = new double[n][][];
        for (int j = 0; j < n - 1; j++) {
            shares[j] = basis.share(j);
        }
        shares[n - 1] = identity(basis.vectors.length);
        addPure(n);
        df = new double[n];
        expectation = new double[n][n];
        expect();
        orthogonal = findBlocks();
    }

    /**
     * The design of a structure. Terms that add no degree of freedom to those before them are left
     * out and listed as confounded in {@link #structure()}.
     *
     * @param structure terms and residual
     * @param rows how many rows, for a structure without terms
     * @return the design, or {@code TOO_FEW_INJECTIONS} if nothing is left for the residual
     */
    public static Outcome<ScatterDesign> of(ScatterStructure structure, int rows) {
        ScatterDesign design = new ScatterDesign(structure, rows);
        for (int j = 0; j < design.components() - 1; ) {
            if (design.df[j] == 0) {
                design =
                        new ScatterDesign(
                                design.structure.without(design.structure.terms().get(j)), rows);
                j = 0;
            } else {
                j++;
            }
        }
        if (design.df[design.components() - 1] == 0) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_INJECTIONS,
                    "no row is left to show the scatter of "
                            + design.structure.residual()
                            + "; "
                            + rows
                            + " rows");
        }
        return Outcome.of(design);
    }

    private void addPure(int n) {
        final double[] residual = new double[n];
        residual[n - 1] = 1;
        pure.add(new Stratum(n - 1, groups.rows - groups.cellSize.length, residual));
        groups.bySize.forEach(
                (size, cells) -> {
                    final double[] own = residual.clone();
                    final int term = groups.finest < 0 ? n - 1 : groups.finest;
                    own[term] += groups.finest < 0 ? 0 : size;
                    pure.add(new Stratum(term, cells, own));
                });
    }

    private void expect() {
        for (Stratum s : pure) {
            df[s.term()] += s.df();
            Matrices.addTo(expectation[s.term()], s.df(), s.shares());
        }
        for (int a = 1; a < basis.owner.length; a++) {
            df[basis.owner[a]]++;
            for (int j = 0; j < df.length; j++) {
                expectation[basis.owner[a]][j] += shares[j][a][a];
            }
        }
        for (int k = 0; k < df.length; k++) {
            for (int j = 0; j < df.length; j++) {
                expectation[k][j] = j < k ? 0 : expectation[k][j] / Math.max(1, df[k]);
            }
        }
    }

    /** Whether every share is the same number within a block of the basis and 0 between blocks. */
    private boolean findBlocks() {
        for (double[][] share : shares) {
            final double most = Math.max(1, share[0][0]);
            for (int a = 0; a < share.length; a++) {
                for (int b = 0; b < a; b++) {
                    final boolean together = basis.owner[a] == basis.owner[b];
                    final double apart = together ? Math.abs(share[a][a] - share[b][b]) : 0;
                    if (Math.max(Math.abs(share[a][b]), apart) > EQUAL * most) {
                        return false;
                    }
                }
            }
        }
        for (int k = 0; k < df.length; k++) {
            double count = 0;
            final double[] own = new double[df.length];
            for (int a = 1; a < basis.owner.length; a++) {
                if (basis.owner[a] == k) {
                    count++;
                    for (int j = 0; j < own.length; j++) {
                        own[j] = shares[j][a][a];
                    }
                }
            }
            blocks.add(new Stratum(k, count, own));
        }
        return true;
    }

    private static double[][] identity(int n) {
        final double[][] one = new double[n][n];
        for (int i = 0; i < n; i++) {
            one[i][i] = 1;
        }
        return one;
    }

    /** Takes the responses of one compound apart. */
    ScatterSums sums(double[] y) {
        Checks.sameLength("responses", groups.rows, y.length);
        Checks.allFinite("y", y);
        final double base = y[0];
        final double[] centred = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            centred[i] = y[i] - base;
        }
        final double mean = Moments.ofAll(centred).mean();
        for (int i = 0; i < y.length; i++) {
            centred[i] -= mean;
        }
        final double[] within = new double[pure.size()];
        final double[] means = groups.reduce(centred, within);
        final double[] turned = basis.turned(means);
        turned[0] = 0;
        final double[] squares = new double[df.length];
        final double[] inBlocks = new double[df.length];
        for (int s = 0; s < within.length; s++) {
            squares[pure.get(s).term()] += within[s];
        }
        for (int a = 1; a < turned.length; a++) {
            inBlocks[basis.owner[a]] += turned[a] * turned[a];
        }
        Matrices.addTo(squares, 1, inBlocks);
        return new ScatterSums(base + mean, squares, within, inBlocks, means);
    }

    /** The structure, without terms that could not be told from others. */
    public ScatterStructure structure() {
        return structure;
    }

    /** How many components: the terms and the residual. */
    public int components() {
        return df.length;
    }

    /** How many rows. */
    public int rows() {
        return groups.rows;
    }

    /** Degrees of freedom of a term's mean square; the residual comes after the last term. */
    public double degreesOfFreedom(int term) {
        return df[term];
    }

    /** Factor of the variance of component {@code of} in the expected mean square of a term. */
    public double expectedShare(int term, int of) {
        return expectation[term][of];
    }

    /** Whether the mean squares are independent multiples of chi-square (balanced data are). */
    public boolean isOrthogonal() {
        return orthogonal;
    }

    /** Share of each component in rows times the variance of the mean of all rows. */
    double[] meanShares() {
        final double[] own = new double[df.length];
        for (int j = 0; j < own.length; j++) {
            own[j] = shares[j][0][0];
        }
        return own;
    }

    /** Intervals for the mean squares of this design, made once a coverage. */
    MeanSquareIntervals intervals(double coverage) {
        return intervals.computeIfAbsent(coverage, c -> new MeanSquareIntervals(c, df));
    }

    double[][] expectation() {
        return expectation;
    }

    List<Stratum> pure() {
        return pure;
    }

    List<Stratum> blocks() {
        return blocks;
    }

    double[][][] shares() {
        return shares;
    }

    ScatterBasis basis() {
        return basis;
    }

    ScatterGroups groups() {
        return groups;
    }
}
