package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.characteristic.Criteria;
import splitledger.characteristic.Digits;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Trail;

/** What one way to a recovery says of one compound, as findings. */
final class RecoveryFindings {
    private static final String UNIT = "1";
    private static final double PERCENT = 100;

    private final RecoveryResult result;
    private final double coverage;
    private final Optional<String> decision;
    private final OptionalDouble massFraction;

    /**
     * For one result.
     *
     * @param coverage of intervals
     * @param decision as the protocol states it, if it does
     * @param massFraction of the analyte, if the protocol states it
     */
    RecoveryFindings(
            RecoveryResult result,
            double coverage,
            Optional<String> decision,
            OptionalDouble massFraction) {
        this.result = result;
        this.coverage = coverage;
        this.decision = decision;
        this.massFraction = massFraction;
    }

    List<Finding> all() {
        final List<Finding> findings = new ArrayList<>();
        findings.addAll(of(result.pooled()));
        findings.addAll(factors());
        if (result.kind() != RecoveryKind.ADDITION) {
            findings.add(
                    Finding.of(
                            key("recovery-homogeneity-p"),
                            result.homogeneity()
                                    .<Answer>fold(
                                            test -> new Answer.Statistic(test.p(), UNIT),
                                            not -> Answers.not(UNIT, not)),
                            result.pooled().rows(),
                            result.homogeneity()
                                    .<String>fold(
                                            test ->
                                                    LevelAgreement.words(test)
                                                            + "; levels with scatter of their own each and the covariance of"
                                                            + " what they share; below 0.05 they are not put together",
                                            not -> "")));
        }
        for (RecoveryEstimate level : result.levels()) {
            if (!level.level().isEmpty()) {
                findings.addAll(of(level));
            }
        }
        return findings;
    }

    private Key key(String quantity) {
        return Key.of(Recovery.ID, result.compound(), quantity, result.kind().method())
                .with("kind", result.kind().condition());
    }

    private Key key(String quantity, RecoveryEstimate of) {
        return of.level().isEmpty() ? key(quantity) : key(quantity).with("level", of.level());
    }

    private List<Finding> of(RecoveryEstimate estimate) {
        final Outcome<Uncertain> value = estimate.value();
        final List<Finding> findings = new ArrayList<>();
        findings.add(
                Finding.of(
                                key("recovery", estimate),
                                value.<Answer>fold(
                                        r -> rule(r).answer(), not -> Answers.not(UNIT, not)),
                                estimate.rows(),
                                note(estimate))
                        .with(trail(estimate)));
        findings.add(
                statistic(
                        "recovery-t",
                        estimate,
                        value.<Answer>fold(
                                r -> new Answer.Statistic(rule(r).t(), UNIT),
                                not -> Answers.not(UNIT, not))));
        findings.add(
                statistic(
                        "recovery-p",
                        estimate,
                        value.<Answer>fold(
                                r -> new Answer.Statistic(rule(r).p(), UNIT),
                                not -> Answers.not(UNIT, not))));
        if (result.kind() != RecoveryKind.ADDITION) {
            findings.add(rsd(estimate));
        }
        return findings;
    }

    private Finding statistic(String quantity, RecoveryEstimate of, Answer answer) {
        final String note =
                of.value()
                        .<String>fold(
                                r ->
                                        "recovery "
                                                + Digits.three(r.value())
                                                + ", "
                                                + Digits.three(rule(r).freedom())
                                                + " degrees of freedom",
                                not -> "");
        return Finding.of(key(quantity, of), answer, of.rows(), note);
    }

    private Finding rsd(RecoveryEstimate estimate) {
        final Answer answer =
                estimate.value()
                        .<Answer>fold(
                                r ->
                                        estimate.scatter()
                                                .map(s -> relative(s, r.value()))
                                                .orElse(
                                                        Answers.not(
                                                                "%",
                                                                Outcome.Reason.NO_SCATTER,
                                                                "no scatter of single recoveries")),
                                not -> Answers.not("%", not));
        return Finding.of(
                key("recovery-rsd", estimate),
                answer,
                estimate.rows(),
                "of single preparations"
                        + (estimate.level().isEmpty()
                                ? ", within levels or days as they were put together"
                                : ""));
    }

