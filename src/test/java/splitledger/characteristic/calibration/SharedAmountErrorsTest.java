package splitledger.characteristic.calibration;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import splitledger.characteristic.Earlier;
import splitledger.statistics.RandomStream;
import splitledger.study.Answer;
import splitledger.study.Compounds;
import splitledger.study.Doubles;
import splitledger.study.Extent;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.InjectionTable.Codes;
import splitledger.study.InjectionTable.Labels;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Tree;

/** Simulated studies of known truth: intervals of amounts cover at their stated rate. */
class SharedAmountErrorsTest {
    private static final int STUDIES = 600;
    private static final double[] LEVELS = {5, 10, 20, 40, 70, 100};
    private static final double SLOPE = 2;
    private static final double SCATTER = 0.4;
    private static final double SAMPLE = 60;

    /** Collects rows of one compound. */
    private static final class Table {
        private final List<String> series = new ArrayList<>();
        private final List<String> preparations = new ArrayList<>();
        private final List<String> levels = new ArrayList<>();
        private final List<Double> amounts = new ArrayList<>();
        private final List<Double> uncertainties = new ArrayList<>();
        private final List<Double> areas = new ArrayList<>();

        void row(String label, String level, double amount, double u, double area) {
            series.add(level.isEmpty() ? "sample" : "calibration");
            preparations.add(label);
            levels.add(level);
            amounts.add(amount);
            uncertainties.add(u);
            areas.add(area);
        }

        Study study() {
            final int n = areas.size();
            final List<String> injections = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                injections.add("i" + i);
            }
            final InjectionTable table =
                    InjectionTable.ofSize(n)
                            .labels("injection", labels(injections))
                            .labels("compound", labels(Collections.nCopies(n, "c")))
                            .labels("series", labels(series))
                            .labels("preparation", labels(preparations))
                            .labels("level", labels(levels))
                            .numbers("amount", numbers(amounts))
                            .numbers("amount_u", numbers(uncertainties))
                            .numbers("area", numbers(areas))
                            .states(Collections.nCopies(n, State.MEASURED))
                            .places(
                                    List.of("areas.csv"),
                                    Codes.of(new int[n]),
                                    Codes.of(new int[n]))
                            .build();
            final Protocol protocol =
                    new Protocol(
                            "simulated",
                            "",
                            Map.of(),
                            Map.of(),
                            new Protocol.Conventions("", "once", 0.95, "area", "mg/L"),
                            Map.of(),
                            List.of(),
                            Optional.empty(),
                            List.of(),
                            List.of());
            return new Study(
                    protocol,
                    new Compounds(List.of("c"), List.of(), List.of(), Optional.empty(), List.of()),
                    table,
                    List.of(),
                    List.of(),
                    List.of());
        }

        private static Labels labels(List<String> texts) {
            final List<String> distinct = texts.stream().distinct().toList();
            return new Labels(
                    Codes.of(texts.stream().mapToInt(distinct::indexOf).toArray()), distinct);
        }

