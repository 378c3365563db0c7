package splitledger.characteristic.discrimination;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LadderCubic;
import splitledger.statistics.LadderFit;
import splitledger.statistics.LadderFitter;
import splitledger.study.Compounds.Compound;

/**
 * A fitted ladder whose values carry their roots: one a member (mass, response factor, what noise
 * is left), one for the slope that differs between injections, one for the shape of the curve that
 * was not chosen. Ratios of one ladder correlate by construction.
 */
public final class DiscriminationModel {
    private static final double HUNDRED = 100;
    private static final double SUPPORTED = 6;
    private static final double RECTANGULAR = 3;
    private static final String SOURCE = "ladder";

    private final List<Compound> members;
    private final double[] boilingPoints;
    private final double[] means;
    private final List<LadderFit> fits;
    private final LadderFit chosen;
    private final List<Root> roots = new ArrayList<>();
    private final Root slope;
    private final Root shape;
    private final double memberSd;
    private final double slopeSd;
    private final Optional<LadderCubic> cubic;

    /**
     * Values of a ladder.
     *
     * @param id tells ladders apart
     * @param members with boiling point, in order of it
     * @param means log responses of the members, in the same order
     * @param slopeVariance variance of the mean slope between injections, per (100 degC) squared
     * @param slopeDf its degrees of freedom
     * @param fits curves through the means, at least one
     */
    public DiscriminationModel(
            String id,
            List<Compound> members,
            double[] means,
            double slopeVariance,
            double slopeDf,
            List<LadderFit> fits) {
        this.members = List.copyOf(members);
        this.boilingPoints =
                members.stream().mapToDouble(c -> c.boilingPoint().orElseThrow()).toArray();
        this.means = means.clone();
        this.fits = List.copyOf(fits);
        chosen = LadderFitter.chosen(fits);
        cubic =
                means.length < LadderCubic.MEMBERS
                        ? Optional.empty()
                        : Optional.of(new LadderCubic(boilingPoints, means));
        memberSd = Math.sqrt(chosen.variance());
        final Pool pool =
                new Pool(
                        id + "/members",
                        chosen.degreesOfFreedom(),
                        "scatter of the members about the curve");
        for (Compound member : members) {
            roots.add(root(id + "/member/" + member.name(), pool, Effect.DISCRIMINATION));
        }
        slopeSd = Math.sqrt(slopeVariance);
        slope =
                root(
                        id + "/slope",
                        new Pool(
                                id + "/slopes",
                                slopeDf,
                                "slopes over the boiling point, between injections"),
                        Effect.DISCRIMINATION);
        shape =
                root(
                        id + "/shape",
                        Pool.known(id + "/shapes", "curves that were not chosen"),
                        Effect.MODEL);
    }

    private static Root root(String id, Pool pool, Effect effect) {
        return Root.normal(id, pool, effect, ActsOn.BOTH, SOURCE);
    }

    /** The curve that was chosen. */
    public LadderFit chosen() {
        return chosen;
    }

    /** All curves that were fitted. */
    List<LadderFit> fits() {
        return fits;
    }

    /** Boiling points of the members, degC. */
    public double[] boilingPoints() {
        return boilingPoints.clone();
    }

    /** Log responses of the members. */
    public double[] means() {
        return means.clone();
    }

    /** Relative standard deviation of a member about the curve. */
    public double memberSd() {
        return memberSd;
    }

    /** Logarithm of a member's response over another's, as measured. */
    Uncertain measured(int member, int reference) {
        final double[] weights = new double[means.length];
        weights[member] += 1;
        weights[reference] -= 1;
        return made(
                means[member] - means[reference],
                weights,
                boilingPoints[member] - boilingPoints[reference],
                0);
    }

    /** Logarithm of the curve's value at a boiling point over that at another, both degC. */
    public Uncertain curve(double boilingPoint, double reference) {
        return made(
                chosen.value(boilingPoint) - chosen.value(reference),
                chosen.weights(boilingPoint, reference),
                boilingPoint - reference,
                spread(boilingPoint, reference));
    }

    /** Slope of the least-squares line over the boiling points of the members, per 100 degC. */
    Uncertain meanSlope() {
        double centre = 0;
        for (double b : boilingPoints) {
            centre += b / boilingPoints.length;
        }
        double sxx = 0;
        for (double b : boilingPoints) {
            sxx += (b - centre) * (b - centre) / (HUNDRED * HUNDRED);
        }
        final double[] weights = new double[means.length];
        double value = 0;
        for (int i = 0; i < weights.length; i++) {
            weights[i] = (boilingPoints[i] - centre) / HUNDRED / sxx;
            value += weights[i] * means[i];
        }
        return made(value, weights, HUNDRED, 0);
    }

    private Uncertain made(double value, double[] weights, double difference, double spread) {
        final SortedMap<Root, Double> parts = new TreeMap<>();
        for (int i = 0; i < weights.length; i++) {
            parts.put(roots.get(i), weights[i] * memberSd);
        }
        parts.put(slope, slopeSd * difference / HUNDRED);
        parts.put(shape, spread);
        return Uncertain.of(value, "1", parts);
    }

    /**
     * What not knowing the shape adds: the chosen curve lies somewhere between itself and the
     * farthest other curve that the data support (criterion within 6 of the smallest; rectangular),
     * and is known no better than the supported ones, or a cubic, are. The limit of 6 follows
     * Burnham and Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002 (from memory).
     */
    private double spread(double b, double reference) {
        final double own = chosen.value(b) - chosen.value(reference);
        double farthest = 0;
        double variance = variance(chosen, b, reference);
        final double least = variance;
        for (LadderFit fit : fits) {
            if (fit.criterion() - chosen.criterion() < SUPPORTED) {
                farthest = farther(farthest, fit.value(b) - fit.value(reference) - own);
                variance = Math.max(variance, variance(fit, b, reference));
            }
        }
        if (cubic.isPresent()) {
            final LadderCubic other = cubic.get();
            if (other.criterion() - chosen.criterion() < SUPPORTED) {
                farthest = farther(farthest, other.value(b) - other.value(reference) - own);
            }
            variance = Math.max(variance, other.variance(b, reference));
        }
        return Math.copySign(
                Math.sqrt(variance - least + farthest * farthest / RECTANGULAR), farthest);
    }

    private static double farther(double a, double b) {
        return Math.abs(b) > Math.abs(a) ? b : a;
    }

    private static double variance(LadderFit fit, double b, double reference) {
        double sum = 0;
        for (double weight : fit.weights(b, reference)) {
            sum += weight * weight;
        }
        return sum * fit.variance();
    }

    /** The members. */
    public List<Compound> members() {
        return members;
    }
}
