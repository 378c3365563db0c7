package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LevelVariance;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;

/**
 * The breakdown of one parent on one basis: x = sum of products over (parent and products), of
 * areas as they are or each product's divided by its response relative to the parent's; less what
 * the solution brought along, (x - x0) / (1 - x0).
 *
 * <p>Error model. All peaks of an injection share its stroke, its split and the detector's gain:
 * they cancel in the fraction, so that it is worked out within each injection and then averaged.
 * What is left is each peak's own scatter: with a relative scatter s of every peak dx = x (1 - x)
 * s, with a scatter of fixed size (integration of a small product) dx does not depend on x. Hence
 * the variance of one injection is s0^2 + (s1 x (1 - x))^2, both parts from the scatter within all
 * conditions together; with 2 injections each, every condition adds one degree of freedom. How the
 * solution was made does not matter, only what it brought along. Errors of the responses are those
 * of whole compounds: they move all conditions together and are roots of their own. Without any
 * repeated injection, or if all agree exactly, nothing is said about the scatter, and nothing is
 * taken for 0.
 */
final class LossBasis {
    private static final double SMALLEST_LEVEL = 1e-6;

    private final LossOptions options;
    private final LossRows rows;
    private final String parent;
    private final boolean corrected;
    private final List<String> products;
    private final Outcome<LevelVariance> law;
    private final Optional<Uncertain> own;

    /** Breakdown of the rows; {@code own} is what the solution brought along, as a share. */
    LossBasis(LossOptions options, LossRows rows, boolean corrected, Optional<Uncertain> own) {
        this(options, rows, rows.parent(), corrected, own);
    }

    private LossBasis(
            LossOptions options,
            LossRows rows,
            String parent,
            boolean corrected,
            Optional<Uncertain> own) {
        this.options = options;
        this.rows = rows;
        this.parent = parent;
        this.corrected = corrected;
        this.own = own;
        products = options.parents().getOrDefault(parent, List.of());
        final List<LossRows.Group> whole = rows.groups().stream().filter(g -> !g.hidden()).toList();
        final double[] levels = new double[whole.size()];
        final double[] variances = new double[whole.size()];
        final double[] df = new double[whole.size()];
        for (int i = 0; i < levels.length; i++) {
            final double[] values = values(whole.get(i));
            final Moments moments = Moments.ofAll(values);
            levels[i] = level(moments.mean());
            df[i] = values.length - 1.0;
            variances[i] = values.length > 1 ? moments.squares() / df[i] : 0;
        }
        law =
                levels.length == 0
                        ? Outcome.not(
                                Outcome.Reason.TOO_FEW_INJECTIONS,
                                "no injection holds all products")
                        : LevelVariance.of(levels, variances, df);
    }

    /** That of cold rows, which stand under a name of their own. */
    static LossBasis cold(LossOptions options, LossRows rows, String parent, boolean corrected) {
        return new LossBasis(options, rows, parent, corrected, Optional.empty());
    }

    private static double level(double x) {
        return Math.max(SMALLEST_LEVEL, Math.abs(x * (1 - x)));
    }

    /** Name in files. */
    String method() {
        final List<String> done = new ArrayList<>();
        if (corrected) {
            done.add("response-corrected");
        }
        if (own.isPresent()) {
            done.add("own-removed");
        }
        return done.isEmpty() ? "raw" : String.join("-", done);
    }

    /** Whether products are divided by their responses. */
    boolean isCorrected() {
        return corrected;
    }

    /** Scatter of injections, or why there is none. */
    Outcome<LevelVariance> law() {
        return law;
    }

    /** Share of each injection, before what the solution brought along is taken off. */
    double[] values(LossRows.Group group) {
        return group.shots().stream().mapToDouble(s -> share(s.parentArea(), s.areas())).toArray();
    }

    /** The same with what hidden products can have at most; NaN where that is not known. */
    double[] atMost(LossRows.Group group) {
        return group.shots().stream().mapToDouble(s -> share(s.parentArea(), s.atMost())).toArray();
    }

    private double share(double parentArea, List<Double> areas) {
        double sum = 0;
        for (int i = 0; i < areas.size(); i++) {
            sum += areas.get(i) / response(i);
        }
        return sum / (parentArea + sum);
    }

    private double response(int product) {
        return corrected ? options.response(parent, products.get(product)) : 1;
    }

