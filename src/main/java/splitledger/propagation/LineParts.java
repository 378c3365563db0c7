package splitledger.propagation;

import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.LineFit;

/**
 * What errors of the calibrants' amounts do to a fitted line, to first order.
 *
 * <p>The fit is a function of the amounts x_i, the responses y_i and the weights w_i = 1/v(x_i).
 * Its normal equations differentiated by x_i give, with d_i = x_i - mean(x), the residual r_i and
 * w'_i = dw_i/dx_i,
 *
 * <pre>
 *   db/dx_i = [w_i (r_i - b d_i) + w'_i d_i r_i] / Sxx
 *   da/dx_i = [w'_i r_i - w_i b] / sum(w) - mean(x) db/dx_i
 * </pre>
 *
 * <p>A cause that moves the amounts by p_i moves intercept and slope by the sums of these
 * derivatives times p_i, so that one cause of several amounts, or of several compounds' lines,
 * correlates them by construction. For a relative error e that all amounts share (p_i = e x_i) the
 * normal equations make every sum with a residual vanish: da = 0 and db = -b e exactly. The fitted
 * line of responses then keeps its scatter and its intercept, and b^2 e^2 comes on top of var(b).
 *
 * <p>Nominal amounts are what was aimed at, and the true ones scatter about them (Berkson, J. Am.
 * Stat. Assoc. 45 (1950) 164, from memory): least squares on the nominal amounts is unbiased for
 * such errors, so that no fit with errors in the amounts is made.
 *
 * @param intercept part of each root in the intercept, in the response's unit
 * @param slope part of each root in the slope, response per amount
 */
public record LineParts(SortedMap<Root, Double> intercept, SortedMap<Root, Double> slope) {
    /** No errors of amounts. */
    public static final LineParts NONE = new LineParts(new TreeMap<>(), new TreeMap<>());

    public LineParts {
        intercept = Collections.unmodifiableSortedMap(new TreeMap<>(intercept));
        slope = Collections.unmodifiableSortedMap(new TreeMap<>(slope));
    }

    /**
     * The parts of every root of the amounts.
     *
     * @param line fitted on the values of {@code amounts} and on {@code responses}
     * @param amounts of the points, with those roots that are to move the line
     * @param responses of the points, same order
     * @throws IllegalArgumentException if the lengths differ from the number of points
     */
    public static LineParts of(LineFit line, List<Uncertain> amounts, double[] responses) {
        if (amounts.size() != line.points() || responses.length != line.points()) {
            throw new IllegalArgumentException(
                    amounts.size()
                            + " amounts and "
                            + responses.length
                            + " responses, the line has "
                            + line.points());
        }
        final SortedMap<Root, Double> intercept = new TreeMap<>();
        final SortedMap<Root, Double> slope = new TreeMap<>();
        for (int i = 0; i < responses.length; i++) {
            final Uncertain x = amounts.get(i);
            final double byB = slopeByAmount(line, x.value(), responses[i]);
            final double byA = interceptByAmount(line, x.value(), responses[i], byB);
            for (Root root : x.roots()) {
                intercept.merge(root, byA * x.part(root), Double::sum);
                slope.merge(root, byB * x.part(root), Double::sum);
            }
        }
        return new LineParts(intercept, slope);
    }

    private static double slopeByAmount(LineFit line, double x, double y) {
        final double w = 1 / line.weighting().variance(x);
        final double d = x - line.xMean();
        final double r = y - line.at(x);
        return (w * (r - line.slope() * d) + weightByAmount(line, x, w) * d * r) / line.sxx();
    }

    private static double interceptByAmount(LineFit line, double x, double y, double slope) {
        final double w = 1 / line.weighting().variance(x);
        final double r = y - line.at(x);
        final double level = weightByAmount(line, x, w) * r - w * line.slope();
        return level / line.sumOfWeights() - line.xMean() * slope;
    }

    /** w = 1/x^p: dw/dx = -p w/x; x is above 0 wherever p is. */
    private static double weightByAmount(LineFit line, double x, double w) {
        final int power = line.weighting().power();
        return power == 0 ? 0 : -power * w / x;
    }
}
