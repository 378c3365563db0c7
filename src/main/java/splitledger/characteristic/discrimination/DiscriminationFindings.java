package splitledger.characteristic.discrimination;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LadderCurve;
import splitledger.statistics.LadderFit;
import splitledger.statistics.LadderFitter;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Compounds.Compound;
import splitledger.study.Criterion;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;

/** Turns a fitted ladder into findings. */
final class DiscriminationFindings {
    private static final String METHOD = "ladder";
    private static final String RATIO = "heavy-to-light-ratio";
    private static final double PERCENT = 100;

    private final Study study;
    private final String occasion;
    private final String reference;
    private final boolean extrapolate;
    private final Rows rows;
    private final List<Finding> findings = new ArrayList<>();

    DiscriminationFindings(
            Study study, String occasion, String reference, boolean extrapolate, Rows rows) {
        this.study = study;
        this.occasion = occasion;
        this.reference = reference;
        this.extrapolate = extrapolate;
        this.rows = rows;
    }

    /** All of a ladder that gave a model. */
    List<Finding> of(DiscriminationModel model) {
        final int light = indexOf(model, reference);
        for (int i = 0; i < model.members().size(); i++) {
            if (i != light) {
                add(
                        key("relative-response", model.members().get(i).name(), reference),
                        ratio(model.measured(i, light)),
                        "");
            }
        }
        for (List<String> pair : pairs(model)) {
            final int of = indexOf(model, pair.get(0));
            final int to = indexOf(model, pair.get(1));
            final Answer answer =
                    of < 0 || to < 0
                            ? Answers.not(
                                    "1",
                                    Reason.NO_ROWS,
                                    (of < 0 ? pair.get(0) : pair.get(1))
                                            + " gave no response in the ladder")
                            : ratio(model.measured(of, to));
            add(key(RATIO, pair.get(0), pair.get(1)), answer, "");
        }
        final Uncertain slope = model.meanSlope();
        final double factor = PERCENT * FastMath.exp(slope.value());
        add(
                key("discrimination-per-100C", "", ""),
                Answers.student(slope.scaled(factor, "%").at(factor - PERCENT), coverage()),
                "mean over the ladder: slope of the straight line through all members, whatever curve"
                        + " was chosen");
        add(key("onset-boiling-point", "", ""), onset(model), "");
        targets(model, model.boilingPoints()[light]);
        return findings;
    }

    /** The same findings without a number. */
    List<Finding> none(Reason reason, String detail) {
        final Answer none = Answers.not("1", reason, detail);
        final Set<List<String>> asked = new LinkedHashSet<>(asked());
        asked.forEach(p -> add(key(RATIO, p.get(0), p.get(1)), none, ""));
        add(key("discrimination-per-100C", "", ""), Answers.not("%", reason, detail), "");
        study.compounds()
                .targets()
                .forEach(t -> add(key("discrimination-factor", t, reference), none, ""));
        return findings;
    }

    private void targets(DiscriminationModel model, double referencePoint) {
        final double[] b = model.boilingPoints();
        final double low = b[0];
        final double high = b[b.length - 1];
        for (String target : study.compounds().targets()) {
            final Optional<Compound> known =
                    study.compounds().known(target).filter(c -> c.boilingPoint().isPresent());
            final Key key = key("discrimination-factor", target, reference);
            if (known.isEmpty()) {
                add(
                        key,
                        Answers.not(
                                "1",
                                Reason.NO_FINITE_VALUE,
                                "the compound table has no boiling point of " + target),
                        "");
                continue;
            }
            final double at = known.get().boilingPoint().orElseThrow();
            final boolean outside = at < low || at > high;
            if (outside && !extrapolate) {
                add(
                        key,
                        Answers.not(
                                "1",
                                Reason.OUTSIDE_LADDER,
                                target
                                        + " boils at "
                                        + Trail.digits(at)
                                        + " degC, the ladder reaches from "
                                        + Trail.digits(low)
                                        + " to "
                                        + Trail.digits(high)
                                        + " degC; add a member, or ask for it with extrapolate: yes"),
                        "");
            } else {
                add(
                        key,
                        ratio(model.curve(at, referencePoint)),
                        (outside
                                        ? "EXTRAPOLATED beyond the ladder: nothing was measured there; "
                                        : "")
                                + "curve: "
                                + model.chosen().curve().words());
            }
        }
    }

