package splitledger.qualification;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.CsvText;
import splitledger.base.Digests;
import splitledger.base.Numbers;
import splitledger.dossier.ProgramVersion;
import splitledger.qualification.Qualification.Outcome;
import splitledger.report.Page;
import splitledger.report.PaperRecord;
import splitledger.report.PaperStamp;
import splitledger.report.PlainTable;

/** The record of a qualification as files. */
public final class QualificationRecord {
    /** Name of the record as a table. */
    public static final String CSV = "qualification.csv";

    /** Name of the record as a page. */
    public static final String HTML = "qualification.html";

    /** Name of the record on paper. */
    public static final String PDF = "qualification.pdf";

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

    private static final String TITLE = "Qualification of splitledger";
    private static final String HOW =
            "Every case was read and evaluated by the functions that evaluate every study. The"
                    + " expected value stands as it was published; the computed one may differ by"
                    + " half a unit of the last published digit, or by more where the source says"
                    + " why. Agreed digits: minus the decimal logarithm of the relative difference.";
    private static final String WHAT_IT_SHOWS =
            "The record shows that the program computes these cases on this machine. Whether"
                    + " they are enough for the work of a laboratory, its competent person decides"
                    + " (ISO/IEC 17025:2017, 7.11.2).";
    private static final List<String> STATEMENT =
            List.of(
                    "Installed on (machine, place)",
                    "Tried beside these cases (own data, recalculation)",
                    "The program is fit for",
                    "not fit for, or only with these conditions",
                    "To be repeated on, or after");

    /** Widths of the columns on paper but that of the study, in percent. */
    private static final List<Integer> WIDTHS = List.of(15, 19, 19, 15, 7, 16, 5, 4);

    private QualificationRecord() {}

    /**
     * What was tried and where.
     *
     * @param program name and version
     * @param machine system and Java
     */
    public record Tried(String program, String machine) {}

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
     * @param tried what was tried and on which machine
     */
    public static byte[] html(List<Outcome> outcomes, Tried tried) {
        final List<String> lead = new ArrayList<>(List.of(tried.program(), tried.machine()));
        lead.add(HOW);
        lead.add(WHAT_IT_SHOWS);
        return new PlainTable(TITLE, lead, count(outcomes), HEADINGS, rows(outcomes)).html();
    }

    /**
     * The record on paper, to be signed: what came out, a statement of fitness to fill in by hand,
     * and the cases of each study. The digest on every sheet is that of the record as a table.
     *
     * @param tried what was tried and on which machine
     * @param version of the program
     * @throws IOException if it cannot be made
     */
    public static byte[] pdf(List<Outcome> outcomes, Tried tried, ProgramVersion version)
            throws IOException {
        final Map<String, List<Outcome>> byStudy = new LinkedHashMap<>();
        for (Outcome o : outcomes) {
            byStudy.computeIfAbsent(o.known().study(), s -> new ArrayList<>()).add(o);
        }
        final List<PlainTable> tables = new ArrayList<>();
        byStudy.forEach(
                (study, own) ->
                        tables.add(
                                new PlainTable(
                                        study + ": " + count(own),
                                        List.of(),
                                        study,
                                        without(HEADINGS),
                                        own.stream().map(QualificationRecord::ofStudy).toList())));
        return new PaperRecord(
                        TITLE,
                        List.of(
                                new Page.Fact("Program", tried.program()),
                                new Page.Fact("Machine", tried.machine())),
                        List.of(count(outcomes) + failures(outcomes), HOW, WHAT_IT_SHOWS),
                        STATEMENT,
                        "The cases",
                        WIDTHS,
                        tables,
                        "SHA-256 of " + CSV)
                .pdf(
                        new PaperStamp(
                                version.program(),
                                version.revision(),
                                Digests.sha256(csv(outcomes))));
    }

    private static String count(List<Outcome> outcomes) {
        return passed(outcomes) + " of " + outcomes.size() + " cases pass";
    }

    private static String failures(List<Outcome> outcomes) {
        final List<String> failed =
                outcomes.stream().filter(o -> !o.pass()).map(o -> o.known().id()).toList();
        return failed.isEmpty() ? "." : ". These do not: " + String.join(", ", failed) + ".";
    }

    private static List<PlainTable.Row> rows(List<Outcome> outcomes) {
        return outcomes.stream().map(o -> new PlainTable.Row(cells(o), !o.pass())).toList();
    }

    /** A row below the name of its study. */
    private static PlainTable.Row ofStudy(Outcome outcome) {
        return new PlainTable.Row(without(cells(outcome)), !outcome.pass());
    }

    /** Without the cell that names the study. */
    private static List<String> without(List<String> cells) {
        final List<String> others = new ArrayList<>(cells);
        others.remove(COLUMNS.indexOf("study"));
        return others;
    }
}
