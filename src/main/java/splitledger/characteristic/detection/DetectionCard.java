package splitledger.characteristic.detection;

import java.util.List;
import splitledger.characteristic.calibration.Calibration;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** Options and quantities of the detection limits. */
final class DetectionCard {
    private static final Card CARD =
            new Card(
                    Detection.ID,
                    "Detection limits",
                    "How little can be told from nothing?",
                    List.of(
                            new Option(
                                    "where",
                                    Form.WHERE,
                                    List.of(),
                                    true,
                                    "Calibrants and blanks; injections without an amount above 0 are the blanks."),
                            new Option(
                                    "blanks",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "The blanks, where they are other rows."),
                            new Option(
                                    "spiked",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "Low-level spiked preparations for the US method detection limit."),
                            new Option(
                                    "verification",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "Independent preparations at the claimed quantification limit (column amount)."),
                            new Option(
                                    "recovery-allowed",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "How far, in percent, their mean recovery may be from 100 %."),
                            new Option(
                                    "rsd-allowed",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "How large, in percent, their relative standard deviation may be."),
                            new Option(
                                    "signal-to-noise",
                                    Form.WORD,
                                    List.of("2H/h", "H/h"),
                                    false,
                                    "Which signal-to-noise ratio is meant (H peak height, h noise)."),
                            new Option(
                                    "noise-is",
                                    Form.WORD,
                                    List.of("peak-to-peak", "RMS"),
                                    false,
                                    "Which noise stands in the column noise."),
                            new Option(
                                    "groups",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column whose labels are groups with a calibration of their own each; their detection limits are compared."),
                            new Option(
                                    "reference-group",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Group that the others are compared with. Without it the first of the table.")),
                    List.of(
                            estimate(
                                    "critical-value",
                                    "Amount found above which something is there, by its document's definition."),
                            estimate(
                                    "detection-limit",
                                    "Amount that is detected, by its document's definition."),
                            estimate(
                                    "quantification-limit",
                                    "Amount that is quantified, by its document's definition."),
                            new Quantity(
                                    "method-detection-limit",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("form"),
                                    "A critical value at a false-positive risk of 1 %."),
                            new Quantity(
                                    "limit-verified",
                                    Kind.STATISTIC,
                                    "1",
                                    List.of(),
                                    "Whether preparations at the claimed limit are found as the laboratory allows: 1 or 0."),
                            new Quantity(
                                    "signal-to-noise-limit",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("ratio"),
                                    "Amount at a signal-to-noise ratio."),
                            new Quantity(
                                    "detection-limit-ratio",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("factor", "group", "reference"),
                                    "Detection limit of a group over that of the reference group."),
                            new Quantity(
                                    "expected-false-positive-rate",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("calibration"),
                                    "How often nothing would be taken for something."),
                            new Quantity(
                                    "expected-false-negative-rate",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("calibration"),
                                    "How often an amount at the detection limit would be missed.")),
                    List.of(Calibration.ID));

    private DetectionCard() {}

    static Card card() {
        return CARD;
    }

    private static Quantity estimate(String name, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, "amount", List.of(), meaning);
    }
}
