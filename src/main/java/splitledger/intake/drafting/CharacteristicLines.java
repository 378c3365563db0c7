package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Writes which rows serve which characteristic, and what the results are. */
final class CharacteristicLines {
    private static final List<String> FACTORS =
            List.of("day", "analyst", "instrument", "batch", "liner");

    private final Facts facts;
    private final Offered offered;
    private final Map<SeriesKind, List<String>> series = new LinkedHashMap<>();

    CharacteristicLines(Facts facts, Offered offered) {
        this.facts = facts;
        this.offered = offered;
        for (String label : facts.labels("series", facts.injections())) {
            series.computeIfAbsent(SeriesKind.of(label), k -> new ArrayList<>()).add(label);
        }
    }

    void write(Page page, Map<String, List<String>> remarks) {
        final Map<String, Map<String, String>> blocks = blocks();
        final boolean any = blocks.keySet().stream().anyMatch(offered::has);
        page.note(0, "Which rows serve what. The statistics choose themselves and say why.");
        unclear(page);
        page.line(0, any ? "characteristics:" : "characteristics: {}");
        for (Map.Entry<String, Map<String, String>> e : blocks.entrySet()) {
            if (offered.has(e.getKey())) {
                remarks.getOrDefault(e.getKey(), List.of()).forEach(r -> page.note(1, r));
                block(page, e.getKey(), e.getValue());
            } else {
                page.note(
                        1,
                        e.getKey()
                                + ": the tables have rows for it ("
                                + e.getValue().getOrDefault("where", "")
                                + "), but this version does not evaluate it.");
            }
        }
        for (String id : offered.blocks().keySet()) {
            if (!blocks.containsKey(id)) {
                page.note(1, id + ": no series of the tables looks as if it were for it.");
                remarks.getOrDefault(id, List.of()).forEach(r -> page.note(1, r));
            }
        }
    }

    private void unclear(Page page) {
        final List<String> others = series.getOrDefault(SeriesKind.OTHER, List.of());
        if (!others.isEmpty()) {
            page.note(
                    0,
                    "Series whose use the label does not tell: "
                            + Drafter.listed(others)
                            + ". Name them in a where below if they belong there.");
        }
    }

    private void block(Page page, String id, Map<String, String> options) {
        page.line(1, id + ":");
        final Offered.Block block = offered.block(id);
        options.forEach(
                (name, value) -> {
                    if (block.has(name)) {
                        page.line(2, name + ": " + value);
                    }
                });
        if (block.has("per")) {
            rowNumbers()
                    .forEach(
                            c ->
                                    page.note(
                                            2,
                                            "per: "
                                                    + Page.quoted(c.heading())
                                                    + " would divide each response by that column:"
                                                    + " needed if it is the test portion."));
        }
        block.options()
                .forEach(
                        (name, option) -> {
                            if (option.required() && !options.containsKey(name)) {
                                page.ask(2, name, option.meaning(), "");
                            }
                        });
    }

    /** Options by id of every characteristic that has rows. */
    private Map<String, Map<String, String>> blocks() {
        final Map<String, Map<String, String>> blocks = new LinkedHashMap<>();
        final Optional<String> calibrants = where(SeriesKind.CALIBRATION);
        if (calibrants.isPresent()) {
            put(blocks, "calibration", calibrants.get());
        } else if (!facts.has("series") && facts.hasAmounts()) {
            put(blocks, "calibration", "{amount: {at-least: 0}}");
        }
        where(SeriesKind.REPEATABILITY)
                .ifPresent(
                        w -> {
                            put(blocks, "repeatability", w);
                            final List<String> factors = factors();
                            if (!factors.isEmpty()) {
                                add(
                                        blocks,
                                        "repeatability",
                                        "factors",
                                        "[" + String.join(", ", factors) + "]");
                            }
                        });
        detection(blocks);
        where(SeriesKind.SPLIT).ifPresent(w -> put(blocks, "split-linearity", w));
        where(SeriesKind.LADDER).ifPresent(w -> put(blocks, "discrimination", w));
        where(SeriesKind.INLET).ifPresent(w -> put(blocks, "losses", w));
        where(SeriesKind.SPIKE).ifPresent(w -> put(blocks, "recovery", w));
        return blocks;
    }

