package splitledger.statistics;

import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.util.FastMath;

/**
 * Profile of a restricted likelihood over one variance component or a weighted sum of them, and
 * where it crosses a cut-off. What was found at one value of the sum is where the search at the
 * next one starts. Not for use by several threads at once.
 */
final class ProfileSearch {
    private static final double TOLERANCE = 1e-14;
    private static final double ROOT = 1e-9;
    private static final double SETTLED = 1e-10;
    private static final int ROUNDS = 100;
    private static final int DOUBLINGS = 60;
    private static final int SUMMIT = -2;

    private final ScatterLikelihood likelihood;
    private final double[] best;
    private final double least;
    private final double[] weights;
    private final int term;

    /** On the profile by value of the sum. */
    private final NavigableMap<Double, Known> known = new TreeMap<>();

    /**
     * Components with the hill that they are on: the component that was moved alone to begin with,
     * -1 if all were.
     */
    private record Known(int hill, double[] components) {
        boolean isElsewhere(Known other) {
            return hill != SUMMIT && hill != other.hill;
        }
    }

    /** What a likelihood ratio is compared with at components on the profile. */
    interface CutOff {
        double at(double[] components);
    }

    /**
     * A profile.
     *
     * @param best components of the largest likelihood
     * @param least value there
     * @param weights of the sum; 1 for the component alone
     * @param term the component; -1 for a sum
     */
    ProfileSearch(
            ScatterLikelihood likelihood, double[] best, double least, double[] weights, int term) {
        this.likelihood = likelihood;
        this.best = best;
        this.least = least;
        this.weights = weights;
        this.term = term;
    }

    /** Minus twice the log likelihood ratio where the sum has this value. */
    double deviance(double tau) {
        return above(from(far(tau).components()));
    }

    private double above(double[] at) {
        return Math.max(0, likelihood.value(at) - least);
    }

    /** Components of the largest likelihood whose sum is that of the start. */
    private double[] from(double[] start) {
        final boolean[] fixed = new boolean[best.length];
        if (term >= 0) {
            fixed[term] = true;
        }
        return new NonNegativeMinimum(likelihood, TOLERANCE)
                .from(start, fixed, term >= 0 ? new double[0] : weights)
                .orElse(start);
    }

    /**
     * The best of some far starts on the profile: for a component all others as they were; for a
     * sum all components stretched, or one of them alone making up the difference. The likelihood
     * can have a hill for each (one day far off, or one analyst) with a saddle between, so the
     * highest start is taken.
     */
    private Known far(double tau) {
        final double[] start = best.clone();
        if (term >= 0) {
            start[term] = tau;
            return new Known(-1, start);
        }
        final double value = Matrices.dot(weights, best);
        for (int j = 0; j < start.length; j++) {
            start[j] *= weights[j] > 0 ? tau / value : 1;
        }
        Known found = new Known(-1, start);
        double lowest = likelihood.value(start);
        for (int j = 0; j < start.length; j++) {
            final double[] alone = best.clone();
            alone[j] += weights[j] > 0 ? (tau - value) / weights[j] : 0;
            if (weights[j] > 0 && alone[j] > 0) {
                final double own = likelihood.value(alone);
                if (own < lowest) {
                    lowest = own;
                    found = new Known(j, alone);
                }
            }
        }
        return found;
    }

    /** The straight line between what is known on both sides, if all lies on one hill. */
    private double[] start(double tau, Known far) {
        final Map.Entry<Double, Known> below = known.floorEntry(tau);
        final Map.Entry<Double, Known> beyond = known.ceilingEntry(tau);
        if (below == null
                || beyond == null
                || below.getValue().isElsewhere(far)
                || beyond.getValue().isElsewhere(far)) {
            return far.components();
        }
        final double width = beyond.getKey() - below.getKey();
        final double part = width > 0 ? (tau - below.getKey()) / width : 0;
        final double[] line = new double[best.length];
        for (int j = 0; j < line.length; j++) {
            final double low = below.getValue().components()[j];
            line[j] = low + part * (beyond.getValue().components()[j] - low);
        }
        if (term >= 0) {
            line[term] = tau;
        }
        return line;
    }

    private double[] at(double tau) {
        final Known far = far(tau);
        final double[] found = from(start(tau, far));
        known.put(tau, new Known(far.hill(), found));
        return found;
    }

    /** Where the profile crosses the cut-off, above or below the estimate. */
    double end(boolean up, CutOff cut, double guess) {
        final DoubleUnaryOperator excess =
                x -> {
                    final double[] at = at(FastMath.exp(x));
                    return Math.sqrt(above(at)) - Math.sqrt(cut.at(at));
                };
        known.clear();
        final double value = Matrices.dot(weights, best);
        double inner = FastMath.log(value > 0 ? value : guess / 1024);
        double before = 0;
        if (value > 0) {
            known.put(value, new Known(SUMMIT, best));
            before = -Math.sqrt(cut.at(best));
        } else {
            before = excess.applyAsDouble(inner);
        }
        double width = Math.abs(FastMath.log(guess) - inner);
        width = Double.isFinite(width) && width > 0.01 ? width : 1;
        for (int i = 0; i < DOUBLINGS; i++) {
            final double outer = up ? inner + width : inner - width;
            final double found = excess.applyAsDouble(outer);
            if (found > 0) {
                return FastMath.exp(root(excess, inner, before, outer, found));
            }
            inner = outer;
            before = found;
        }
        return up ? Double.POSITIVE_INFINITY : 0;
    }

    /**
     * A root between two places of different sign: a chord first, then inverse quadratic steps
     * where three values allow one, else halving (Chandrupatla, Adv. Eng. Softw. 28 (1997) 145,
     * from memory). Ends when the bracket, or what the chord still moves, is below {@link #ROOT}.
     */
    private static double root(
            DoubleUnaryOperator f, double inner, double fi, double outer, double fo) {
        double a = inner;
        double fa = fi;
        double b = outer;
        double fb = fo;
        double part = fa / (fa - fb);
        for (int i = 0; i < ROUNDS && fa != 0 && fa * fb < 0; i++) {
            final double next = a + part * (b - a);
            final double at = f.applyAsDouble(next);
            double c = a;
            double fc = fa;
            if (at > 0 != fa > 0) {
                c = b;
                fc = fb;
                b = a;
                fb = fa;
            }
            a = next;
            fa = at;
            final double least = ROOT / Math.abs(b - a) / 2;
            if (least > 0.5 || Math.abs(at * (next - c)) < SETTLED * Math.abs(at - fc)) {
                break;
            }
            final double xi = (a - b) / (c - b);
            final double phi = (fa - fb) / (fc - fb);
            part =
                    phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
                            ? fa / (fb - fa) * fc / (fb - fc)
                                    + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
                            : 0.5;
            part = Math.min(1 - least, Math.max(least, part));
        }
        return Math.abs(fa) < Math.abs(fb) ? a : b;
    }
}
