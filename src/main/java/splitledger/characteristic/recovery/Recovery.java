package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.characteristic.Responses;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Protocol.FromFinding;
import splitledger.study.Protocol.Input;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.NotCorrected;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * How much of what is there is found: by spikes, by standard addition, by a material of known
 * content, and by cold injection onto the column for what the inlet takes. The preparation is the
 * unit; its injections are averaged. See {@link RecoveryPooling} for levels and {@link
 * RecoveryRule} for the decision.
 */
public final class Recovery implements Characteristic {
    static final String ID = "recovery";

    @Override
    public Card card() {
        return RecoveryCard.card();
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Responses responses = Responses.of(study);
        final List<RecoveryResult> results = new ArrayList<>();
        for (String compound : study.compounds().targets()) {
            results.addAll(
                    results(new RecoveryContext(study, compound, responses, options, earlier)));
        }
        final Optional<String> decision = options.text("decision");
        final double coverage = study.protocol().conventions().coverage();
        final List<Finding> findings = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final Set<Flag> flags = new LinkedHashSet<>();
        for (RecoveryResult result : results) {
            findings.addAll(
                    new RecoveryFindings(
                                    result, coverage, decision, options.number("mass-fraction"))
                            .all());
            choices.addAll(result.choices());
            flags.addAll(result.flags());
        }
        choices.addAll(decided(study, decision));
        return new Contribution(
                new Question(
                        ID,
                        card().title(),
                        card().question(),
                        injected(study, options, results),
                        how()),
                findings,
                extent.figures() ? new RecoveryFigures(study).of(results) : List.of(),
                choices,
                new ArrayList<>(flags),
                new TreeMap<>());
    }

    private static List<RecoveryResult> results(RecoveryContext context) {
        final List<RecoveryResult> results = new ArrayList<>();
        context.rows("where").ifPresent(rows -> results.add(SpikeRecovery.of(context, rows)));
        context.rows("standard-addition")
                .ifPresent(rows -> results.add(AdditionRecovery.of(context, rows)));
        context.rows("reference-material")
                .ifPresent(rows -> results.add(ReferenceRecovery.of(context, rows)));
        final Optional<Rows> cold = context.rows("on-column");
        final Optional<Rows> hot = context.rows("split-injections");
        if (cold.isPresent() || hot.isPresent()) {
            results.add(
                    TransferRecovery.of(context, hot.orElse(Rows.NONE), cold.orElse(Rows.NONE)));
        }
        return results;
    }

    /** What the protocol decides, and where it contradicts itself. */
    private static List<Choice> decided(Study study, Optional<String> decision) {
        final List<Choice> choices = new ArrayList<>();
        choices.add(
                new Choice(
                        ID,
                        "",
                        decision.isPresent()
                                ? "What is done with the recovery: " + decision.get()
                                : "Whether results are corrected for the recovery is left to the laboratory",
                        "correction, or the deviation within the uncertainty, is a decision that customers and regulations may"
                                + " make; recovery-factor gives both ways",
                        decision.isPresent()
                                ? "stated in the protocol"
                                : "common practice, no source"));
        final Map<String, Input> inputs =
                study.protocol().measurand().map(Measurand::inputs).orElse(Map.of());
        for (Map.Entry<String, Input> e : inputs.entrySet()) {
            final boolean corrects =
                    e.getValue() instanceof FromFinding from && from.quantity().equals(ID);
            final boolean leaves = e.getKey().equals("R") && e.getValue() instanceof NotCorrected;
            final boolean toCorrect = decision.orElse("").equals("correct");
            if (decision.isPresent() && (toCorrect ? leaves : corrects)) {
                choices.add(contradiction(e.getKey(), corrects, decision.get()));
            }
        }
        return choices;
    }

    private static Choice contradiction(String symbol, boolean corrects, String decision) {
        return new Choice(
                ID,
                "",
                "The protocol contradicts itself: decision "
                        + decision
                        + ", but "
                        + symbol
                        + (corrects ? " corrects for the recovery" : " is not corrected for"),
                "results follow the equation as it stands",
                "stated in the protocol");
    }

    private static String injected(
            Study study, Tree.Mapping options, List<RecoveryResult> results) {
        final Set<String> injections = new LinkedHashSet<>();
        final Set<String> kinds = new LinkedHashSet<>();
        for (RecoveryResult r : results) {
            kinds.add(r.kind().method());
            r.pooled().rows().stream().forEach(row -> injections.add(study.table().injection(row)));
        }
        return injections.size()
                + " injections, by "
                + (kinds.isEmpty() ? "nothing that the protocol names" : String.join(", ", kinds))
                + (options.get("native").isPresent()
                        ? "; native amount from unspiked preparations"
                        : "")
                + ".";
    }

    private static String how() {
        return "Injections of a preparation are averaged and read off the calibration; found and native amounts share its slope"
                + " and intercept, whose errors act once. At a level the recovery is the mean of its preparations, with their"
                + " scatter and what they share. Levels are compared by "
                + "the analysis of variance for unequal variances (B. L. Welch, Biometrika 38 (1951) 330; S. Johansen, Biometrika"
                + " 67 (1980) 85, from memory) and put together if p is 0.05 or more. Degrees of freedom by variance estimate"
                + " (Welch-Satterthwaite, JCGM 100:2008, G.4.1). Spikes do not prove the recovery of what a sample itself"
                + " holds: a material of known content, or exhaustive extraction, shows more.";
    }
}
