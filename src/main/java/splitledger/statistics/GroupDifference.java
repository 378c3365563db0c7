package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The difference between the two labels of a factor that has no more than two: a variance between
 * two labels is hardly known, their difference is.
 *
 * <p>The rows are adjusted for all factors that are not nested in this one, and the difference is
 * judged by the mean squares that are expected to scatter like it (in balanced data one: days
 * within analysts, or day:analyst, or preparations), with their degrees of freedom (Satterthwaite
 * where several are combined).
 *
 * @param difference mean under the first label less mean under the second
 * @param standardUncertainty of the difference
 * @param degreesOfFreedom of its uncertainty
 * @param p two-sided, of no difference
 * @param error names of the mean squares that judge it
 */
public record GroupDifference(
        double difference,
        double standardUncertainty,
        double degreesOfFreedom,
        double p,
        List<String> error) {

    /**
     * Estimates the difference.
     *
     * @param structure of the study
     * @param factor name of a term with two labels
     * @param y responses
     * @return the difference, {@code TOO_FEW_LEVELS} if the factor has more or fewer than two
     *     labels or cannot be told from others, {@code NO_SCATTER} if nothing scatters
     * @throws IllegalArgumentException if there is no such term
     */
    public static Outcome<GroupDifference> of(
            ScatterStructure structure, String factor, double[] y) {
        final ScatterFactor own =
                structure.terms().stream()
                        .filter(t -> t.name().equals(factor))
                        .findFirst()
                        .orElseThrow(() -> new IllegalArgumentException("no term " + factor));
        if (own.levels() != 2) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_LEVELS,
                    factor + " has " + own.levels() + " labels; a difference needs two");
        }
        return ScatterDesign.of(behindOthers(structure, own), y.length)
                .fold(
                        design -> {
                            final int place = design.structure().names().indexOf(factor);
                            return place < 0
                                    ? Outcome.not(
                                            Outcome.Reason.TOO_FEW_LEVELS,
                                            factor + " cannot be told from other factors")
                                    : of(design, place, own, y);
                        },
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    /** The structure with the factor behind all terms that are not finer. */
    private static ScatterStructure behindOthers(ScatterStructure structure, ScatterFactor own) {
        final List<ScatterFactor> order = new ArrayList<>();
        for (ScatterFactor term : structure.terms()) {
            if (term != own && !term.isNestedIn(own)) {
                order.add(term);
            }
        }
        order.add(own);
        for (ScatterFactor term : structure.terms()) {
            if (term != own && term.isNestedIn(own)) {
                order.add(term);
            }
        }
        return new ScatterStructure(
                List.copyOf(order),
                structure.residual(),
                structure.relations(),
                structure.confounded(),
                structure.tree());
    }

    private static Outcome<GroupDifference> of(
            ScatterDesign design, int place, ScatterFactor own, double[] y) {
        final ScatterSums sums = design.sums(y);
        final int n = design.components();
        final ScatterBasis basis = design.basis();
        int vector = -1;
        for (int a = 1; a < basis.owner.length; a++) {
            vector = basis.owner[a] == place ? a : vector;
        }
        if (vector < 0) {
            return ofCells(design, own, y);
        }
        final double[] direction = basis.vectors[vector];
        double slope = 0;
        for (int g = 0; g < direction.length; g++) {
            slope +=
                    own.code(design.groups().example[g]) == 0
                            ? direction[g] * design.groups().root(g)
                            : 0;
        }
        // the direction's scatter as a combination of the other mean squares
        final double[][] others = new double[n][n];
        final double[] wanted = new double[n];
        for (int j = 0; j < n; j++) {
            wanted[j] = j == place ? 0 : design.shares()[j][vector][vector];
            for (int k = 0; k < n; k++) {
                others[j][k] =
                        j == place || k == place ? (j == k ? 1 : 0) : design.expectation()[k][j];
            }
        }
        return judged(
                design,
                sums,
                Matrices.eliminate(others, wanted),
                Matrices.dot(direction, sums.groups()) / slope,
                slope);
    }

    /** Two cells of equal size are all there is: their means against the rows within them. */
    private static Outcome<GroupDifference> ofCells(
            ScatterDesign design, ScatterFactor own, double[] y) {
        final double[][] cells = new double[2][];
        for (int code = 0; code < 2; code++) {
            final int wanted = code;
            cells[code] =
                    IntStream.range(0, y.length)
                            .filter(i -> own.code(i) == wanted)
                            .mapToDouble(i -> y[i])
                            .toArray();
        }
        final Moments first = Moments.ofAll(cells[0]);
        final Moments second = Moments.ofAll(cells[1]);
        final double df = (double) y.length - 2;
        final double variance = (first.squares() + second.squares()) / df;
        if (!(variance > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER,
                    "the scatter that judges the difference is not above 0");
        }
        final double u = Math.sqrt(variance * (1.0 / first.count() + 1.0 / second.count()));
        final double difference = first.mean() - second.mean();
        return Outcome.of(
                new GroupDifference(
                        difference,
                        u,
                        df,
                        Quantiles.tTwoSidedTail(difference / u, df),
                        List.of(design.structure().residual())));
    }

    private static Outcome<GroupDifference> judged(
            ScatterDesign design,
            ScatterSums sums,
            double[] factors,
            double difference,
            double slope) {
        final List<String> names = design.structure().names();
        final List<String> error = new ArrayList<>();
        double variance = 0;
        double spread = 0;
        for (int k = 0; k < factors.length; k++) {
            if (Math.abs(factors[k]) > 1e-9) {
                final double df = design.degreesOfFreedom(k);
                final double part = factors[k] * sums.squares()[k] / df;
                variance += part;
                spread += part * part / df;
                error.add(names.get(k));
            }
        }
        if (!(variance > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER,
                    "the scatter that judges the difference is not above 0");
        }
        final double u = Math.sqrt(variance) / Math.abs(slope);
        final double df = variance * variance / spread;
        return Outcome.of(
                new GroupDifference(
                        difference,
                        u,
                        df,
                        Quantiles.tTwoSidedTail(difference / u, df),
                        List.copyOf(error)));
    }

    /** Half width of the interval of the difference. */
    public double halfWidth(double coverage) {
        return Quantiles.coverageFactor(coverage, degreesOfFreedom) * standardUncertainty;
    }
}
