package splitledger.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.MonteCarlo.Simulated;

/**
 * The law of propagation held against Monte Carlo (JCGM 101:2008, clause 8): validated if both ends
 * of value plus or minus U lie within half a unit of the last meaningful digit of u from those of
 * the symmetric interval, two digits where the first is 1 or 2, else one. What the trials' own
 * scatter explains, twice the standard error of the ends, is no difference; an adaptive run keeps
 * that below half a unit of the second digit.
 *
 * @param validated whether both ends agree
 * @param tolerance the largest difference that counts as agreement, in the unit of the result
 * @param lowerDifference lower end by Monte Carlo minus that of the law
 * @param upperDifference the same of the upper ends
 * @param reasons what makes them differ, in words; may be empty
 */
public record Comparison(
        boolean validated,
        double tolerance,
        double lowerDifference,
        double upperDifference,
        List<Reason> reasons) {
    private static final double NOTABLE = 0.05;
    private static final double DOMINANT = 0.3;
    private static final double ROUNDING = 1e-12;

    public Comparison {
        reasons = List.copyOf(reasons);
    }

    /** Why the methods differ. */
    public enum Kind {
        /** The equation is curved over the range of the inputs: the distribution is moved. */
        SHIFT,
        /** The same: it is wider or narrower than straight lines would make it. */
        CURVATURE,
        /** One tail is longer. */
        SKEWNESS,
        /** A contribution that is not normal has a large share. */
        SHAPE,
        /** Variance estimates with few degrees of freedom. */
        FEW_DEGREES_OF_FREEDOM
    }

    /**
     * One reason.
     *
     * @param size what it amounts to: for SHIFT in the unit of the result, for CURVATURE and
     *     FEW_DEGREES_OF_FREEDOM the ratio of standard uncertainties, for SKEWNESS the difference
     *     of the tails over their sum, for SHAPE the share of the variance
     * @param about what it is about, for SHAPE the name of the distribution; else empty
     */
    public record Reason(Kind kind, double size, String about) {}

    /**
     * Compares.
     *
     * @param law the result of the law of propagation
     * @param expanded its expanded uncertainty at the coverage of the trials
     * @param second the law with terms of second order, where there are
     * @param trials by Monte Carlo
     */
    public static Comparison of(
            Uncertain law, double expanded, Optional<SecondOrder> second, Simulated trials) {
        final double u = law.standardUncertainty();
        final double tolerance = Settling.tolerance(u, Settling.meaningfulDigits(u));
        final double lower = trials.lower() - (law.value() - expanded);
        final double upper = trials.upper() - (law.value() + expanded);
        final double most = tolerance + 2 * trials.endError();
        final boolean agree = Math.abs(lower) <= most && Math.abs(upper) <= most;
        final double rounding = ROUNDING * Math.abs(law.value());
        // causes that cancel leave trials apart by the rounding of their sums
        final boolean validated =
                u <= rounding ? trials.upper() - trials.lower() <= rounding : agree;
        return new Comparison(
                validated, tolerance, lower, upper, reasons(law, expanded, second, trials));
    }

    private static List<Reason> reasons(
            Uncertain law, double expanded, Optional<SecondOrder> second, Simulated trials) {
        final List<Reason> reasons = new ArrayList<>();
        final double u = law.standardUncertainty();
        second.filter(s -> Math.abs(s.shift()) > NOTABLE * expanded)
                .ifPresent(s -> reasons.add(new Reason(Kind.SHIFT, s.shift(), "")));
        second.map(SecondOrder::standardUncertainty)
                .filter(u2 -> u2 > ROUNDING * Math.abs(law.value()))
                .map(u2 -> u > 0 ? u2 / u : Double.POSITIVE_INFINITY)
                .filter(ratio -> Math.abs(ratio - 1) > NOTABLE)
                .ifPresent(ratio -> reasons.add(new Reason(Kind.CURVATURE, ratio, "")));
        final double width = trials.upper() - trials.lower();
        final double skew =
                width > 0 ? (trials.upper() + trials.lower() - 2 * trials.median()) / width : 0;
        if (Math.abs(skew) > NOTABLE) {
            reasons.add(new Reason(Kind.SKEWNESS, skew, ""));
        }
        shapes(law)
                .forEach(
                        (shape, share) -> {
                            if (share > DOMINANT) {
                                reasons.add(new Reason(Kind.SHAPE, share, shape));
                            }
                        });
        final double wider = widened(law);
        if (wider > 1 + NOTABLE) {
            reasons.add(new Reason(Kind.FEW_DEGREES_OF_FREEDOM, wider, ""));
        }
        return reasons;
    }

    /** Share of the variance by shapes that are not normal. */
    private static SortedMap<String, Double> shapes(Uncertain law) {
        final SortedMap<String, Double> shares = new TreeMap<>();
        for (Root r : law.roots()) {
            if (!(r.shape() instanceof Shape.Normal)) {
                final double part = law.part(r);
                shares.merge(r.shape().code(), part * part / law.variance(), Double::sum);
            }
        }
        return shares;
    }

    /**
     * How much larger the standard deviation of the trials is for the t distributions alone: a
     * pool's variance v with nu degrees of freedom has v nu/(nu - 2) in the trials; infinite at 2
     * or fewer.
     */
    private static double widened(Uncertain law) {
        double sum = 0;
        for (Root r : law.roots()) {
            final double nu = r.pool().degreesOfFreedom();
            final boolean t = r.shape() instanceof Shape.Normal && !Double.isInfinite(nu);
            final double factor = t ? (nu > 2 ? nu / (nu - 2) : Double.POSITIVE_INFINITY) : 1;
            sum += law.part(r) * law.part(r) * factor;
        }
        return law.variance() > 0 ? Math.sqrt(sum / law.variance()) : 1;
    }
}
