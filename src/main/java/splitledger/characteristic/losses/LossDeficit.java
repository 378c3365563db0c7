package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Compounds.Compound;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Study;
import splitledger.study.Trail;

/**
 * What is missing of a parent against the curve of the ladder, which is fitted without anything
 * that decomposes: z = ln(response of the parent / response of a stable compound of the same
 * injection) - ln(curve at the parent / curve at that compound), L = 1 - exp(z). Stroke and split
 * cancel within the injection. L contains the breakdown: 1 - L = (1 - breakdown)(1 - rest); the
 * rest is worked out with the covariance of both, which share the scatter of the parent's peak and
 * its response.
 */
final class LossDeficit {
    private final Study study;
    private final LossOptions options;
    private final LossRows rows;
    private final LossBasis basis;
    private final StableLadder ladder;
    private final Compound parent;
    private final Compound stable;
    private final StablePair pair;
    private final double variance;
    private final double degreesOfFreedom;
    private final double correlation;

    private LossDeficit(
            Study study,
            LossOptions options,
            LossRows rows,
            LossBasis basis,
            StableLadder ladder,
            Compound parent,
            Compound stable) {
        this.study = study;
        this.options = options;
        this.rows = rows;
        this.basis = basis;
        this.ladder = ladder;
        this.parent = parent;
        this.stable = stable;
        pair = new StablePair(study, parent, stable);
        double yy = 0;
        double xx = 0;
        double xy = 0;
        double df = 0;
        for (LossRows.Group g : rows.groups()) {
            final double[] y = pair.logs(g);
            final double[] x = basis.values(g);
            final Moments my = Moments.ofAll(y);
            final Moments mx = Moments.ofAll(x);
            final double u = Math.sqrt(basis.variance(g) * y.length);
            df += y.length - 1.0;
            yy += my.squares();
            for (int j = 0; j < y.length && u > 0 && !g.hidden(); j++) {
                final double dx = (x[j] - mx.mean()) / u;
                xx += dx * dx;
                xy += dx * (y[j] - my.mean());
            }
        }
        degreesOfFreedom = df;
        variance = df > 0 ? yy / df : 0;
        correlation = xx > 0 && yy > 0 ? Math.max(-1, Math.min(1, xy / Math.sqrt(xx * yy))) : 0;
    }

    /** The deficit of a parent, if its rows hold what is needed. */
    static Outcome<LossDeficit> of(
            Study study, LossOptions options, LossRows rows, LossBasis basis, StableLadder ladder) {
        final Optional<Compound> parent = known(study, rows.parent());
        if (parent.isEmpty()) {
            return Outcome.not(
                    Reason.NO_FINITE_VALUE,
                    "the compound table lacks boiling point, effective carbon number or molar mass of "
                            + rows.parent());
        }
        final double[] b = ladder.model().boilingPoints();
        final double at = parent.get().boilingPoint().orElseThrow();
        if (at < b[0] || at > b[b.length - 1]) {
            return Outcome.not(
                    Reason.OUTSIDE_LADDER,
                    rows.parent()
                            + " boils at "
                            + Trail.digits(at)
                            + " degC, the ladder reaches from "
                            + Trail.digits(b[0])
                            + " to "
                            + Trail.digits(b[b.length - 1])
                            + " degC");
        }
        final List<String> labile = LossOptions.labile(options.given());
        final List<String> candidates = new ArrayList<>();
        study.compounds()
                .internalStandard()
                .map(InternalStandard::compound)
                .ifPresent(candidates::add);
        candidates.add(ladder.reference());
        candidates.addAll(study.compounds().ladder());
        for (String name : candidates) {
            final Optional<Compound> stable =
                    known(study, name)
                            .filter(c -> c.boilingPoint().orElseThrow() >= b[0])
                            .filter(c -> c.boilingPoint().orElseThrow() <= b[b.length - 1]);
            if (stable.isPresent() && !labile.contains(name)) {
                final LossDeficit deficit =
                        new LossDeficit(
                                study, options, rows, basis, ladder, parent.get(), stable.get());
                if (rows.groups().stream().allMatch(deficit::isWhole)) {
                    return Outcome.of(deficit);
                }
            }
        }
        return Outcome.not(
                Reason.NO_ROWS,
                "needs the amount of "
                        + rows.parent()
                        + " and, in the same injections, a stable compound of known amount (internal"
                        + " standard or member of the ladder)");
    }

    private static Optional<Compound> known(Study study, String name) {
        return study.compounds()
                .known(name)
                .filter(c -> c.boilingPoint().isPresent())
                .filter(c -> c.carbonNumber().isPresent() && c.molarMass().isPresent());
    }

