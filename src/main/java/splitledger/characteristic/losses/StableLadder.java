package splitledger.characteristic.losses;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import splitledger.characteristic.discrimination.Discrimination;
import splitledger.characteristic.discrimination.DiscriminationModel;
import splitledger.characteristic.discrimination.LadderRows;
import splitledger.statistics.LadderFit;
import splitledger.statistics.LadderFitter;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.InjectionTable;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * The ladder of the study without what decomposes: what should have arrived of a compound that
 * keeps whole.
 *
 * @param model the fitted curve
 * @param reference member that others are compared with, as the protocol names it; may be empty
 */
record StableLadder(DiscriminationModel model, String reference) {
    /**
     * Fits it, as the block of discrimination says.
     *
     * @param labile what decomposes or is formed, and is left out
     * @return not computed without such a block, with other than carbon numbers, or without a curve
     */
    static Outcome<StableLadder> of(Study study, List<String> labile) {
        final Tree.Mapping given =
                study.protocol()
                        .characteristics()
                        .getOrDefault(Discrimination.ID, Tree.Mapping.EMPTY);
        if (given.get("where").isEmpty()) {
            return Outcome.not(
                    Reason.NO_FINDING,
                    "needs the ladder of homologues: the protocol asks for no discrimination");
        }
        if (!given.text("expected")
                .orElse(LossOptions.CARBON_NUMBER)
                .equals(LossOptions.CARBON_NUMBER)) {
            return Outcome.not(
                    Reason.NOT_IN_MODEL,
                    "needs a ladder against effective carbon numbers: only these say what the"
                            + " compound's own response would be");
        }
        final InjectionTable table = study.table();
        final Set<String> occasions = new LinkedHashSet<>();
        table.rows(Where.of(given.mapping("where"))).stream()
                .forEach(r -> occasions.add(table.label("occasion", r)));
        final String occasion = occasions.stream().findFirst().orElse("");
        final LadderRows found =
                LadderRows.of(
                        study,
                        table.rows(Where.of(given.mapping("where")))
                                .only(
                                        r ->
                                                !labile.contains(table.compound(r))
                                                        && table.label("occasion", r)
                                                                .equals(occasion)),
                        LadderRows.Expected.CARBON_NUMBER,
                        "");
        if (found.members().isEmpty() || found.means().slopeVariance().isEmpty()) {
            return Outcome.not(Reason.TOO_FEW_INJECTIONS, "the ladder gave no curve");
        }
        final boolean same = study.compounds().ladder().stream().noneMatch(labile::contains);
        final String id =
                (same ? Discrimination.ID : Losses.ID + "/ladder")
                        + (occasion.isEmpty() ? "" : "/" + occasion);
        return LadderFitter.fit(found.boilingPoints(), found.means().means())
                .fold(
                        fits -> Outcome.of(model(found, id, fits, given)),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private static StableLadder model(
            LadderRows found, String id, List<LadderFit> fits, Tree.Mapping given) {
        return new StableLadder(
                new DiscriminationModel(
                        id,
                        found.members(),
                        found.means().means(),
                        found.means().slopeVariance().getAsDouble() / found.means().injections(),
                        found.means().injections() - 1.0,
                        fits),
                given.text("reference").orElse(""));
    }
}
