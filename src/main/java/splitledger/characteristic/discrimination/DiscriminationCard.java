package splitledger.characteristic.discrimination;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** What discrimination takes and gives. */
final class DiscriminationCard {
    static final String ON_COLUMN = "on-column";
    static final String CERTIFIED = "certified";

    static final Card CARD =
            new Card(
                    Discrimination.ID,
                    "Discrimination by boiling point",
                    "Does the fraction that reaches the column depend on the boiling point?",
                    List.of(
                            new Option(
                                    "where",
                                    Form.WHERE,
                                    List.of(),
                                    true,
                                    "The rows of the ladder."),
                            new Option(
                                    "reference",
                                    Form.TEXT,
                                    List.of(),
                                    true,
                                    "Member of the ladder that the others are compared with."),
                            new Option(
                                    "expected",
                                    Form.WORD,
                                    List.of("carbon-number", CERTIFIED, ON_COLUMN),
                                    false,
                                    "What the responses would be without discrimination: by effective carbon number"
                                            + " (flame ionisation only; the usual one), by certified factors in a column,"
                                            + " or as the same solution gave cold on the column."),
                            new Option(
                                    "factor",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column of the certified response factors, response per amount."),
                            new Option(
                                    "cold",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "Rows of the same solution injected cold onto the column."),
                            new Option(
                                    "extrapolate",
                                    Form.WORD,
                                    List.of("yes", "no"),
                                    false,
                                    "Whether factors are given beyond the ladder, marked as such; without it they are not.")),
                    List.of(
                            quantity(
                                    "relative-response",
                                    "1",
                                    List.of("reference", "occasion"),
                                    "Response of a member against the reference, each over what its mass lets expect."),
                            quantity(
                                    "heavy-to-light-ratio",
                                    "1",
                                    List.of("reference", "occasion"),
                                    "The same of a heavy member, as criteria name it."),
                            quantity(
                                    "discrimination-per-100C",
                                    "%",
                                    List.of("occasion"),
                                    "Mean change of response per 100 degC of boiling point."),
                            quantity(
                                    "onset-boiling-point",
                                    "degC",
                                    List.of("occasion"),
                                    "Where two straight pieces meet that describe the ladder best."),
                            quantity(
                                    "discrimination-factor",
                                    "1",
                                    List.of("reference", "occasion"),
                                    "What the curve gives for a target, against the reference.")),
                    List.of());

    private DiscriminationCard() {}

    private static Quantity quantity(
            String name, String unit, List<String> conditions, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, unit, conditions, meaning);
    }
}
