package splitledger.history;

import java.util.ArrayList;
import java.util.List;
import splitledger.study.Study;

/** Rows of a dossier's results as dated values; only those that are watched. */
final class ResultRows {
    private final List<String> header;
    private final List<String> row;

    private ResultRows(List<String> header, List<String> row) {
        this.header = header;
        this.row = row;
    }

    /**
     * Watched rows.
     *
     * @param results rows of results.csv, the header first
     */
    static List<DatedValue> of(
            List<List<String>> results, String instrument, String time, String dossier) {
        final List<DatedValue> values = new ArrayList<>();
        for (List<String> row : results.subList(Math.min(1, results.size()), results.size())) {
            final ResultRows cells = new ResultRows(results.get(0), row);
            if (Watched.of(cells.text("characteristic"), cells.text("quantity")).isPresent()) {
                values.add(cells.value(instrument, time, dossier));
            }
        }
        return values;
    }

    private DatedValue value(String instrument, String time, String dossier) {
        final boolean given = text("status").equals("estimable");
        final String reason = text("reason");
        return new DatedValue(
                instrument,
                time,
                dossier,
                text("characteristic"),
                text("compound"),
                text("condition"),
                text("quantity"),
                text("method"),
                text("unit"),
                given ? number("value") : Double.NaN,
                given ? number("standard_uncertainty") : Double.NaN,
                given ? number("degrees_of_freedom") : Double.NaN,
                given ? number("lower") : Double.NaN,
                given ? number("upper") : Double.NaN,
                given ? "" : reason.isEmpty() ? text("status") : reason);
    }

    private String text(String heading) {
        final int at = header.indexOf(heading);
        return at < 0 || at >= row.size() ? "" : row.get(at);
    }

    private double number(String heading) {
        return parsed(text(heading));
    }

    /** NaN for what is no number; {@code inf} is infinite. */
    static double parsed(String text) {
        if (text.equals("inf")) {
            return Double.POSITIVE_INFINITY;
        }
        try {
            return Double.parseDouble(text);
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    /** The areas of the internal standard as two dated values. */
    static List<DatedValue> areas(
            StandardAreas.Areas areas,
            Study study,
            String instrument,
            String time,
            String dossier) {
        final String compound =
                study.compounds().internalStandard().map(s -> s.compound()).orElse("");
        return List.of(
                new DatedValue(
                        instrument,
                        time,
                        dossier,
                        StandardAreas.CHARACTERISTIC,
                        compound,
                        areas.condition(),
                        StandardAreas.AREA,
                        "geometric mean",
                        study.protocol().conventions().areaUnit(),
                        areas.area(),
                        areas.areaUncertainty(),
                        areas.freedom(),
                        Double.NaN,
                        Double.NaN,
                        ""),
                new DatedValue(
                        instrument,
                        time,
                        dossier,
                        StandardAreas.CHARACTERISTIC,
                        compound,
                        areas.condition(),
                        StandardAreas.SPREAD,
                        "scatter of logarithms",
                        "%",
                        areas.spread(),
                        Double.NaN,
                        Double.NaN,
                        Double.NaN,
                        Double.NaN,
                        ""));
    }
}
