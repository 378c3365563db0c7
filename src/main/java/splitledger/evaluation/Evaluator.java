package splitledger.evaluation;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.ProblemException;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.study.Budget;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Study;
import splitledger.study.Tree;

/** Evaluates a study. */
public final class Evaluator {
    /** The seed of every evaluation, unless another is asked for; printed in the manifest. */
    public static final long SEED = 20260210L;

    private Evaluator() {}

    /**
     * Evaluates all of a study.
     *
     * @return everything that is written
     * @throws ProblemException if a requirement cannot be compared with what it is about
     */
    public static Evaluation evaluate(Study study) throws ProblemException {
        return evaluate(study, Extent.FULL);
    }

    /**
     * Evaluates.
     *
     * @param extent what may be left out; the numbers of the rest are the same
     * @return everything that is written
     * @throws ProblemException if a requirement cannot be compared with what it is about
     */
    public static Evaluation evaluate(Study study, Extent extent) throws ProblemException {
        final Map<String, Contribution> given = new LinkedHashMap<>();
        for (Characteristic characteristic : Catalogue.all()) {
            final String id = characteristic.card().id();
            final Tree.Mapping options = study.protocol().characteristics().get(id);
            if (options != null) {
                given.put(id, characteristic.evaluate(study, options, new Earlier(given), extent));
            }
        }
        final Earlier earlier = new Earlier(given);
        final Optional<Measurand> measurand = study.protocol().measurand();
        List<Budget> budgets = List.of();
        if (measurand.isPresent()) {
            final Budgets.Made made =
                    Budgets.make(
                            study,
                            measurand.get(),
                            earlier.lines(),
                            earlier.findings(),
                            SEED,
                            extent);
            given.put(Budgets.card().id(), made.contribution());
            budgets = made.budgets();
        }
        return collected(study, new ArrayList<>(given.values()), budgets);
    }

    private static Evaluation collected(Study study, List<Contribution> given, List<Budget> budgets)
            throws ProblemException {
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>(study.choices());
        final List<Flag> flags = new ArrayList<>(study.flags());
        flags.addAll(SetDates.flags(study));
        final List<Evaluation.Question> questions = new ArrayList<>();
        for (Contribution c : given) {
            findings.addAll(c.findings());
            c.figures().forEach(f -> figures.add(unique(f, figures)));
            choices.addAll(c.choices());
            c.flags().stream().filter(f -> !flags.contains(f)).forEach(flags::add);
            questions.add(c.question());
        }
        final List<Finding> judged = Requirements.apply(study, findings);
        Collections.sort(judged);
        for (int i = 1; i < judged.size(); i++) {
            if (judged.get(i).key().equals(judged.get(i - 1).key())) {
                throw new IllegalStateException("two findings of the key " + judged.get(i).key());
            }
        }
        return new Evaluation(study, questions, judged, budgets, figures, choices, flags, SEED);
    }

    /** The figure under an id that none of the others has. */
    private static Figure unique(Figure figure, List<Figure> others) {
        String id = figure.id();
        for (int i = 2; taken(id, others); i++) {
            id = figure.id() + "-" + i;
        }
        return figure.named(id);
    }

    private static boolean taken(String id, List<Figure> others) {
        return others.stream().anyMatch(f -> f.id().equalsIgnoreCase(id));
    }
}
