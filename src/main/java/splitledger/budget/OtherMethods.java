package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import splitledger.propagation.MonteCarlo;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Budget;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.MethodsCompared;
import splitledger.study.Rows;

/** What terms of second order and Monte Carlo say of a result beside the law of propagation. */
final class OtherMethods {
    private static final String TRIALS = "Monte Carlo";

    private final String unit;

    /**
     * @param unit of the result
     */
    OtherMethods(String unit) {
        this.unit = unit;
    }

    /** Findings of a budget: second order first, then the trials where there were any. */
    List<Finding> of(Key key, Budget budget) {
        final List<Finding> findings = new ArrayList<>();
        findings.add(second(key, budget));
        budget.simulated().ifPresent(s -> findings.addAll(simulated(key, budget, s)));
        return findings;
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
                        ? new Answer.Statistic(s.standardDeviation(), unit)
                        : Answers.not(
                                unit,
                                Reason.TOO_FEW_POINTS,
                                "a variance estimate with 2 degrees of freedom or fewer has no standard deviation by"
                                        + " Monte Carlo: use the interval");
        findings.add(
                Finding.of(
                        Results.quantity(key, "mc-standard-uncertainty", TRIALS),
                        deviation,
                        Rows.NONE,
                        ""));
        budget.comparison()
                .ifPresent(
                        c ->
                                findings.add(
                                        Finding.of(
                                                Results.quantity(
                                                        key, "propagation-validated", TRIALS),
                                                new Answer.Statistic(c.validated() ? 1 : 0, "1"),
                                                Rows.NONE,
                                                MethodsCompared.words(budget))));
        return findings;
    }

    private Finding trial(Key key, String name, double value, String note) {
        return Finding.of(
                Results.quantity(key, name, TRIALS),
                new Answer.Statistic(value, unit),
                Rows.NONE,
                note);
    }

    /** With terms of second order, or why there are none. */
    private Finding second(Key key, Budget budget) {
        final Answer answer =
                budget.second()
                        .<Answer>map(s -> new Answer.Statistic(s.standardUncertainty(), unit))
                        .orElseGet(
                                () ->
                                        Answers.not(
                                                unit,
                                                Reason.NO_FINITE_VALUE,
                                                "the terms of second order make no variance at so large an uncertainty"));
        return Finding.of(
                Results.quantity(key, "second-order-standard-uncertainty", Results.LAW),
                answer,
                Rows.NONE,
                "");
    }
}
