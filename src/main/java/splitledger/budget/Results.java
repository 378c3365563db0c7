package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import splitledger.propagation.LawOfPropagation.Propagated;
import splitledger.propagation.MonteCarlo;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Budget;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.MethodsCompared;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;

/** The findings of results and budgets. */
final class Results {
    private static final String LAW = "law of propagation";
    private static final String TRIALS = "Monte Carlo";

    private final Study study;
    private final Measurand measurand;
    private final BudgetMaker maker;

    Results(Study study, Measurand measurand, BudgetMaker maker) {
        this.study = study;
        this.measurand = measurand;
        this.maker = maker;
    }

    /** Completes the inputs of one result with the amount found. */
    interface Completing {
        Outcome<SortedMap<String, Uncertain>> inputs(
                String compound, Rows rows, String label, Uncertain found);
    }

    /** A result with its uncertainty for every preparation whose amount was predicted. */
    List<Finding> ofPreparations(String compound, List<Finding> findings, Completing completing) {
        final List<Finding> results = new ArrayList<>();
        for (Finding f : findings) {
            final boolean wanted =
                    f.key().quantity().equals("predicted-amount")
                            && f.key().method().equals("fieller")
                            && f.key().compound().equals(compound);
            if (wanted) {
                results.addAll(ofPreparation(f, completing));
            }
        }
        return results;
    }

    private List<Finding> ofPreparation(Finding predicted, Completing completing) {
        final Key key =
                new Key(
                        Budgets.ID,
                        predicted.key().compound(),
                        predicted.key().condition(),
                        "result",
                        LAW);
        if (!(predicted.answer() instanceof Answer.Estimate estimate)
                || estimate.quantity().isEmpty()) {
            final Answer none =
                    predicted.answer() instanceof Answer.NotEstimable not
                            ? new Answer.NotEstimable(measurand.unit(), not.reason(), not.detail())
                            : Answers.not(
                                    measurand.unit(),
                                    Reason.NO_FINITE_VALUE,
                                    "no amount was found");
            return all(key, none, predicted.rows());
        }
        final Outcome<SortedMap<String, Uncertain>> inputs =
                completing.inputs(
                        key.compound(),
                        predicted.rows(),
                        key.conditionText(),
                        estimate.quantity().get());
        return inputs.fold(
                all -> {
                    try {
                        final Propagated propagated = maker.propagate(all);
                        final Trail trail = maker.trail(all, propagated.result().value());
                        final List<Trail.Step> steps = new ArrayList<>(predicted.trail().steps());
                        steps.addAll(trail.steps());
                        return estimates(
                                key,
                                propagated.result(),
                                predicted.rows(),
                                predicted.note(),
                                new Trail(steps));
                    } catch (ArithmeticException e) {
                        final String why = String.valueOf(e.getMessage());
                        return all(
                                key,
                                Answers.not(measurand.unit(), Reason.NO_FINITE_VALUE, why),
                                predicted.rows());
                    }
                },
                not -> all(key, Answers.not(measurand.unit(), not), predicted.rows()));
    }

    /** The result at a level by both methods. */
    List<Finding> ofBudget(String compound, String level, Outcome<Budget> outcome) {
        final Key plain = Key.of(Budgets.ID, compound, "result", LAW);
        final Key key = level.isEmpty() ? plain : plain.with("level", level);
        return outcome.fold(
                budget -> {
                    final List<Finding> findings =
                            new ArrayList<>(
                                    estimates(
                                            key,
                                            budget.result(),
                                            Rows.NONE,
                                            MethodsCompared.warning(budget),
                                            budget.trail()));
                    findings.add(second(key, budget));
                    budget.simulated().ifPresent(s -> findings.addAll(simulated(key, budget, s)));
                    return findings;
                },
                not -> all(key, Answers.not(measurand.unit(), not), Rows.NONE));
    }