        private static Doubles numbers(List<Double> values) {
            return Doubles.of(values.stream().mapToDouble(Double::doubleValue).toArray());
        }
    }

    private static Tree.Mapping options(String amountErrors) {
        final Map<String, Tree> entries = new LinkedHashMap<>();
        entries.put("where", where("calibration"));
        entries.put("predict", where("sample"));
        entries.put("weights", text("none"));
        entries.put("amount-errors", text(amountErrors));
        return new Tree.Mapping(Place.NONE, entries);
    }

    private static Tree where(String series) {
        return new Tree.Mapping(Place.NONE, Map.of("series", text(series)));
    }

    private static Tree text(String text) {
        return new Tree.Scalar(Place.NONE, text, true);
    }

    private static boolean covers(Study study, Setting setting) {
        final List<Finding> findings =
                new Calibration()
                        .evaluate(
                                study,
                                options(setting.stated()),
                                new Earlier(Map.of()),
                                Extent.FORMULAS)
                        .findings();
        final Answer answer =
                findings.stream()
                        .filter(f -> f.key().quantity().equals(setting.quantity()))
                        .filter(f -> !f.key().method().equals("first-order"))
                        .findFirst()
                        .orElseThrow()
                        .answer();
        final double truth = setting.quantity().equals("slope") ? SLOPE : SAMPLE;
        final Answer.Estimate e = (Answer.Estimate) answer;
        return e.lower() <= truth && truth <= e.upper();
    }

    /**
     * One kind of study.
     *
     * @param common relative standard deviation of the error that all levels share
     * @param own standard deviation of each level's own error, mg/L
     * @param preparations a level
     * @param told whether the tables state these errors
     * @param stated how the protocol says that they hang together
     * @param quantity whose interval is looked at
     */
    private record Setting(
            double common,
            double own,
            int preparations,
            boolean told,
            String stated,
            String quantity) {}

    /** Share of studies whose interval holds the truth. */
    private static double coverage(Setting setting, long seed) {
        int inside = 0;
        for (int k = 0; k < STUDIES; k++) {
            final RandomStream random = RandomStream.of(seed, k);
            final Table table = new Table();
            final double shared = 1 + setting.common() * random.nextNormal();
            for (int i = 0; i < LEVELS.length; i++) {
                final double truth = LEVELS[i] * shared + setting.own() * random.nextNormal();
                final double size = setting.common() * LEVELS[i] + setting.own();
                for (int p = 0; p < setting.preparations(); p++) {
                    final double area = SLOPE * truth + SCATTER * random.nextNormal();
                    final double u = setting.told() ? size : Double.NaN;
                    table.row("p" + i + "/" + p, "L" + i, LEVELS[i], u, area);
                }
            }
            final double area = SLOPE * SAMPLE + SCATTER * random.nextNormal();
            table.row("s", "", Double.NaN, Double.NaN, area);
            inside += covers(table.study(), setting) ? 1 : 0;
        }
        return inside / (double) STUDIES;
    }

    /** Three standard errors of a share of 95 % in so many studies. */
    private static double band() {
        return 3 * Math.sqrt(0.95 * 0.05 / STUDIES);
    }

    /** A stock with an error of 1 %: forgotten, it would leave most intervals beside the truth. */
    @Test
    void amountsAreCoveredWhereTheStockHasAnErrorOfOnePercent() {
        final String amount = "predicted-amount";
        final double kept = coverage(new Setting(0.01, 0, 1, true, "common", amount), 11);
        final double forgotten = coverage(new Setting(0.01, 0, 1, false, "common", amount), 11);

        assertThat(kept).isBetween(0.95 - band(), 0.95 + band());
        assertThat(forgotten).isLessThan(0.7);
    }

    @Test
    void amountsAreCoveredWithSeveralPreparationsALevelToo() {
        assertThat(coverage(new Setting(0.01, 0, 3, true, "common", "predicted-amount"), 12))
                .isBetween(0.95 - band(), 0.95 + band());
    }

    /** One preparation a level: the scatter holds the levels' own errors, nothing is added. */
    @Test
    void theSlopeIsCoveredWhereEachLevelHasItsOwnErrorAndItsOwnPreparation() {
        assertThat(coverage(new Setting(0, 0.4, 1, true, "each-level", "slope"), 13))
                .isBetween(0.95 - band(), 0.95 + band());
    }

    /** Several preparations share the error of their level: the scatter holds it in part only. */
    @Test
    void theSlopeIsCoveredWherePreparationsShareTheErrorOfTheirLevel() {
        final double kept = coverage(new Setting(0, 0.4, 3, true, "each-level", "slope"), 14);
        final double forgotten = coverage(new Setting(0, 0.4, 3, false, "each-level", "slope"), 14);

        assertThat(kept).isGreaterThan(0.95 - band());
        assertThat(forgotten).isLessThan(0.92);
    }
}
