package splitledger.planning.ahead;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.CsvText;

/**
 * What a study is for, with the fewest injections that can answer: a protocol full of comments, an
 * empty run list in a drawn order, levels and a bench sheet.
 */
public enum Purpose {
    /** Everything a new procedure is asked for. */
    FULL_VALIDATION("full-validation", "everything that a new procedure is asked for"),
    /** The same instrument before and after work on it. */
    AFTER_MAINTENANCE("after-maintenance", "is the instrument after the work what it was before?"),
    /** How little can be told from nothing. */
    DETECTION("detection", "how little can be told from nothing?"),
    /** Response against split ratio. */
    SPLIT_LINEARITY("split-linearity", "does the response follow the split ratio?"),
    /** Losses on hot surfaces. */
    INLET_TEMPERATURE("inlet-temperature", "what decomposes in the hot inlet?"),
    /** Spikes. */
    RECOVERY("recovery", "how much of what is there is found?"),
    /** Given numbers only. */
    BUDGET("budget", "an uncertainty budget of given numbers, without tables");

    private static final LocalDate FIRST = LocalDate.of(2026, 4, 1);
    private static final PlanFile.Setting SETTING =
            new PlanFile.Setting(50, "", 250, 6, 10, new PlanFile.Day(Integer.MAX_VALUE, ""));
    private static final List<String> LINE = List.of("L1", "L2", "L3", "L4", "L5");
    private static final List<String> SPIKES = List.of("R0", "R1", "R2", "R3");
    private static final List<Double> RATIOS = List.of(10.0, 20.0, 50.0, 100.0, 200.0);
    private static final String A = "compound A";

    private final String id;
    private final String words;

    Purpose(String id, String words) {
        this.id = id;
        this.words = words;
    }

    /** Name as typed. */
    public String id() {
        return id;
    }

    /** What it is for, in words. */
    public String words() {
        return words;
    }

    /** The purpose of a name. */
    public static Optional<Purpose> of(String id) {
        return java.util.Arrays.stream(values()).filter(p -> p.id.equals(id)).findFirst();
    }

    /** The protocol. */
    public byte[] protocol() {
        return resource(id + ".yaml");
    }

    /** What lies beside the protocol, by name; nothing for a budget. */
    public Map<String, byte[]> beside() {
        final Map<String, byte[]> files = new LinkedHashMap<>();
        if (this == BUDGET) {
            return files;
        }
        final List<Run> runs = runs();
        files.put(PlanFiles.RUNS, RunOrder.table(runs, false));
        files.put("levels.csv", table(levels()));
        if (this == AFTER_MAINTENANCE || this == INLET_TEMPERATURE) {
            files.put("compounds.csv", resource("compounds.csv"));
        }
        files.put(
                "bench.html",
                BenchSheet.of(
                        words,
                        runs,
                        List.of(
                                "Every numbered solution is made from the start: vials of one flask"
                                        + " are one preparation.",
                                "Dates and numbers are examples: write down what was done.",
                                "The order is drawn; keep to it.")));
        return Collections.unmodifiableMap(files);
    }

    /** Every injection in order. */
    List<Run> runs() {
        final boolean line = levels().containsKey("L5");
        return RunOrder.of(
                days(), SETTING, line ? "L5" : "", levels().containsKey("check"), FIRST, 1);
    }

    private List<List<Part>> days() {
        return switch (this) {
            case FULL_VALIDATION -> fullValidation();
            case AFTER_MAINTENANCE ->
                    List.of(
                            List.of(Part.of("ladder", "LADDER", "ladder", 10).on("before")),
                            List.of(Part.of("ladder", "LADDER", "ladder", 10).on("after")));
            case DETECTION ->
                    List.of(
                            List.of(
                                    Part.made("calibration", "K", LINE, 2, 2),
                                    blanks(4),
                                    spiked(3)),
                            List.of(blanks(3), spiked(2)),
                            List.of(blanks(3), spiked(2)));
            case SPLIT_LINEARITY -> List.of(ratios(), ratios(), ratios());
            case INLET_TEMPERATURE ->
                    List.of(
                            List.of(Part.of("ladder", "LADDER", "ladder", 6)),
                            List.of(hot(50)),
                            List.of(hot(25)));
            case RECOVERY ->
                    List.of(
                            List.of(Part.made("calibration", "K", LINE, 2, 2)),
                            List.of(spikes(1)),
                            List.of(spikes(1)),
                            List.of(spikes(1)));
            case BUDGET -> List.of();
        };
    }