    private List<Finding> estimates(
            Key key, Uncertain result, Rows rows, String note, Trail trail) {
        final double coverage = study.protocol().conventions().coverage();
        final double k = maker.factor(result);
        final double expanded = k * result.standardUncertainty();
        final List<Finding> findings = new ArrayList<>();
        final String below =
                BelowZero.words(
                        result.value(),
                        result.value() - expanded,
                        result.unit(),
                        maker.usesFound());
        final String words = note.isEmpty() || below.isEmpty() ? note + below : note + "; " + below;
        findings.add(Finding.of(key, Answers.student(result, coverage), rows, words).with(trail));
        findings.add(
                statistic(
                        key,
                        "combined-standard-uncertainty",
                        result.standardUncertainty(),
                        result.unit(),
                        rows));
        findings.add(degreesOfFreedom(key, result, rows));
        findings.add(statistic(key, "coverage-factor", k, "1", rows));
        findings.add(statistic(key, "expanded-uncertainty", expanded, result.unit(), rows));
        final Key relative = quantity(key, "relative-expanded-uncertainty", LAW);
        findings.add(
                result.value() == 0
                        ? Finding.of(
                                relative,
                                Answers.not(
                                        "%",
                                        Reason.MEAN_NEAR_ZERO,
                                        "the result is 0: a relative value means nothing"),
                                rows,
                                "")
                        : statistic(
                                key,
                                "relative-expanded-uncertainty",
                                100 * expanded / Math.abs(result.value()),
                                "%",
                                rows));
        return findings;
    }

    private static Finding degreesOfFreedom(Key key, Uncertain result, Rows rows) {
        final String name = "effective-degrees-of-freedom";
        final double df = result.degreesOfFreedom();
        if (Double.isInfinite(df)) {
            return Finding.of(
                    quantity(key, name, LAW),
                    new Answer.NotEstimable(
                            "1", "infinite", "infinite: every contribution is taken as known"),
                    rows,
                    "");
        }
        return statistic(key, name, df, "1", rows);
    }

    private List<Finding> simulated(Key key, Budget budget, MonteCarlo.Simulated s) {
        final List<Finding> findings = new ArrayList<>();
        final String note = s.trials() + " trials, probabilistically symmetric interval";
        findings.add(trial(key, "mc-lower", s.lower(), note));
        findings.add(trial(key, "mc-upper", s.upper(), note));
        final String shortest = s.trials() + " trials, shortest interval";
        findings.add(trial(key, "mc-shortest-lower", s.shortestLower(), shortest));
        findings.add(trial(key, "mc-shortest-upper", s.shortestUpper(), shortest));
        final Answer deviation =
                s.standardDeviationExists()
                        ? new Answer.Statistic(s.standardDeviation(), measurand.unit())
                        : Answers.not(
                                measurand.unit(),
                                Reason.TOO_FEW_POINTS,
                                "a variance estimate with 2 degrees of freedom or fewer has no standard deviation by"
                                        + " Monte Carlo: use the interval");
        findings.add(
                Finding.of(
                        quantity(key, "mc-standard-uncertainty", TRIALS),
                        deviation,
                        Rows.NONE,
                        ""));
        budget.comparison()
                .ifPresent(
                        c ->
                                findings.add(
                                        Finding.of(
                                                quantity(key, "propagation-validated", TRIALS),
                                                new Answer.Statistic(c.validated() ? 1 : 0, "1"),
                                                Rows.NONE,
                                                MethodsCompared.words(budget))));
        return findings;
    }

    private Finding trial(Key key, String name, double value, String note) {
        return Finding.of(
                quantity(key, name, TRIALS),
                new Answer.Statistic(value, measurand.unit()),
                Rows.NONE,
                note);
    }

    /** With terms of second order, or why there are none. */
    private Finding second(Key key, Budget budget) {
        final Answer answer =
                budget.second()
                        .<Answer>map(
                                s ->
                                        new Answer.Statistic(
                                                s.standardUncertainty(), measurand.unit()))
                        .orElseGet(
                                () ->
                                        Answers.not(
                                                measurand.unit(),
                                                Reason.NO_FINITE_VALUE,
                                                "the terms of second order make no variance at so large an uncertainty"));
        return Finding.of(
                quantity(key, "second-order-standard-uncertainty", LAW), answer, Rows.NONE, "");
    }

    private static List<Finding> all(Key key, Answer none, Rows rows) {
        final List<Finding> findings = new ArrayList<>();
        findings.add(Finding.of(key, none, rows, ""));
        findings.add(Finding.of(quantity(key, "expanded-uncertainty", LAW), none, rows, ""));
        return findings;
    }

    private static Finding statistic(Key key, String name, double value, String unit, Rows rows) {
        return Finding.of(quantity(key, name, LAW), new Answer.Statistic(value, unit), rows, "");
    }

    private static Key quantity(Key key, String name, String method) {
        return new Key(key.characteristic(), key.compound(), key.condition(), name, method);
    }
}
