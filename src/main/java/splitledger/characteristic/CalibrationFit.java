package splitledger.characteristic;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import splitledger.base.Numbers;
import splitledger.propagation.Pool;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.LineFit;
import splitledger.statistics.LineFitter;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.WeightEvidence;
import splitledger.statistics.Weighting;
import splitledger.study.Choice;
import splitledger.study.Study;

/**
 * The line of one compound, with the choices that led to it.
 *
 * @param outcome the line, or why there is none
 * @param weighting the weights tried
 * @param choices what was decided and why
 */
record CalibrationFit(Outcome<UncertainLine> outcome, Weighting weighting, List<Choice> choices) {

    /** The line, if there is one. */
    Optional<UncertainLine> line() {
        return outcome.fold(Optional::of, not -> Optional.empty());
    }

    /** The method cell of findings. */
    String method() {
        return weighting == Weighting.NONE
                ? "line, unweighted"
                : "line, weights " + weighting.code();
    }

    /**
     * Fits.
     *
     * @param errors of the calibrants' amounts
     * @param wanted the protocol's word for the weights; empty: the preparations decide
     */
    static CalibrationFit of(
            Study study,
            Calibrants calibrants,
            AmountErrors errors,
            String wanted,
            Responses responses) {
        final List<Choice> choices = new ArrayList<>();
        final double[] x = calibrants.amounts();
        final double[] y = calibrants.means();
        final Weighting weighting = weighting(calibrants.compound(), x, y, wanted, choices);
        final Outcome<LineFit> line = fit(calibrants, x, y, weighting);
        final Outcome<UncertainLine> outcome =
                line.fold(
                        fitted ->
                                Outcome.of(uncertain(study, calibrants, errors, fitted, responses)),
                        not -> Outcome.not(not.reason(), not.detail()));
        if (calibrants.injectionsAveraged() == 1) {
            choices.add(
                    new Choice(
                            Calibration.ID,
                            calibrants.compound(),
                            "The mean of m injections of an unknown is given the scatter s/sqrt(m)",
                            "every calibrant preparation was injected once, so that the scatter of preparation and of"
                                    + " injection cannot be told apart",
                            "Draper and Smith, Applied Regression Analysis, 3rd ed. (from memory)"));
        }
        return new CalibrationFit(outcome, weighting, List.copyOf(choices));
    }

    private static Outcome<LineFit> fit(
            Calibrants calibrants, double[] x, double[] y, Weighting weighting) {
        if (x.length == 0) {
            return Outcome.not(
                    Reason.NO_ROWS,
                    "no calibrant has a response, an amount and a preparation for this compound");
        }
        if (calibrants.levels() < 2) {
            return Outcome.not(
                    Reason.TOO_FEW_LEVELS,
                    "a line needs preparations at 2 levels or more and 3 in all, found "
                            + calibrants.levels()
                            + " level with "
                            + x.length
                            + (x.length == 1 ? " preparation" : " preparations"));
        }
        if (x.length < 3) {
            return Outcome.not(
                    Reason.TOO_FEW_PREPARATIONS,
                    "a line with its scatter needs 3 preparations, found " + x.length);
        }
        return LineFitter.withDefaults().withWeighting(weighting).fit(x, y);
    }

    private static UncertainLine uncertain(
            Study study,
            Calibrants calibrants,
            AmountErrors errors,
            LineFit line,
            Responses responses) {
        final String id = Calibration.ID + "/" + calibrants.compound();
        return new UncertainLine(
                id,
                line,
                study.protocol().conventions().amountUnit(),
                responses.unit(),
                new Pool(
                        id,
                        line.degreesOfFreedom(),
                        "scatter of calibrant preparations about the line"),
                calibrants.injectionScatter(line.weighting()),
                calibrants.injectionsAveraged(),
                errors.parts(line));
    }

    private static Weighting weighting(
            String compound, double[] x, double[] y, String wanted, List<Choice> choices) {
        final String source =
                "Davidian and Carroll, J. Am. Stat. Assoc. 82 (1987) 1079 (from memory)";
        if (!wanted.isEmpty()) {
            final Weighting asked =
                    Arrays.stream(Weighting.values())
                            .filter(w -> w.code().equals(wanted))
                            .findFirst()
                            .orElse(Weighting.NONE);
            choices.add(
                    new Choice(
                            Calibration.ID,
                            compound,
                            "Weights " + asked.code(),
                            "stated in the protocol",
                            ""));
            return asked;
        }
        if (Arrays.stream(x).anyMatch(v -> !(v > 0))) {
            choices.add(
                    new Choice(
                            Calibration.ID,
                            compound,
                            "No weights",
                            "a calibrant has amount 0, where weights 1/x^2 have no value",
                            "common practice, no source"));
            return Weighting.NONE;
        }
        return WeightEvidence.of(x, y)
                .fold(
                        evidence -> {
                            choices.add(choice(compound, evidence, source));
                            return evidence.favoured();
                        },
                        not -> {
                            choices.add(
                                    new Choice(
                                            Calibration.ID,
                                            compound,
                                            "No weights",
                                            not.detail(),
                                            source));
                            return Weighting.NONE;
                        });
    }

    private static Choice choice(String compound, WeightEvidence evidence, String source) {
        final boolean none = evidence.favoured() == Weighting.NONE;
        final String basis =
                evidence.fromPreparations()
                        ? "the scatter of preparations within levels"
                        : "the scatter about the line (no level has two preparations)";
        return new Choice(
                Calibration.ID,
                compound,
                none
                        ? "No weights: the same scatter at every level"
                        : "Weights 1/x^2: scatter proportional to the amount",
                basis
                        + " ("
                        + Numbers.text(evidence.degreesOfFreedom())
                        + " degrees of freedom) is "
                        + Numbers.text(
                                new BigDecimal(evidence.ratio())
                                        .round(new MathContext(2))
                                        .doubleValue())
                        + " times likelier under this law than under "
                        + (none
                                ? "scatter proportional to the amount"
                                : "the same scatter at every level"),
                source);
    }
}
