package splitledger.characteristic;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.State;

/**
 * Whether a table is what instruments leave: no injection is the exact copy of another, and time
 * runs forward. Flags only.
 */
final class Integrity {
    private static final int LEAST_AREAS = 2;

    private Integrity() {}

    /** All flags, in the order of the table. */
    static List<Flag> of(InjectionTable table) {
        final Map<String, StringBuilder> areas = new LinkedHashMap<>();
        final Map<String, Integer> counts = new LinkedHashMap<>();
        final Map<String, Integer> firstRows = new LinkedHashMap<>();
        for (int row = 0; row < table.size(); row++) {
            final String injection = table.injection(row);
            firstRows.putIfAbsent(injection, row);
            if (table.state(row) == State.MEASURED) {
                counts.merge(injection, 1, Integer::sum);
                areas.computeIfAbsent(injection, i -> new StringBuilder())
                        .append(table.compound(row))
                        .append('\t')
                        .append(Numbers.text(table.area(row)))
                        .append('\n');
            }
        }
        final List<Flag> flags = new ArrayList<>();
        final Map<String, String> seen = new LinkedHashMap<>();
        areas.forEach(
                (injection, text) -> {
                    final String other = seen.putIfAbsent(text.toString(), injection);
                    if (other != null && counts.getOrDefault(injection, 0) >= LEAST_AREAS) {
                        flags.add(
                                new Flag(
                                        table.place(firstRows.getOrDefault(injection, 0)),
                                        "injection " + injection,
                                        "every area is the same to the last digit as in injection "
                                                + other
                                                + ": one chromatogram twice?"));
                    }
                });
        flags.addAll(backwards(table, firstRows));
        return flags;
    }

    /** Time stamps of one form that run backwards in the order of the runs. */
    private static List<Flag> backwards(InjectionTable table, Map<String, Integer> firstRows) {
        final List<Flag> flags = new ArrayList<>();
        String before = "";
        String label = "";
        for (Map.Entry<String, Integer> e : firstRows.entrySet()) {
            final String acquired = table.label("acquired", e.getValue());
            final boolean comparable = acquired.length() == before.length() && !before.isEmpty();
            if (comparable && acquired.compareTo(before) < 0) {
                flags.add(
                        new Flag(
                                table.place(e.getValue()),
                                "injection " + e.getKey(),
                                "acquired "
                                        + acquired
                                        + ", before injection "
                                        + label
                                        + " ("
                                        + before
                                        + ") that stands above it"));
            }
            before = acquired.isEmpty() ? before : acquired;
            label = acquired.isEmpty() ? label : e.getKey();
        }
        return flags;
    }
}
