package splitledger.qualification;

import java.util.ArrayList;
import java.util.List;
import splitledger.base.CsvText;
import splitledger.base.Numbers;
import splitledger.qualification.Qualification.Outcome;
import splitledger.report.PlainTable;

/** The record of a qualification as files. */
public final class QualificationRecord {
    private static final List<String> COLUMNS =
            List.of(
                    "case",
                    "study",
                    "quantity",
                    "source",
                    "expected",
                    "tolerance",
                    "computed",
                    "agreed_digits",
                    "pass");
    private static final List<String> HEADINGS =
            List.of(
                    "Case",
                    "Study",
                    "Quantity",
                    "Source of the expected value",
                    "Expected",
                    "May differ by",
                    "Computed",
                    "Agreed digits",
                    "Pass");

    private QualificationRecord() {}

    /** How many cases passed. */
    public static long passed(List<Outcome> outcomes) {
        return outcomes.stream().filter(Outcome::pass).count();
    }

    /** The agreed digits, or nothing for words. */
    public static String digits(Outcome outcome) {
        return outcome.digits().isPresent() ? Numbers.text(outcome.digits().getAsDouble()) : "";
    }

    /** A row for each case, with every digit. */
    public static byte[] csv(List<Outcome> outcomes) {
        final CsvText csv = new CsvText(COLUMNS);
        for (Outcome o : outcomes) {
            for (String cell : cells(o)) {
                // numbers stand as they are written, a minus is no formula there
                if (cell.matches("-?[0-9.]+(e-?[0-9]+)?")) {
                    csv.cell(Double.parseDouble(cell));
                } else {
                    csv.cell(cell);
                }
            }
            csv.endRow();
        }
        return csv.bytes();
    }

    private static List<String> cells(Outcome o) {
        final ReferenceCase k = o.known();
        final List<String> cells = new ArrayList<>();
        cells.addAll(List.of(k.id(), k.study(), k.what(), k.source(), k.expected()));
        cells.addAll(List.of(Numbers.text(k.tolerance()), o.computed(), digits(o)));
        cells.add(o.pass() ? "yes" : "no");
        return cells;
    }

    /**
     * The record as a page.
     *
     * @param lines what was tried and on which machine
     */
    public static byte[] html(List<Outcome> outcomes, List<String> lines) {
        final List<PlainTable.Row> rows =
                outcomes.stream().map(o -> new PlainTable.Row(cells(o), !o.pass())).toList();
        final List<String> lead = new ArrayList<>(lines);
        lead.add(
                "Every case was read and evaluated by the functions that evaluate every study. The"
                        + " expected value stands as it was published; the computed one may differ by"
                        + " half a unit of the last published digit, or by more where the source says"
                        + " why. Agreed digits: minus the decimal logarithm of the relative difference.");
        lead.add(
                "The record shows that the program computes these cases on this machine. Whether"
                        + " they are enough for the work of a laboratory, its competent person decides"
                        + " (ISO/IEC 17025:2017, 7.11.2).");
        return new PlainTable(
                        "Qualification of splitledger",
                        lead,
                        passed(outcomes) + " of " + outcomes.size() + " cases pass",
                        HEADINGS,
                        rows)
                .html();
    }
}
