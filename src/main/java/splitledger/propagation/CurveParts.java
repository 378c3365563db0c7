package splitledger.propagation;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.ScatterFit;

/**
 * What errors of the calibrants' amounts do to a fit with two-component scatter, to first order:
 * {@link LineParts} for any mean that is linear in its coefficients.
 *
 * <p>With terms t(x), their derivatives t'(x), the covariance C of the coefficients, the weight w_i
 * = 1/variance of the point and its residual r_i, the normal equations differentiated by x_i give
 *
 * <pre>
 *   d beta / dx_i = C w_i [t'(x_i) r_i - t(x_i) f'(x_i)]
 * </pre>
 *
 * <p>The weights are held: they follow the fitted mean response of a point, which an error that all
 * amounts share leaves as it is. For such a relative error e of a line da = 0 and db = -b e
 * exactly.
 *
 * @param coefficients part of each root in each coefficient, in the order of the mean's formula
 */
public record CurveParts(List<SortedMap<Root, Double>> coefficients) {
    public CurveParts {
        coefficients =
                coefficients.stream()
                        .<SortedMap<Root, Double>>map(
                                m -> Collections.unmodifiableSortedMap(new TreeMap<>(m)))
                        .toList();
    }

    /** No errors of amounts. */
    public static CurveParts none(MeanLaw law) {
        return new CurveParts(Collections.nCopies(law.parameters(), new TreeMap<>()));
    }

    /**
     * The parts of every root of the amounts.
     *
     * @param fit fitted on the values of {@code amounts} and on {@code responses}
     * @param shares variance of each point relative to the law
     * @param amounts of the points, with those roots that are to move the fit
     * @param responses of the points, same order
     * @throws IllegalArgumentException if the lengths differ
     */
    public static CurveParts of(
            ScatterFit fit, double[] shares, List<Uncertain> amounts, double[] responses) {
        if (amounts.size() != responses.length || shares.length != responses.length) {
            throw new IllegalArgumentException(
                    amounts.size() + " amounts and " + responses.length + " responses");
        }
        final MeanLaw law = fit.mean();
        final int p = law.parameters();
        final List<SortedMap<Root, Double>> parts = new ArrayList<>();
        for (int k = 0; k < p; k++) {
            parts.add(new TreeMap<>());
        }
        for (int i = 0; i < responses.length; i++) {
            final Uncertain x = amounts.get(i);
            final double at = fit.at(x.value());
            final double w = 1 / (shares[i] * fit.law().variance(at));
            final double residual = responses[i] - at;
            final double slope = fit.slopeAt(x.value());
            for (int k = 0; k < p; k++) {
                double moved = 0;
                for (int l = 0; l < p; l++) {
                    final double term =
                            derivative(law, l, x.value()) * residual
                                    - law.term(l, x.value()) * slope;
                    moved += fit.covariance(k, l) * w * term;
                }
                for (Root root : x.roots()) {
                    parts.get(k).merge(root, moved * x.part(root), Double::sum);
                }
            }
        }
        return new CurveParts(parts);
    }

    private static double derivative(MeanLaw law, int k, double x) {
        final int power = law == MeanLaw.THROUGH_ORIGIN ? 1 : k;
        return power == 0 ? 0 : power == 1 ? 1 : 2 * x;
    }

    /** Whether no root moves the fit. */
    public boolean isEmpty() {
        return coefficients.stream().allMatch(Map::isEmpty);
    }
}
