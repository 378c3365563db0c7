package splitledger.planning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Judge;
import splitledger.study.Judgement;
import splitledger.study.Verdict;
import splitledger.virtual.TrueValue;

/**
 * What one simulated study says of one quantity, beside the truth.
 *
 * @param unit of the finding
 * @param truth in {@code unit}
 * @param kind what was given
 * @param covered whether interval or bound holds the truth
 * @param error (value - truth) / standard uncertainty; NaN without either
 * @param width of the interval, in {@code unit}; NaN without one
 * @param judged number of criteria that gave a verdict
 * @param wrong number of them that the truth contradicts
 * @param undecided number of them that were undecided or not shown
 */
record Trial(
        Estimand estimand,
        String unit,
        double truth,
        Kind kind,
        boolean covered,
        double error,
        double width,
        int judged,
        int wrong,
        int undecided) {

    /** What a study gave. */
    enum Kind {
        ESTIMATE,
        BOUND,
        NOTHING
    }

    /**
     * Every finding of an evaluation that has a truth and could have an interval.
     *
     * @param untold gathers the quantities with an interval that the truth does not hold
     */
    static List<Trial> of(Evaluation evaluation, List<TrueValue> truths, List<Estimand> untold) {
        final Map<Estimand, TrueValue> byKey = new LinkedHashMap<>();
        truths.forEach(t -> byKey.put(Estimand.of(t.key()), t));
        final List<Trial> trials = new ArrayList<>();
        final Map<Estimand, Integer> methods = new LinkedHashMap<>();
        evaluation
                .findings()
                .forEach(f -> methods.merge(Estimand.of(f.key()).truth(), 1, Integer::sum));
        for (Finding finding : evaluation.findings()) {
            if (finding.answer() instanceof Answer.Statistic) {
                continue;
            }
            final Estimand estimand = Estimand.of(finding.key());
            final TrueValue own = byKey.get(estimand);
            final TrueValue truth = own == null ? byKey.get(estimand.truth()) : own;
            if (truth != null) {
                // a method that was chosen from the data is judged through the choice
                final boolean chosen = methods.getOrDefault(estimand.truth(), 0) == 1;
                trials.add(of(finding, chosen ? estimand.truth() : estimand, truth));
            } else if (!(finding.answer() instanceof Answer.NotEstimable)) {
                untold.add(estimand);
            }
        }
        return trials;
    }

    private static Trial of(Finding finding, Estimand estimand, TrueValue true0) {
        final Answer answer = finding.answer();
        final double truth = true0.value();
        if (!(answer instanceof Answer.NotEstimable) && !answer.unit().equals(true0.unit())) {
            throw new IllegalStateException(
                    estimand + " is in " + answer.unit() + ", its truth in " + true0.unit());
        }
        int wrong = 0;
        int undecided = 0;
        for (Judgement judgement : finding.judgements()) {
            if (judgement.verdict() == Verdict.UNDECIDED
                    || judgement.verdict() == Verdict.NOT_SHOWN) {
                undecided++;
            } else if (judgement.verdict()
                    != Judge.judge(judgement.criterion(), new Answer.Statistic(truth, true0.unit()))
                            .verdict()) {
                wrong++;
            }
        }
        Kind kind = Kind.NOTHING;
        boolean covered = false;
        double error = Double.NaN;
        double width = Double.NaN;
        if (answer instanceof Answer.Estimate e) {
            kind = Kind.ESTIMATE;
            covered = e.lower() <= truth && truth <= e.upper();
            error =
                    e.standardUncertainty() > 0
                            ? (e.value() - truth) / e.standardUncertainty()
                            : Double.NaN;
            width = e.upper() - e.lower();
        } else if (answer instanceof Answer.Bound b) {
            kind = Kind.BOUND;
            covered =
                    b.lower().orElse(Double.NEGATIVE_INFINITY) <= truth
                            && truth <= b.upper().orElse(Double.POSITIVE_INFINITY);
        }
        return new Trial(
                estimand,
                true0.unit(),
                truth,
                kind,
                covered,
                error,
                width,
                finding.judgements().size(),
                wrong,
                undecided);
    }
}