    /** Name of the root of the scatter of a condition's mean. */
    String scatterId(LossRows.Group group) {
        return "losses/"
                + rows.parent()
                + "/"
                + (corrected ? "corrected" : "raw")
                + "/"
                + group.temperature()
                + "/"
                + group.ratio();
    }

    /** Root of the scatter of a condition's mean. */
    Root scatter(LossRows.Group group, double df) {
        final String id = scatterId(group);
        return Root.normal(
                id,
                new Pool(id, df, "scatter of the breakdown between injections"),
                Effect.STROKE,
                ActsOn.BOTH,
                "losses");
    }

    /** Variance of the mean of a condition by scatter; 0 if nothing is known of it. */
    double variance(LossRows.Group group) {
        final double mean = Moments.ofAll(values(group)).mean();
        return law.fold(l -> l.variance(level(mean)) / group.shots().size(), not -> 0.0);
    }

    /**
     * Variance of one injection, the same under all conditions: for weights, which had better not
     * follow the noise of a few repeated injections. Not a number if nothing is repeated.
     */
    double pooledVariance() {
        double squares = 0;
        double df = 0;
        for (LossRows.Group g : rows.groups()) {
            if (!g.hidden()) {
                final Moments moments = Moments.ofAll(values(g));
                squares += moments.squares();
                df += g.shots().size() - 1.0;
            }
        }
        return squares / df;
    }

    /** Degrees of freedom of that variance. */
    double degreesOfFreedom(LossRows.Group group) {
        final double mean = Moments.ofAll(values(group)).mean();
        return law.fold(l -> l.degreesOfFreedom(level(mean)), not -> Double.POSITIVE_INFINITY);
    }

    /** Mean of a condition as a share, with all its roots. */
    Uncertain of(LossRows.Group group) {
        final Uncertain x = before(group);
        return own.map(x0 -> without(x, x0)).orElse(x);
    }

    /** (x - x0) / (1 - x0), with derivatives 1 / (1 - x0) and -(1 - x) / (1 - x0)^2. */
    private static Uncertain without(Uncertain x, Uncertain x0) {
        final double left = 1 - x0.value();
        return Uncertain.combine(
                (x.value() - x0.value()) / left,
                "1",
                new double[] {1 / left, -(1 - x.value()) / (left * left)},
                List.of(x, x0));
    }

    /** A share less what the solution brought along. */
    double without(double x) {
        return own.map(x0 -> (x - x0.value()) / (1 - x0.value())).orElse(x);
    }

    private Uncertain before(LossRows.Group group) {
        final double mean = Moments.ofAll(values(group)).mean();
        final SortedMap<Root, Double> parts = new TreeMap<>();
        law.fold(
                l ->
                        parts.put(
                                scatter(group, l.degreesOfFreedom(level(mean))),
                                Math.sqrt(l.variance(level(mean)) / group.shots().size())),
                not -> null);
        if (corrected) {
            responses(group, mean, parts);
        }
        return Uncertain.of(mean, "1", parts);
    }

    /**
     * dx = (1 - x) sum of s_i (e_i - e_parent), s_i being a product's corrected share and e the
     * relative deviations of compounds' responses from those stated.
     */
    private void responses(LossRows.Group group, double mean, SortedMap<Root, Double> parts) {
        final double u = options.responseUncertainty().orElse(0);
        if (!(u > 0)) {
            return;
        }
        for (Map.Entry<String, Double> e : shares(group).entrySet()) {
            parts.put(responseOf(e.getKey()), (1 - mean) * e.getValue() * u);
        }
        parts.put(responseOf(parent), -(1 - mean) * mean * u);
    }

    /** Root of the error of a compound's response. */
    static Root responseOf(String compound) {
        final String id = "losses/response/" + compound;
        return Root.normal(
                id,
                Pool.known(id, "relative response, as stated"),
                Effect.REFERENCE_VALUE,
                ActsOn.BOTH,
                "losses");
    }

    private Map<String, Double> shares(LossRows.Group group) {
        final Map<String, Double> shares = new LinkedHashMap<>();
        for (int i = 0; i < products.size(); i++) {
            final int product = i;
            shares.put(
                    products.get(i),
                    Arrays.stream(
                                    group.shots().stream()
                                            .mapToDouble(
                                                    s ->
                                                            s.areas().get(product)
                                                                    / response(product)
                                                                    * (1
                                                                            - share(
                                                                                    s.parentArea(),
                                                                                    s.areas()))
                                                                    / s.parentArea())
                                            .toArray())
                            .average()
                            .orElse(0));
        }
        return shares;
    }
}
