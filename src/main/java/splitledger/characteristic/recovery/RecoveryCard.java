package splitledger.characteristic.recovery;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** Options and quantities of the recovery. */
final class RecoveryCard {
    private static final List<String> PLACES = List.of("kind", "level");

    private static final Card CARD =
            new Card(
                    Recovery.ID,
                    "Recovery",
                    "How much of what is there is found, and does it differ from all of it?",
                    options(),
                    quantities(),
                    List.of("calibration"));

    private RecoveryCard() {}

    static Card card() {
        return CARD;
    }

    private static List<Option> options() {
        return List.of(
                where("where", "Spiked preparations: samples to which known amounts were added."),
                text("added", "Column of the amounts added. Without it: amount."),
                text("added-u", "Column of their standard uncertainties, one error a level."),
                number(
                        "added-uncertainty",
                        "Relative standard uncertainty, percent, that all amounts added have in common."),
                where(
                        "native",
                        "Unspiked preparations of the same sample. Without it those to which 0 was added; without these nothing is subtracted, and that is said."),
                text(
                        "per",
                        "Column of the test portion: what the sample holds goes with it. Without it all preparations hold the same."),
                where(
                        "standard-addition",
                        "Preparations of one sample with amounts added from 0 on: recovery by the slope."),
                where("reference-material", "Preparations of a material of known content."),
                text("reference-amount", "Column of what the material holds."),
                text("reference-amount-u", "Column of its standard uncertainty."),
                number(
                        "reference-value",
                        "What the material holds, in the unit of the amount found, or of amount times volume over test portion."),
                number("reference-uncertainty", "Its standard uncertainty, in the same unit."),
                new Option(
                        "reference-of",
                        Form.TEXTS,
                        List.of(),
                        false,
                        "Compounds that reference-value is of; needed where there are several targets."),
                number(
                        "volume",
                        "Volume the test portion of the material was made up to, for a reference value by test portion. Without it 1."),
                where(
                        "split-injections",
                        "Hot split injections that are compared with cold ones onto the column."),
                where("on-column", "Cold injections of the same solutions onto the column."),
                number(
                        "split-ratio-uncertainty",
                        "Relative standard uncertainty of the split ratio, percent; enters where there is no internal standard."),
                new Option(
                        "decision",
                        Form.WORD,
                        List.of("correct", "include", "neither"),
                        false,
                        "What the laboratory does with the recovery: divide results by it, keep them and include the deviation in their uncertainty, or neither. Never chosen by the program: without it both ways are shown."),
                number(
                        "mass-fraction",
                        "Mass fraction of the analyte, 0 to 1: the range that others tabulate for it is told beside the recovery."));
    }

    private static List<Quantity> quantities() {
        return List.of(
                new Quantity(
                        "recovery",
                        Kind.ESTIMATE,
                        "1",
                        PLACES,
                        "Amount found over the amount that is there; of a level, or of all levels together."),
                new Quantity(
                        "recovery-t",
                        Kind.STATISTIC,
                        "1",
                        PLACES,
                        "Distance of the recovery from 1 in its standard uncertainties."),
                new Quantity(
                        "recovery-p",
                        Kind.STATISTIC,
                        "1",
                        PLACES,
                        "Probability of so large a distance if the recovery were 1."),
                new Quantity(
                        "recovery-rsd",
                        Kind.ESTIMATE,
                        "%",
                        PLACES,
                        "Relative standard deviation of the recoveries of single preparations."),
                new Quantity(
                        "recovery-homogeneity-p",
                        Kind.STATISTIC,
                        "1",
                        List.of("kind"),
                        "Probability of so large differences between levels if they had one recovery."),
                new Quantity(
                        "recovery-factor",
                        Kind.ESTIMATE,
                        "1",
                        List.of("kind", "decision"),
                        "What results are divided by: the recovery, or 1 with the deviation in its uncertainty."));
    }

    private static Option where(String name, String meaning) {
        return new Option(name, Form.WHERE, List.of(), false, meaning);
    }

    private static Option text(String name, String meaning) {
        return new Option(name, Form.TEXT, List.of(), false, meaning);
    }

    private static Option number(String name, String meaning) {
        return new Option(name, Form.NUMBER, List.of(), false, meaning);
    }
}
