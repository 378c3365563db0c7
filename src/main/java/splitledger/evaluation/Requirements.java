package splitledger.evaluation;

import java.util.ArrayList;
import java.util.List;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.precision.Repeatability;
import splitledger.study.Answer;
import splitledger.study.Card;
import splitledger.study.Criterion;
import splitledger.study.Finding;
import splitledger.study.Judge;
import splitledger.study.Judgement;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * Applies every requirement; one that no finding answers gets a finding of its own that says so.
 * Where a quantity is given by two methods of estimation side by side, a requirement without a
 * method is about the one that budgets take.
 */
final class Requirements {
    private Requirements() {}

    static List<Finding> apply(Study study, List<Finding> findings) throws ProblemException {
        final List<Finding> all = new ArrayList<>(findings);
        for (Criterion criterion : study.protocol().requirements()) {
            all.addAll(missing(study, criterion, all));
        }
        final List<Problem> problems = new ArrayList<>();
        final List<Finding> judged = new ArrayList<>();
        for (Finding finding : all) {
            judged.add(judged(study, finding, problems));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return judged;
    }

    private static Finding judged(Study study, Finding finding, List<Problem> problems) {
        final List<Judgement> judgements = new ArrayList<>();
        for (Criterion criterion : study.protocol().requirements()) {
            final boolean beside =
                    criterion.method().isEmpty() && Repeatability.isBeside(finding.key());
            if (beside || !Judge.isAbout(criterion, finding.key(), study.compounds().targets())) {
                continue;
            }
            if (finding.answer() instanceof Answer.NotEstimable
                    || Judge.comparable(criterion, finding.answer())) {
                judgements.add(Judge.judge(criterion, finding.answer()));
            } else {
                final Problem problem =
                        criterion
                                .place()
                                .problem(
                                        "a limit in '" + criterion.unit() + "'",
                                        "a limit in '" + finding.answer().unit() + "'",
                                        "write the limit in the unit of " + criterion.quantity());
                if (!problems.contains(problem)) {
                    problems.add(problem);
                }
            }
        }
        return finding.judged(judgements);
    }

    /**
     * One not-estimable finding a compound that the requirement is about and no finding answers.
     */
    private static List<Finding> missing(Study study, Criterion criterion, List<Finding> findings) {
        final List<Finding> missing = new ArrayList<>();
        final List<String> compounds =
                criterion.of().map(List::of).orElse(study.compounds().targets());
        for (String compound : compounds) {
            final boolean answered =
                    findings.stream()
                            .map(Finding::key)
                            .filter(k -> k.compound().equals(compound) || k.compound().isEmpty())
                            .anyMatch(
                                    k -> Judge.isAbout(criterion, k, study.compounds().targets()));
            if (!answered) {
                Key key =
                        Key.of(
                                owner(criterion.quantity()),
                                compound,
                                criterion.quantity(),
                                criterion.method().orElse(""));
                for (var e : criterion.condition().entrySet()) {
                    key = key.with(e.getKey(), e.getValue());
                }
                if (criterion.to().isPresent()) {
                    key = key.with("reference", criterion.to().get());
                }
                final Answer none =
                        new Answer.NotEstimable(
                                criterion.unit().isEmpty() ? "1" : criterion.unit(),
                                "not-evaluated",
                                "a requirement asks for it, but nothing in this protocol gives it");
                missing.add(Finding.of(key, none, Rows.NONE, ""));
            }
        }
        return missing;
    }

    private static String owner(String quantity) {
        final List<Card> cards =
                new ArrayList<>(Catalogue.all().stream().map(Characteristic::card).toList());
        cards.add(Budgets.card());
        return cards.stream()
                .filter(c -> c.quantities().stream().anyMatch(q -> q.name().equals(quantity)))
                .map(Card::id)
                .findFirst()
                .orElse("");
    }
}
