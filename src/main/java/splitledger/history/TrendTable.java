package splitledger.history;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import splitledger.base.CodePoints;
import splitledger.base.CsvText;

/** The table of a trend: a row a value, a row a work on an instrument. {@code trend} reads it. */
final class TrendTable {
    /** In the column characteristic of work on an instrument; the quantity says what. */
    static final String WORK = "work";

    /** What tells a value; any table that holds these columns can be read. */
    static final List<String> DATED =
            List.of(
                    "instrument",
                    "time",
                    "characteristic",
                    "compound",
                    "condition",
                    "quantity",
                    "method",
                    "value",
                    "standard_uncertainty",
                    "degrees_of_freedom",
                    "interval_lower",
                    "interval_upper",
                    "unit",
                    "dossier",
                    "reason");

    private static final List<String> CHARTED =
            List.of(
                    "stretch",
                    "sets_limits",
                    "scale",
                    "centre",
                    "lower_limit",
                    "upper_limit",
                    "moving_range",
                    "moving_range_limit",
                    "deviation",
                    "average",
                    "average_lower_limit",
                    "average_upper_limit",
                    "signals",
                    "standing");

    private final CsvText csv;

    private TrendTable() {
        csv = new CsvText(header());
    }

    /** All columns. */
    static List<String> header() {
        final List<String> header = new ArrayList<>(DATED);
        header.addAll(CHARTED);
        return header;
    }

    static byte[] of(History history, List<Chart> charts) {
        final TrendTable table = new TrendTable();
        history.works().stream()
                .sorted(
                        Comparator.comparing(History.Work::instrument, CodePoints.ORDER)
                                .thenComparingDouble(History.Work::days)
                                .thenComparing(History.Work::what, CodePoints.ORDER))
                .forEach(table::work);
        for (Chart chart : charts) {
            chart.points().forEach(p -> table.point(chart, p));
            chart.missing().forEach(table::missing);
        }
        return table.csv.bytes();
    }

    private void work(History.Work work) {
        csv.cell(work.instrument()).cell(work.date()).cell(WORK).empty().empty();
        csv.cell(work.what());
        for (int i = 6; i < header().size(); i++) {
            csv.empty();
        }
        csv.endRow();
    }

    private void missing(DatedValue value) {
        dated(value);
        CHARTED.forEach(c -> csv.empty());
        csv.endRow();
    }

    private void point(Chart chart, ChartPoint p) {
        dated(p.value());
        csv.cell(p.stretch()).cell(p.base() ? "yes" : "no").cell(chart.scale().words());
        number(p.centre());
        number(p.lower());
        number(p.upper());
        number(p.range());
        number(p.rangeUpper());
        number(p.z());
        number(p.average());
        number(p.averageLower());
        number(p.averageUpper());
        csv.cell(
                p.signals().stream()
                        .map(
                                s ->
                                        s.kind().code()
                                                + (s.side() > 0
                                                        ? " up"
                                                        : s.side() < 0 ? " down" : ""))
                        .collect(Collectors.joining("; ")));
        csv.cell(p.equals(chart.last()) ? chart.standing().code() : "");
        csv.endRow();
    }

    private void dated(DatedValue v) {
        csv.cell(v.instrument()).cell(v.time()).cell(v.characteristic()).cell(v.compound());
        csv.cell(v.condition()).cell(v.quantity()).cell(v.method());
        number(v.value());
        number(v.standardUncertainty());
        number(v.degreesOfFreedom());
        number(v.lower());
        number(v.upper());
        csv.cell(v.unit()).cell(v.dossier()).cell(v.reason());
    }

    private void number(double value) {
        if (Double.isNaN(value) || value == Double.NEGATIVE_INFINITY) {
            csv.empty();
        } else {
            csv.cell(value);
        }
    }
}