    private Answer relative(VarianceEstimate scatter, double recovery) {
        return recovery > 0
                ? Answers.sd(scatter, PERCENT / recovery, "%", coverage)
                : Answers.not(
                        "%",
                        Outcome.Reason.MEAN_NEAR_ZERO,
                        "the mean recovery is " + Trail.digits(recovery));
    }

    private RecoveryRule rule(Uncertain r) {
        return new RecoveryRule(r, coverage);
    }

    private String note(RecoveryEstimate estimate) {
        final List<String> notes = new ArrayList<>(List.of(result.kind().caution()));
        notes.addAll(estimate.notes());
        if (estimate.value() instanceof NotComputed<Uncertain>) {
            return notes.get(0);
        }
        estimate.value()
                .fold(
                        r -> {
                            notes.add(
                                    estimate.level().isEmpty()
                                            ? rule(r).words(decision)
                                            : rule(r).test());
                            if (result.kind() == RecoveryKind.REFERENCE) {
                                notes.add(rule(r).comparison());
                            }
                            massFraction.ifPresent(
                                    c -> {
                                        if (c > 0 && c <= 1) {
                                            notes.add(RecoveryRange.of(c).words(r.value()));
                                        }
                                    });
                            return true;
                        },
                        not -> false);
        return String.join("; ", notes);
    }

    /** Both ways to treat the recovery in a budget, whatever the laboratory decides. */
    private List<Finding> factors() {
        final RecoveryEstimate pooled = result.pooled();
        final Outcome<Uncertain> value = pooled.value();
        final String id =
                "recovery/"
                        + result.kind().condition()
                        + "/"
                        + result.compound()
                        + "/"
                        + result.kind().method()
                        + "/deviation";
        return List.of(
                factor(
                        "correct",
                        value.<Answer>fold(r -> rule(r).answer(), not -> Answers.not(UNIT, not)),
                        "results are divided by it: the recovery with its uncertainty"),
                factor(
                        "include",
                        value.<Answer>fold(
                                r -> Answers.student(rule(r).included(id), coverage),
                                not -> Answers.not(UNIT, not)),
                        "results stay as they are: 1, with the uncertainty of the recovery"
                                + value.<String>fold(
                                        r ->
                                                rule(r).isSignificant()
                                                        ? " and half the deviation that is not corrected"
                                                        : "; no deviation is shown that would have to be added",
                                        not -> "")));
    }

    private Finding factor(String way, Answer answer, String note) {
        return Finding.of(
                key("recovery-factor").with("decision", way),
                answer,
                result.pooled().rows(),
                note
                        + (decision.isPresent()
                                ? decision.get().equals(way)
                                        ? "; so decided by the protocol"
                                        : "; the protocol decides otherwise: " + decision.get()
                                : "")
                        + "; "
                        + Criteria.of("recovery-bias-included").cited());
    }

    private Trail trail(RecoveryEstimate estimate) {
        return estimate.value()
                .fold(
                        r -> {
                            final List<Trail.Step> steps = new ArrayList<>();
                            final RecoveryRule rule = rule(r);
                            steps.add(
                                    new Trail.Step(
                                            "mean recovery of "
                                                    + estimate.preparations()
                                                    + (estimate.preparations() == 1
                                                            ? " unit"
                                                            : " units"),
                                            "R",
                                            Trail.digits(r.value()),
                                            r.value(),
                                            UNIT));
                            estimate.scatter()
                                    .ifPresent(
                                            s ->
                                                    steps.add(
                                                            new Trail.Step(
                                                                    "standard deviation of single recoveries",
                                                                    "s",
                                                                    Trail.digits(s.sd()),
                                                                    s.sd(),
                                                                    UNIT)));
                            steps.add(
                                    new Trail.Step(
                                            "standard uncertainty, with what all share",
                                            "u(R)",
                                            Trail.digits(r.standardUncertainty()),
                                            r.standardUncertainty(),
                                            UNIT));
                            steps.add(
                                    new Trail.Step(
                                            "distance from 1 in standard uncertainties",
                                            "|R - 1| / u(R)",
                                            "|"
                                                    + Trail.digits(r.value())
                                                    + " - 1| / "
                                                    + Trail.digits(r.standardUncertainty()),
                                            rule.t(),
                                            UNIT));
                            return new Trail(steps);
                        },
                        not -> Trail.NONE);
    }
}
