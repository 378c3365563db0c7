package splitledger.characteristic.calibration;

import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Responses;
import splitledger.propagation.ScatterLine;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.ScatterFit;
import splitledger.study.Choice;
import splitledger.study.Doubles;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * The calibration of one compound, with the choices that led to it.
 *
 * <p>Unless the protocol says otherwise the scatter has a constant part and one in proportion to
 * the response, both estimated, either of which may come out as 0: s1 = 0 is the unweighted fit, s0
 * = 0 the one with scatter proportional to the response. No test chooses first; see {@link
 * ScatterFit} for the coverage of both ways.
 *
 * @param outcome the fit, or why there is none
 * @param method the method cell of findings
 * @param shares variance of each preparation's mean relative to the law of scatter
 * @param choices what was decided and why
 */
public record CalibrationFit(
        Outcome<UncertainLine> outcome, String method, Doubles shares, List<Choice> choices) {

    public CalibrationFit {
        choices = List.copyOf(choices);
    }

    /** The fit, if there is one. */
    Optional<UncertainLine> line() {
        return outcome.fold(Optional::of, not -> Optional.empty());
    }

    /** The fit with its law of scatter, if it has one. */
    public Optional<ScatterLine> scatterLine() {
        return line().filter(ScatterLine.class::isInstance).map(ScatterLine.class::cast);
    }

    /**
     * What a protocol asks for.
     *
     * @param mean how the response depends on the amount
     * @param weights the word for the weights; empty: the scatter is estimated
     */
    record Wanted(MeanLaw mean, String weights) {

        /** Of the options of the calibration. */
        static Wanted of(Tree.Mapping options) {
            return new Wanted(
                    switch (options.text("model").orElse("line")) {
                        case "through-origin" -> MeanLaw.THROUGH_ORIGIN;
                        case "quadratic" -> MeanLaw.QUADRATIC;
                        default -> MeanLaw.LINE;
                    },
                    options.text("weights").orElse(""));
        }

        String words() {
            return switch (mean) {
                case THROUGH_ORIGIN -> "line through the origin";
                case QUADRATIC -> "quadratic";
                case LINE -> "line";
            };
        }
    }

    /**
     * Fits.
     *
     * @param errors of the calibrants' amounts
     */
    static CalibrationFit of(
            Study study,
            Calibrants calibrants,
            AmountErrors errors,
            Wanted wanted,
            Responses responses) {
        return new CalibrationFitting(study, calibrants, errors, wanted, responses).fit();
    }
}
