package splitledger.history;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.Sheet;
import splitledger.intake.SheetReader;

/**
 * The past of instruments out of one table with a row a value: the columns of {@code trend.csv} as
 * far as they tell a value, or the results of many studies gathered elsewhere.
 */
public final class TableHistory implements HistorySource {
    private static final List<String> NEEDED =
            List.of("instrument", "time", "characteristic", "quantity", "value");

    private final Vault vault;
    private final String name;
    private final List<Problem> problems = new ArrayList<>();
    private final Map<String, History.Dated> studies = new LinkedHashMap<>();
    private final List<DatedValue> values = new ArrayList<>();
    private final Set<History.Work> works = new LinkedHashSet<>();
    private final Set<History.LeftOut> leftOut = new LinkedHashSet<>();

    /**
     * Of a table.
     *
     * @param name in the vault
     */
    public TableHistory(Vault vault, String name) {
        this.vault = vault;
        this.name = name;
    }

    @Override
    public History read() throws ProblemException, IOException {
        final Sheet sheet = SheetReader.read(vault, name, List.of(name)).get(0);
        for (String column : NEEDED) {
            if (!sheet.headings().contains(column)) {
                problems.add(
                        new Problem(
                                name,
                                1,
                                column,
                                "no such column",
                                "a row a value with the columns " + String.join(", ", NEEDED),
                                "name a folder of dossiers, or a table with these headings"));
            }
        }
        if (sheet.cut()) {
            problems.add(
                    new Problem(
                            name, 0, "", "more rows than are read", "a smaller table", "split it"));
        }
        if (problems.isEmpty()) {
            sheet.rows().forEach(row -> take(new Cells(sheet.headings(), row)));
        }
        if (problems.isEmpty() && studies.isEmpty()) {
            problems.add(
                    new Problem(
                            name,
                            0,
                            "",
                            "no row of a watched quantity",
                            "rows such as heavy-to-light-ratio with instrument and time",
                            "'splitledger explain trend' names the quantities"));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return new History(
                List.copyOf(studies.values()), values, List.copyOf(works), List.copyOf(leftOut));
    }

    /** One row by heading. */
    private record Cells(List<String> headings, Sheet.Row row) {
        String text(String heading) {
            final int at = headings.indexOf(heading);
            return at < 0 ? "" : row.cells().get(at);
        }

        String either(String heading, String other) {
            return headings.contains(heading) ? text(heading) : text(other);
        }
    }

    private void take(Cells cells) {
        final boolean work = cells.text("characteristic").equals(TrendTable.WORK);
        if (!work && Watched.of(cells.text("characteristic"), cells.text("quantity")).isEmpty()) {
            return;
        }
        final String instrument = cells.text("instrument");
        final String time = cells.text("time");
        final String dossier =
                cells.text("dossier").isEmpty() ? "of " + time : cells.text("dossier");
        if (instrument.isEmpty() || time.isEmpty()) {
            leftOut.add(
                    new History.LeftOut(
                            dossier,
                            "no " + (instrument.isEmpty() ? "instrument" : "time") + " in its rows",
                            false));
            return;
        }
        if (StudyTime.days(time).isEmpty()) {
            problem(cells, "time", time, "an ISO 8601 date or time such as 2026-03-04");
            return;
        }
        if (work) {
            works.add(new History.Work(instrument, time, cells.text("quantity")));
            return;
        }
        studies.putIfAbsent(
                instrument + "\t" + dossier,
                new History.Dated(dossier, instrument, time, "column time"));
        values.add(value(cells, instrument, time, dossier));
    }

    private DatedValue value(Cells cells, String instrument, String time, String dossier) {
        final String status = cells.text("status");
        final boolean bare = !status.isEmpty() && !status.equals("estimable");
        final double value = bare ? Double.NaN : number(cells, "value", cells.text("value"));
        final String reason = cells.text("reason");
        final String why = bare ? status : "no-value";
        return new DatedValue(
                instrument,
                time,
                dossier,
                cells.text("characteristic"),
                cells.text("compound"),
                cells.text("condition"),
                cells.text("quantity"),
                cells.text("method"),
                cells.text("unit"),
                value,
                number(cells, "standard_uncertainty", cells.either("standard_uncertainty", "u")),
                number(cells, "degrees_of_freedom", cells.either("degrees_of_freedom", "df")),
                number(cells, "interval_lower", cells.either("interval_lower", "lower")),
                number(cells, "interval_upper", cells.either("interval_upper", "upper")),
                Double.isFinite(value) ? "" : reason.isEmpty() ? why : reason);
    }

    private double number(Cells cells, String column, String text) {
        final double number = ResultRows.parsed(text);
        if (!text.isEmpty() && Double.isNaN(number)) {
            problem(cells, column, "'" + text + "'", "a number with a decimal point, or nothing");
        }
        return number;
    }

    private void problem(Cells cells, String column, String found, String expected) {
        problems.add(new Problem(name, cells.row().line(), column, found, expected, ""));
    }
}
