package splitledger.characteristic.losses;

import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Key;
import splitledger.study.Study;

/** What is missing of one parent against the ladder, as a whole and beyond its breakdown. */
final class DeficitFindings {
    private static final double PERCENT = 100;

    private DeficitFindings() {}

    /** Adds them, and says what they stand on, if anything can be said. */
    static Optional<LossDeficit> add(
            Study study, LossOptions options, LossRows rows, LossBasis basis, LossFindings made) {
        final Outcome<LossDeficit> outcome =
                StableLadder.of(study, LossOptions.labile(options.given()))
                        .fold(
                                ladder -> LossDeficit.of(study, options, rows, basis, ladder),
                                not -> Outcome.not(not.reason(), not.detail()));
        final Key plain = Key.of(Losses.ID, rows.parent(), "unexplained-deficit", "ladder");
        final Key rest = Key.of(Losses.ID, rows.parent(), "remaining-loss", basis.method());
        if (outcome instanceof Outcome.NotComputed<LossDeficit> not) {
            made.add(plain, Answers.not("%", not), "");
            made.add(rest, Answers.not("%", not), "");
            return Optional.empty();
        }
        final LossDeficit deficit = ((Outcome.Computed<LossDeficit>) outcome).value();
        final double coverage = study.protocol().conventions().coverage();
        for (LossRows.Group g : rows.groups()) {
            made.add(
                    made.conditioned(plain, g),
                    missing(deficit.log(g), coverage),
                    g.rows(),
                    deficitNote(deficit));
            made.add(
                    made.conditioned(rest, g),
                    g.hidden() || !(basis.of(g).value() < 1)
                            ? Answers.not(
                                    "%",
                                    Reason.NOT_DETECTED,
                                    "a product was not found: the breakdown has only a bound")
                            : missing(deficit.rest(g), coverage),
                    g.rows(),
                    "1 less this is (1 - deficit) / (1 - breakdown), with the covariance of both: the"
                            + " breakdown is counted once");
        }
        return Optional.of(deficit);
    }

    private static String deficitNote(LossDeficit deficit) {
        return "against "
                + deficit.stable().name()
                + " of the same injections and the curve of the ladder without what decomposes; it"
                + " contains the breakdown. It is a loss only as far as products or a cold injection on"
                + " the column show one"
                + (deficit.amountUncertainty() > 0
                        ? ""
                        : ". Amounts are taken as exact: amount-uncertainty is not stated");
    }

    /** 1 - exp(z) in percent, its interval by z. */
    private static Answer missing(Uncertain z, double coverage) {
        final double kept = FastMath.exp(z.value());
        final double half =
                z.standardUncertainty() > 0
                        ? Quantiles.coverageFactor(coverage, z.degreesOfFreedom())
                                * z.standardUncertainty()
                        : 0;
        return Answers.ends(
                z.scaled(-PERCENT * kept, "%").at(PERCENT * (1 - kept)),
                PERCENT * (1 - FastMath.exp(z.value() + half)),
                PERCENT * (1 - FastMath.exp(z.value() - half)),
                coverage);
    }
}