    private Answer onset(DiscriminationModel model) {
        final Optional<LadderFit> hinge =
                model.fits().stream().filter(f -> f.curve() == LadderCurve.HINGE).findFirst();
        if (hinge.isEmpty()) {
            return Answers.not(
                    "degC",
                    Reason.TOO_FEW_POINTS,
                    "an onset needs "
                            + LadderCurve.HINGE.members()
                            + " members of the ladder, found "
                            + model.members().size());
        }
        final LadderCurve chosen = model.chosen().curve();
        if (chosen == LadderCurve.CONSTANT || chosen == LadderCurve.LINE) {
            return Answers.not(
                    "degC",
                    Reason.NOT_DETECTED,
                    "the ladder shows no onset: " + chosen.words() + " describes it as well");
        }
        final double[] ends =
                LadderFitter.onsets(model.boilingPoints(), model.means(), hinge.get(), coverage());
        final double at = hinge.get().shape()[0];
        final double[] range = LadderFitter.range(model.boilingPoints());
        if (ends[0] <= range[0] || ends[1] >= range[1]) {
            return new Answer.Bound(
                    java.util.OptionalDouble.of(at),
                    "degC",
                    ends[0] <= range[0]
                            ? java.util.OptionalDouble.empty()
                            : java.util.OptionalDouble.of(ends[0]),
                    ends[1] >= range[1]
                            ? java.util.OptionalDouble.empty()
                            : java.util.OptionalDouble.of(ends[1]),
                    coverage(),
                    "open-end",
                    "the interval has no end within the ladder on one side");
        }
        final double df = hinge.get().degreesOfFreedom();
        return new Answer.Estimate(
                at,
                "degC",
                (ends[1] - ends[0]) / 2 / Quantiles.coverageFactor(coverage(), df),
                df,
                ends[0],
                ends[1],
                coverage(),
                Answer.Law.ENDS,
                Optional.empty());
    }

    /** Whether the heaviest member is shown to be low against the reference, by the curve. */
    boolean heavyIsLow(DiscriminationModel model) {
        final int at = indexOf(model, reference);
        final double[] points = model.boilingPoints();
        final Uncertain log = model.curve(points[points.length - 1], points[at]);
        return log.value() < 0
                && log.value()
                                + Quantiles.coverageFactor(coverage(), log.degreesOfFreedom())
                                        * log.standardUncertainty()
                        < 0;
    }

    /** exp of a log ratio, its interval by the logarithm. */
    private Answer ratio(Uncertain log) {
        final double value = FastMath.exp(log.value());
        final double half =
                Quantiles.coverageFactor(coverage(), log.degreesOfFreedom())
                        * log.standardUncertainty();
        return Answers.ends(
                log.scaled(value, "1").at(value),
                FastMath.exp(log.value() - half),
                FastMath.exp(log.value() + half),
                coverage());
    }

    /** Heaviest member against the reference, and every pair that a requirement names. */
    private Set<List<String>> pairs(DiscriminationModel model) {
        final Set<List<String>> pairs = new LinkedHashSet<>();
        final String heaviest = model.members().get(model.members().size() - 1).name();
        if (!heaviest.equals(reference)) {
            pairs.add(List.of(heaviest, reference));
        }
        pairs.addAll(asked());
        return pairs;
    }

    private List<List<String>> asked() {
        final List<List<String>> asked = new ArrayList<>();
        for (Criterion criterion : study.protocol().requirements()) {
            if (criterion.quantity().equals(RATIO) && criterion.of().isPresent()) {
                asked.add(List.of(criterion.of().get(), criterion.to().orElse(reference)));
            }
        }
        return asked;
    }

    private static int indexOf(DiscriminationModel model, String name) {
        for (int i = 0; i < model.members().size(); i++) {
            if (model.members().get(i).name().equals(name)) {
                return i;
            }
        }
        return -1;
    }

    private Key key(String quantity, String compound, String to) {
        Key key = Key.of(Discrimination.ID, compound, quantity, METHOD);
        if (!to.isEmpty()) {
            key = key.with("reference", to);
        }
        return occasion.isEmpty() ? key : key.with("occasion", occasion);
    }

    private void add(Key key, Answer answer, String note) {
        findings.add(Finding.of(key, answer, rows, note));
    }

    private double coverage() {
        return study.protocol().conventions().coverage();
    }
}