    private static List<List<Part>> fullValidation() {
        final Part repeated = Part.made("repeatability", "P", 2, 2);
        final Part ratios = Part.of("split", "CHECK-SPLIT", "check", 3).at(RATIOS, List.of());
        return List.of(
                List.of(Part.made("calibration", "K", LINE, 2, 2), blanks(2), spiked(3), repeated),
                List.of(blanks(2), spiked(2), repeated),
                List.of(blanks(2), spiked(2), repeated),
                List.of(blanks(2), repeated, ratios),
                List.of(blanks(2), repeated, ratios),
                List.of(spikes(3)));
    }

    private static Part blanks(int number) {
        return Part.made("blank", "B", number, 1);
    }

    private static Part spiked(int number) {
        return Part.made("spike-low", "N", List.of(Bench.SPIKE), number, 1);
    }

    private static Part spikes(int preparations) {
        return Part.made("spike", "R", SPIKES, preparations, 2);
    }

    private static Part hot(double ratio) {
        return Part.of("inlet-temperature", "LABILE", "labile", 3)
                .at(List.of(ratio), List.of(210.0, 230.0, 250.0, 270.0, 290.0));
    }

    /** Each ratio with a solution of its own, the same mass on the column. */
    private static List<Part> ratios() {
        return RATIOS.stream()
                .map(
                        r ->
                                Part.made("split", "S", List.of("M" + Math.round(r)), 1, 3)
                                        .at(List.of(r), List.of()))
                .toList();
    }

    /** Amounts by compound by level, mg/L: examples. */
    Map<String, Map<String, Double>> levels() {
        final Map<String, Map<String, Double>> all = new LinkedHashMap<>();
        switch (this) {
            case FULL_VALIDATION, DETECTION, RECOVERY -> {
                final double[] amounts =
                        this == DETECTION
                                ? new double[] {0.5, 1, 2, 3, 4}
                                : new double[] {5, 25, 50, 75, 100};
                for (int i = 0; i < amounts.length; i++) {
                    all.put(LINE.get(i), Map.of(A, amounts[i]));
                }
                if (this != RECOVERY) {
                    all.put(Bench.SPIKE, Map.of(A, 1.0));
                }
                if (this != DETECTION) {
                    final double[] added = {0, 10, 20, 40};
                    for (int i = 0; i < added.length; i++) {
                        all.put(SPIKES.get(i), Map.of(A, added[i]));
                    }
                }
                all.put("check", Map.of(A, amounts[2]));
            }
            case SPLIT_LINEARITY ->
                    RATIOS.forEach(r -> all.put("M" + Math.round(r), Map.of(A, 4 * r)));
            case AFTER_MAINTENANCE, INLET_TEMPERATURE -> {
                all.put("ladder", ladder());
                if (this == INLET_TEMPERATURE) {
                    all.put("labile", Map.of("linalyl acetate", 200.0));
                }
            }
            case BUDGET -> {
                // no table, no levels
            }
        }
        return all;
    }

    private Map<String, Double> ladder() {
        final Map<String, Double> all = new LinkedHashMap<>();
        final int last = this == INLET_TEMPERATURE ? 22 : 40;
        for (int n = 8; n <= last; n += n < 24 ? 2 : 4) {
            all.put("n-C" + n, 50.0);
        }
        return all;
    }

    private static byte[] table(Map<String, Map<String, Double>> levels) {
        final CsvText csv = new CsvText(List.of("level", "compound", "amount"));
        levels.forEach(
                (level, amounts) ->
                        amounts.forEach(
                                (compound, amount) ->
                                        csv.cell(level)
                                                .cell(compound)
                                                .cell((double) amount)
                                                .endRow()));
        return csv.bytes();
    }

    private static byte[] resource(String name) {
        try (InputStream in = Purpose.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + name + " is missing");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
