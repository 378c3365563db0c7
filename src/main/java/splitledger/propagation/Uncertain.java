package splitledger.propagation;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/**
 * A value with its unit and its sensitivities to independent standardised {@link Root roots}:
 * {@code X = value + sum of part_i * root_i}. Hence u^2 = sum of squares, and the covariance of two
 * estimates is the sum over the roots they share (JCGM 100:2008, 5.1 and 5.2). Immutable.
 */
public final class Uncertain {
    private final double value;
    private final String unit;
    private final Root[] roots;
    private final double[] parts;

    private Uncertain(double value, String unit, Root[] roots, double[] parts) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new IllegalArgumentException("value = " + value + ", must be finite");
        }
        this.value = value;
        this.unit = Objects.requireNonNull(unit, "unit");
        this.roots = roots;
        this.parts = parts;
    }

    /** A value without uncertainty. */
    public static Uncertain exact(double value, String unit) {
        return new Uncertain(value, unit, new Root[0], new double[0]);
    }

    /**
     * A value with one cause.
     *
     * @param standardUncertainty in {@code unit}, {@code >= 0}
     */
    public static Uncertain of(double value, String unit, Root root, double standardUncertainty) {
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(root, standardUncertainty);
        return of(value, unit, parts);
    }

    /**
     * A value with its signed parts; parts of exactly 0 are left out.
     *
     * @param parts sensitivity to each root, in {@code unit}, finite
     */
    public static Uncertain of(double value, String unit, SortedMap<Root, Double> parts) {
        final int n = (int) parts.values().stream().filter(p -> p != 0).count();
        final Root[] roots = new Root[n];
        final double[] sizes = new double[n];
        int i = 0;
        for (var e : parts.entrySet()) {
            final double part = e.getValue();
            if (Double.isNaN(part) || Double.isInfinite(part)) {
                throw new IllegalArgumentException(
                        "part of " + e.getKey().id() + " = " + part + ", must be finite");
            }
            if (part != 0) {
                roots[i] = e.getKey();
                sizes[i++] = part;
            }
        }
        return new Uncertain(value, unit, roots, sizes);
    }

    /**
     * A linear combination: a new value whose parts are the coefficient-weighted sum of the terms'
     * parts. The law of propagation to first order is this with derivatives as coefficients.
     */
    public static Uncertain combine(
            double value, String unit, double[] coefficients, List<Uncertain> terms) {
        final SortedMap<Root, Double> sum = new TreeMap<>();
        for (int t = 0; t < terms.size(); t++) {
            final Uncertain term = terms.get(t);
            for (int i = 0; i < term.roots.length; i++) {
                sum.merge(term.roots[i], coefficients[t] * term.parts[i], Double::sum);
            }
        }
        return of(value, unit, sum);
    }

    /** The value, in {@link #unit()}. */
    public double value() {
        return value;
    }

    /** The unit; {@code "1"} if dimensionless. */
    public String unit() {
        return unit;
    }

    /** The roots with a part that is not 0, in their order. */
    public List<Root> roots() {
        return List.of(roots);
    }

    /** The signed sensitivity to a root, in {@link #unit()}; 0 if it has no part in this value. */
    public double part(Root root) {
        final int i = Arrays.binarySearch(roots, root);
        return i < 0 ? 0 : parts[i];
    }

    /** u^2, in the square of the unit. */
    public double variance() {
        double sum = 0;
        for (double part : parts) {
            sum += part * part;
        }
        return sum;
    }

    /** Standard uncertainty u, in the unit. */
    public double standardUncertainty() {
        return Math.sqrt(variance());
    }

    /** Covariance with another estimate: the sum over the roots both have. */
    public double covariance(Uncertain other) {
        double sum = 0;
        int j = 0;
        for (int i = 0; i < roots.length && j < other.roots.length; i++) {
            while (j < other.roots.length && other.roots[j].compareTo(roots[i]) < 0) {
                j++;
            }
            if (j < other.roots.length && other.roots[j].compareTo(roots[i]) == 0) {
                sum += parts[i] * other.parts[j];
            }
        }
        return sum;
    }

    /** Correlation with another estimate; 0 if either has no uncertainty. */
    public double correlation(Uncertain other) {
        final double product = standardUncertainty() * other.standardUncertainty();
        return product > 0 ? Math.max(-1, Math.min(1, covariance(other) / product)) : 0;
    }

    /**
     * Effective degrees of freedom: the variance of each pool is summed first, covariances within
     * the pool included, then Welch-Satterthwaite over pools (JCGM 100:2008, G.4.1), u^4 / sum of
     * v_p^2 / nu_p. Infinite without any finite pool.
     */
    public double degreesOfFreedom() {
        final SortedMap<Pool, Double> byPool = new TreeMap<>();
        for (int i = 0; i < roots.length; i++) {
            byPool.merge(roots[i].pool(), parts[i] * parts[i], Double::sum);
        }
        final double total = variance();
        double sum = 0;
        for (var e : byPool.entrySet()) {
            final double share = total > 0 ? e.getValue() / total : 0;
            sum += share * share / e.getKey().degreesOfFreedom();
        }
        return sum > 0 ? 1 / sum : Double.POSITIVE_INFINITY;
    }

    /** The same value with only those parts whose roots are wanted. */
    public Uncertain only(Predicate<Root> wanted) {
        final SortedMap<Root, Double> kept = new TreeMap<>();
        for (int i = 0; i < roots.length; i++) {
            if (wanted.test(roots[i])) {
                kept.put(roots[i], parts[i]);
            }
        }
        return of(value, unit, kept);
    }

    /**
     * The same value with each part multiplied.
     *
     * @param weight of each root, {@code >= 0}; 0 takes it out
     */
    public Uncertain weighted(ToDoubleFunction<Root> weight) {
        final SortedMap<Root, Double> kept = new TreeMap<>();
        for (int i = 0; i < roots.length; i++) {
            kept.put(roots[i], weight.applyAsDouble(roots[i]) * parts[i]);
        }
        return of(value, unit, kept);
    }

    /** The same causes around another value. */
    public Uncertain at(double otherValue) {
        return new Uncertain(otherValue, unit, roots, parts);
    }

    /** Value and unit multiplied by a constant factor, as in a change of unit. */
    public Uncertain scaled(double factor, String newUnit) {
        final double[] sizes = new double[parts.length];
        for (int i = 0; i < parts.length; i++) {
            sizes[i] = factor * parts[i];
        }
        return new Uncertain(factor * value, newUnit, roots, sizes);
    }

    @Override
    public String toString() {
        return value
                + " "
                + unit
                + " (u = "
                + standardUncertainty()
                + ", "
                + roots.length
                + " roots)";
    }
}
