package splitledger.virtual;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.CsvText;

/** What the bench writes down of every injection. */
final class RunList {
    private static final String OIL = "oil";

    private final Design design;
    private final VirtualInlet inlet;

    RunList(Design design, VirtualInlet inlet) {
        this.design = design;
        this.inlet = inlet;
    }

    /** Headings by canonical name, where the two differ. */
    static Map<String, String> headings(Design design) {
        final Map<String, String> all = new LinkedHashMap<>();
        all.put("order", "Order");
        all.put("series", "Experiment");
        all.put("preparation", "Flask");
        all.put("level", "Level");
        if (design.split().columns().ratio()) {
            all.put("split_ratio", "Split");
        }
        all.put("day", "Day");
        all.put("analyst", "Who");
        all.put("occasion", "Occasion");
        all.put("inlet_temperature", "Temperature");
        if (!design.instrumentLabels().isEmpty()) {
            all.put("instrument", "Instrument");
        }
        return Collections.unmodifiableMap(all);
    }

    private List<String> columns() {
        final Map<String, String> names = headings(design);
        final List<String> columns =
                new ArrayList<>(
                        List.of("injection", "Order", "acquired", "Experiment", "Flask", "Level"));
        for (String heading : List.of("Split", "Day", "Who", "Occasion", "Temperature")) {
            if (names.containsValue(heading)) {
                columns.add(heading);
            }
        }
        if (!design.oils().isEmpty()) {
            columns.add(OIL);
        }
        if (names.containsKey("instrument")) {
            columns.add("Instrument");
        }
        if (design.split().columns().flows()) {
            columns.add("split_flow");
            columns.add("column_flow");
        }
        return columns;
    }

    byte[] bytes() {
        final List<String> columns = columns();
        final CsvText csv = new CsvText(columns);
        for (Injection i : inlet.plan()) {
            csv.cell(i.label())
                    .cell(i.order())
                    .cell(text(i.acquired()))
                    .cell(i.experiment())
                    .cell(i.flask().label())
                    .cell(i.flask().level());
            if (design.split().columns().ratio()) {
                csv.cell(design.split().table().of(i.split()));
            }
            csv.cell(i.day()).cell(i.analyst()).cell(i.occasion()).cell(i.temperature());
            if (columns.contains(OIL)) {
                portion(csv, i.flask());
            }
            if (columns.contains("Instrument")) {
                csv.cell(i.instrument());
            }
            if (design.split().columns().flows()) {
                final double column = design.inlet().columnFlow().value();
                csv.cell((i.split() - 1) * column).cell(column);
            }
            csv.endRow();
        }
        return csv.bytes();
    }

    private void portion(CsvText csv, Flask flask) {
        if (flask.oil().isEmpty()) {
            csv.empty();
        } else {
            csv.cell(inlet.solutions().portion(flask));
        }
    }

    /** ISO 8601 to the second. */
    private static String text(LocalDateTime time) {
        final StringBuilder text = new StringBuilder(time.toLocalDate().toString()).append('T');
        two(text, time.getHour());
        two(text.append(':'), time.getMinute());
        two(text.append(':'), time.getSecond());
        return text.toString();
    }

    private static void two(StringBuilder text, int number) {
        text.append((char) ('0' + number / 10)).append((char) ('0' + number % 10));
    }
}
