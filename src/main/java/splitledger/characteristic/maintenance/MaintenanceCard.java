package splitledger.characteristic.maintenance;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** What the check after maintenance is told and what it gives. */
final class MaintenanceCard {
    static final Card CARD =
            new Card(
                    Maintenance.ID,
                    "Check after maintenance",
                    "Are the responses after the work what they were before it?",
                    List.of(
                            new Option(
                                    "where",
                                    Form.WHERE,
                                    List.of(),
                                    true,
                                    "The rows of both occasions; the column occasion tells them apart."),
                            new Option(
                                    "margin",
                                    Form.NUMBER,
                                    List.of(),
                                    true,
                                    "Largest change of a response that does not matter, in percent; set before the"
                                            + " injections."),
                            new Option(
                                    "before",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Label of the earlier occasion; without it the one that comes first."),
                            new Option(
                                    "after",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Label of the later occasion; without it the one that comes last."),
                            new Option(
                                    "occasion-scatter",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "Relative standard deviation between occasions on which nothing was done, in percent,"
                                            + " from the laboratory's own record; without it that of the characteristic"
                                            + " repeatability, else this batch of injections is compared with that"
                                            + " batch."),
                            new Option(
                                    "occasion-freedom",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "Degrees of freedom of occasion-scatter; without it taken as known."),
                            new Option(
                                    "occasion-source",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Where occasion-scatter comes from, in words.")),
                    List.of(
                            new Quantity(
                                    "response-change",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of(),
                                    "Response after over response before."),
                            statistic(
                                    "equivalence-p",
                                    "Probability of so small a change if it were the margin."),
                            statistic(
                                    "restored",
                                    "1 if every response is shown to be within the margin, 0 if one is shown to be"
                                            + " outside."),
                            statistic(
                                    "injections-needed",
                                    "Injections an occasion for the next check, decided before it.")),
                    List.of());

    private static Quantity statistic(String name, String meaning) {
        return new Quantity(name, Kind.STATISTIC, "1", List.of(), meaning);
    }

    private MaintenanceCard() {}
}