    private boolean isWhole(LossRows.Group g) {
        for (double log : pair.logs(g)) {
            if (!Double.isFinite(log)) {
                return false;
            }
        }
        return true;
    }

    /** z, with all its roots. */
    Uncertain log(LossRows.Group g) {
        final double mean = Moments.ofAll(pair.logs(g)).mean();
        final double at = parent.boilingPoint().orElseThrow();
        final double beside = stable.boilingPoint().orElseThrow();
        final Uncertain curve = ladder.model().curve(at, beside);
        final SortedMap<Root, Double> parts = new TreeMap<>();
        scatter(g, parts);
        responses(parts);
        amounts(parts);
        return Uncertain.combine(
                mean - curve.value(),
                "1",
                new double[] {1, -1},
                List.of(Uncertain.of(mean, "1", parts), curve));
    }

    /** Scatter of the mean, in part that of the breakdown of the same injections. */
    private void scatter(LossRows.Group g, SortedMap<Root, Double> parts) {
        if (!(degreesOfFreedom > 0)) {
            return;
        }
        final double u = Math.sqrt(variance / g.shots().size());
        final Optional<Root> together =
                g.hidden()
                        ? Optional.empty()
                        : basis.of(g).roots().stream()
                                .filter(r -> r.id().equals(basis.scatterId(g)))
                                .findFirst();
        together.ifPresent(root -> parts.put(root, correlation * u));
        final double own = together.isPresent() ? 1 - correlation * correlation : 1;
        final String id = "losses/" + rows.parent() + "/response";
        parts.put(
                Root.normal(
                        id + "/" + g.temperature() + "/" + g.ratio(),
                        new Pool(id, degreesOfFreedom, "scatter of the response within conditions"),
                        Effect.INTEGRATION,
                        ActsOn.BOTH,
                        Losses.ID),
                Math.sqrt(own) * u);
    }

    /**
     * Stated responses, else those of the ladder's members: how far a compound is off its curve.
     */
    private void responses(SortedMap<Root, Double> parts) {
        final OptionalDouble stated = options.responseUncertainty();
        if (stated.isPresent()) {
            parts.put(LossBasis.responseOf(parent.name()), stated.getAsDouble());
            parts.put(LossBasis.responseOf(stable.name()), -stated.getAsDouble());
            return;
        }
        final Pool pool =
                new Pool(
                        "losses/members",
                        ladder.model().chosen().degreesOfFreedom(),
                        "scatter of the ladder's members about the curve");
        for (Compound c : List.of(parent, stable)) {
            parts.put(
                    Root.normal(
                            "losses/member/" + c.name(),
                            pool,
                            Effect.DISCRIMINATION,
                            ActsOn.BOTH,
                            Losses.ID),
                    (c.equals(parent) ? 1 : -1) * ladder.model().memberSd());
        }
    }

    private void amounts(SortedMap<Root, Double> parts) {
        final double u = amountUncertainty();
        if (u > 0) {
            parts.put(
                    Root.normal(
                            "losses/amount/" + rows.parent(),
                            Pool.known("losses/amount/" + rows.parent(), "amounts, as stated"),
                            Effect.STANDARD_AMOUNT,
                            ActsOn.BOTH,
                            Losses.ID),
                    -u);
        }
    }

    /**
     * Relative uncertainty of the parent's amount against the stable compound's; 0 if not stated.
     */
    double amountUncertainty() {
        final OptionalDouble stated = options.relative("amount-uncertainty");
        if (stated.isPresent()) {
            return stated.getAsDouble();
        }
        final Optional<InternalStandard> internal =
                study.compounds()
                        .internalStandard()
                        .filter(i -> i.compound().equals(stable.name()))
                        .filter(i -> i.amount().isPresent());
        return internal.map(i -> i.standardUncertainty() / i.amount().getAsDouble()).orElse(0.0);
    }

    /** What 1 - rest is the logarithm of: z - ln(1 - x). */
    Uncertain rest(LossRows.Group g) {
        final Uncertain z = log(g);
        final Uncertain x = basis.of(g);
        return Uncertain.combine(
                z.value() - FastMath.log1p(-x.value()),
                "1",
                new double[] {1, 1 / (1 - x.value())},
                List.of(z, x));
    }

    /** The compound that the parent is compared with in the same injections. */
    Compound stable() {
        return stable;
    }

    /** The parent. */
    Compound parent() {
        return parent;
    }

    /** The ladder. */
    StableLadder ladder() {
        return ladder;
    }
}
