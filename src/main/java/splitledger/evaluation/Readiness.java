package splitledger.evaluation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.study.Card;
import splitledger.study.Criterion;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * What the tables hold for a characteristic and what they lack, before anything is evaluated. It
 * counts; it computes no result and passes no verdict.
 *
 * @param id of the characteristic, or {@code results}
 * @param holds which rows serve it, in words
 * @param lacks what is missing, a sentence each; empty if nothing was noticed
 */
public record Readiness(String id, String holds, List<String> lacks) {
    /** The id under which the measurand's results go. */
    public static final String RESULTS = "results";

    /** The id under which limits go that nothing can answer. */
    public static final String REQUIREMENTS = "requirements";

    public Readiness {
        lacks = List.copyOf(lacks);
    }

    /** One for each characteristic of the protocol, and one for its results. */
    public static List<Readiness> of(Study study) {
        final List<Readiness> all = new ArrayList<>();
        for (Characteristic characteristic : Catalogue.all()) {
            final String id = characteristic.card().id();
            final Tree.Mapping options = study.protocol().characteristics().get(id);
            if (options != null) {
                final Rows rows = study.table().rows(Where.of(options.mapping("where")));
                final Tally tally = Tally.of(study, rows);
                all.add(
                        new Readiness(
                                id, tally.words(), DesignNeeds.of(id, study, options, tally)));
            }
        }
        study.protocol()
                .measurand()
                .flatMap(m -> m.resultsFor())
                .ifPresent(
                        where -> {
                            final Tally tally = Tally.of(study, study.table().rows(where));
                            all.add(new Readiness(RESULTS, tally.words(), results(study)));
                        });
        final List<String> unanswered = unanswered(study);
        if (!unanswered.isEmpty()) {
            all.add(new Readiness(REQUIREMENTS, "limits on these quantities", unanswered));
        }
        return all;
    }

    /** Limits on quantities that nothing in the protocol gives. */
    private static List<String> unanswered(Study study) {
        final Set<String> given = new TreeSet<>();
        for (Card card : GenerateResources.cards()) {
            final boolean asked =
                    card.id().equals(Budgets.card().id())
                            ? study.protocol().measurand().isPresent()
                            : study.protocol().characteristics().containsKey(card.id());
            if (asked) {
                card.quantities().forEach(q -> given.add(q.name()));
            }
        }
        return study.protocol().requirements().stream()
                .map(Criterion::quantity)
                .filter(q -> !given.contains(q))
                .distinct()
                .map(q -> "Nothing in this protocol gives " + q + ": it will be 'not shown'.")
                .toList();
    }

    private static List<String> results(Study study) {
        return study.protocol().characteristics().containsKey("calibration")
                ? List.of()
                : List.of("Without a calibration nothing gives 'found'.");
    }

    /**
     * What an experiment for a characteristic must have; empty if this version knows of none.
     *
     * @param id of the characteristic
     */
    public static Optional<String> needs(String id) {
        return DesignNeeds.words(id);
    }
}