    private void detection(Map<String, Map<String, String>> blocks) {
        final List<String> rows = new ArrayList<>();
        rows.addAll(series.getOrDefault(SeriesKind.CALIBRATION, List.of()));
        final boolean standards = !rows.isEmpty();
        rows.addAll(series.getOrDefault(SeriesKind.BLANK, List.of()));
        if (standards) {
            put(blocks, "detection", "{series: " + Page.list(rows) + "}");
            where(SeriesKind.LOW_SPIKE).ifPresent(w -> add(blocks, "detection", "spiked", w));
        }
    }

    private static void put(Map<String, Map<String, String>> blocks, String id, String where) {
        final Map<String, String> options = new LinkedHashMap<>();
        options.put("where", where);
        blocks.put(id, options);
    }

    private static void add(
            Map<String, Map<String, String>> blocks, String id, String option, String value) {
        Optional.ofNullable(blocks.get(id)).ifPresent(options -> options.put(option, value));
    }

    private Optional<String> where(SeriesKind kind) {
        final List<String> labels = series.getOrDefault(kind, List.of());
        return labels.isEmpty()
                ? Optional.empty()
                : Optional.of("{series: " + Page.list(labels) + "}");
    }

    /** Columns that change within the repeated rows. */
    private List<String> factors() {
        final List<String> rows = new ArrayList<>();
        series.getOrDefault(SeriesKind.REPEATABILITY, List.of())
                .forEach(label -> rows.addAll(facts.where("series", label)));
        return FACTORS.stream().filter(f -> facts.labels(f, rows).size() > 1).toList();
    }

    /** The results, where there are samples and calibrants. */
    void writeResults(Page page, Map<String, List<String>> remarks) {
        final Optional<String> samples = where(SeriesKind.SAMPLE);
        if (samples.isEmpty() || where(SeriesKind.CALIBRATION).isEmpty()) {
            return;
        }
        final boolean precision = where(SeriesKind.REPEATABILITY).isPresent();
        page.gap();
        remarks.getOrDefault("results", List.of()).forEach(r -> page.note(0, r));
        page.note(0, "found is the amount that the calibration gives for a sample.");
        rowNumbers(page);
        page.line(0, "measurand:").put(1, "name", "amount found in the solution");
        page.ask(
                1,
                "unit",
                "in which unit is the result? In that of the amounts, while it is found / R",
                "mg/L");
        page.put(1, "equation", precision ? "found * precision / R" : "found / R");
        page.line(1, "inputs:");
        if (precision) {
            page.note(2, "How much independent results scatter; mean-of: how many are averaged.")
                    .line(2, "precision: {value: 1, spread-of: rsd-repeatability, mean-of: 1}");
        }
        page.note(2, "R is the recovery. Whether results are corrected for it is your decision.")
                .ask(
                        2,
                        "R",
                        "are results corrected for recovery? "
                                + (offered.has("recovery") && where(SeriesKind.SPIKE).isPresent()
                                        ? "Write not-corrected, or {finding: recovery}"
                                        : "Write not-corrected, or {value: 0.97, standard-uncertainty: 0.01,"
                                                + " source: ...}"),
                        "not-corrected");
        page.line(1, "results-for: " + samples.get());
    }

    /** Columns of numbers that belong to an injection and have no name here. */
    private List<Column> rowNumbers() {
        return facts.tables().stream()
                .filter(t -> t.kind() == TableGuess.Kind.RUNS || t.kind() == TableGuess.Kind.LONG)
                .flatMap(t -> t.others().stream())
                .filter(Column::isNumeric)
                .toList();
    }

    private void rowNumbers(Page page) {
        for (Column c : rowNumbers()) {
            final String name = Page.quoted(c.heading());
            page.note(
                    0,
                    "The column "
                            + name
                            + " holds a number in "
                            + c.filled()
                            + " rows. If it is a test portion, it belongs into the equation, such as"
                            + " found * V / m, with V: {value: 10 mL, half-width: 0.025 mL, source:"
                            + " flask class A} and m: {column: "
                            + name
                            + ", unit: mg, standard-uncertainty: 0.1 mg, source: balance"
                            + " certificate}.");
        }
    }
}
