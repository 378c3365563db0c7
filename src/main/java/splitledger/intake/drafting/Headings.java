package splitledger.intake.drafting;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Headings under which columns commonly go, by the name that the program knows them under: plain
 * words of the trade, no export of any particular data system.
 */
final class Headings {
    /** Score of a heading that is the program's own name. */
    static final int OWN = 100;

    private static final int WHOLE = 80;
    private static final int PART = 40;

    /** Names that hold numbers. */
    private static final List<String> NUMBERS =
            List.of(
                    "area",
                    "amount",
                    "amount_u",
                    "order",
                    "split_ratio",
                    "split_flow",
                    "column_flow",
                    "inlet_temperature",
                    "height",
                    "noise",
                    "retention",
                    "width");

    private static final Map<String, List<String>> WORDS = words();

    private Headings() {}

    /** Every name, those that matter most first. */
    static List<String> names() {
        return List.copyOf(WORDS.keySet());
    }

    /** Whether the name stands for a column of numbers. */
    static boolean isNumber(String name) {
        return NUMBERS.contains(name);
    }

    /** How well a heading fits a name; 0 for not at all. */
    static int score(Column column, String name) {
        if (column.heading().equals(name)) {
            return OWN;
        }
        int best = 0;
        for (String words : WORDS.getOrDefault(name, List.of())) {
            if (column.words().equals(words)) {
                best = Math.max(best, WHOLE);
            } else if (words.length() > 2
                    && (" " + column.words() + " ").contains(" " + words + " ")) {
                best = Math.max(best, PART + words.length());
            }
        }
        return Math.min(best, WHOLE);
    }

    private static Map<String, List<String>> words() {
        final Map<String, List<String>> words = new LinkedHashMap<>();
        put(words, "compound", "compound", "component", "analyte", "substance", "peak name");
        put(words, "area", "area", "peak area", "response", "integral");
        put(words, "series", "series", "experiment", "type", "sample type", "study", "category");
        put(words, "acquired", "acquired", "acquisition time", "date time", "injected at");
        put(words, "acquired", "injection time", "time stamp", "timestamp");
        put(words, "split_ratio", "split ratio", "split");
        put(words, "split_flow", "split flow", "vent flow", "split vent flow");
        put(words, "column_flow", "column flow");
        put(words, "inlet_temperature", "inlet temperature", "inlet temp", "injector temperature");
        put(words, "inlet_temperature", "inlet", "temperature");
        put(words, "amount_u", "amount u", "amount uncertainty", "standard uncertainty");
        put(words, "amount", "amount", "concentration", "conc", "true conc", "nominal");
        put(words, "amount", "calibration amount", "nominal amount", "nominal concentration");
        put(words, "level", "level", "cal level", "calibration level", "standard level");
        put(words, "preparation", "preparation", "prep", "flask", "solution", "standard id");
        put(words, "vial", "vial", "position");
        put(words, "day", "day", "date", "injection date", "run date", "analysis date");
        put(words, "analyst", "analyst", "operator", "who", "technician", "person");
        put(words, "instrument", "instrument", "system");
        put(words, "occasion", "occasion", "maintenance");
        put(words, "batch", "batch");
        put(words, "matrix", "matrix");
        put(words, "liner", "liner");
        put(words, "order", "order", "run order", "sequence", "run number", "no", "nr");
        put(words, "height", "height", "peak height");
        put(words, "noise", "noise");
        put(words, "retention", "retention", "retention time", "rt");
        put(words, "width", "width", "peak width");
        put(words, "integration", "integration", "integration mode");
        put(words, "injection", "injection", "injection id", "injection no", "inj", "run");
        put(words, "injection", "run id", "sample id", "sample name", "sample", "data file");
        put(words, "injection", "file name", "file", "chromatogram", "id", "name");
        return words;
    }

    private static void put(Map<String, List<String>> into, String name, String... words) {
        final List<String> all = new java.util.ArrayList<>(into.getOrDefault(name, List.of()));
        all.addAll(List.of(words));
        into.put(name, List.copyOf(all));
    }
}
