package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Breakdown in the inlet, worked by hand, through the whole command. */
class LossesTest {
    private static final double R = 8.31446261815324;
    private static final double ENERGY = 80_000;

    @TempDir Path folder;

    private String result(
            String compound, String condition, String quantity, String method, String column) {
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        final List<String> head = rows.get(0);
        return rows.stream()
                .filter(r -> r.get(head.indexOf("compound")).equals(compound))
                .filter(r -> r.get(head.indexOf("condition")).equals(condition))
                .filter(r -> r.get(head.indexOf("quantity")).equals(quantity))
                .filter(r -> r.get(head.indexOf("method")).equals(method))
                .map(r -> r.get(head.indexOf(column)))
                .findFirst()
                .orElseThrow(
                        () ->
                                new AssertionError(
                                        "no " + quantity + " of " + compound + " by " + method));
    }

    private double value(String compound, String condition, String quantity, String method) {
        return Double.parseDouble(result(compound, condition, quantity, method, "value"));
    }

    private void evaluate(String table, String targets, String losses, String after) {
        final Bench.Ran ran =
                new Bench(folder)
                        .write("areas.csv", table)
                        .run(
                                "splitledger: 1\ntitle: worked by hand\ntables: [{file: areas.csv}]\n"
                                        + "compounds: {targets: ["
                                        + targets
                                        + "]}\ncharacteristics:\n  losses: {where: {series: s}, "
                                        + losses
                                        + "}\n"
                                        + after,
                                "--replace");
        assertThat(ran.exit()).as(ran.err()).isLessThanOrEqualTo(1);
    }

    private static String injection(String label, double... areas) {
        final StringBuilder text = new StringBuilder();
        final List<String> names = List.of("parent", "a", "b");
        for (int i = 0; i < areas.length; i++) {
            text.append(label).append(',').append(names.get(i)).append(',');
            text.append(areas[i]).append(",s\n");
        }
        return text.toString();
    }

    private static final String HEADER = "injection,compound,area,series\n";

    /** 100 / 1000; (0.10 - 0.02) / 0.98; (60 + 40/1.25) / (900 + 92). */
    @Test
    void theBreakdownOfOneInjectionIsTheShareOfTheProducts() {
        final String table = HEADER + injection("1", 900, 60, 40);

        evaluate(table, "parent", "parent: parent, products: [a, b]", "");
        assertThat(value("parent", "", "breakdown", "raw")).isCloseTo(10, within(1e-12));
        assertThat(result("parent", "", "breakdown", "raw", "standard_uncertainty")).isEmpty();
        assertThat(result("parent", "", "breakdown", "raw", "note"))
                .contains("one injection")
                .contains("work at the bench");

        evaluate(
                table,
                "parent",
                "parent: parent, products: [a, b], own-breakdown: 2, own-breakdown-uncertainty: 0.5",
                "");
        assertThat(value("parent", "", "breakdown", "own-removed"))
                .isCloseTo(8 / 0.98, within(1e-12));
        // dx = (1 - x) / (1 - x0)^2 dx0 = 0.9 / 0.9604 x 0.5 %
        assertThat(
                        Double.parseDouble(
                                result(
                                        "parent",
                                        "",
                                        "breakdown",
                                        "own-removed",
                                        "standard_uncertainty")))
                .isCloseTo(0.9 / 0.9604 * 0.5, within(1e-12));

        evaluate(table, "parent", "parent: parent, products: [a, b], responses: {b: 1.25}", "");
        assertThat(value("parent", "", "breakdown", "response-corrected"))
                .isCloseTo(9200 / 992.0, within(1e-12));
        assertThat(value("parent", "", "breakdown", "raw")).isCloseTo(10, within(1e-12));
    }

    /**
     * Two parents, the sums of areas as US EPA SW-846 method 8081B has them: 30 / 180 = 16.7 % and
     * 20 / 160 = 12.5 %, the limit being 15 % each.
     */
    @Test
    void eachParentIsJudgedByItsOwnProductsOnTheBasisOfAreas() {
        final String table =
                HEADER
                        + "1,DDT,150,s\n1,DDD,18,s\n1,DDE,12,s\n"
                        + "1,endrin,140,s\n1,endrin aldehyde,8,s\n1,endrin ketone,12,s\n";
        evaluate(
                table,
                "DDT, endrin",
                "products: {DDT: [DDD, DDE], endrin: [endrin aldehyde, endrin ketone]}",
                "requirements:\n  - {quantity: breakdown, at-most: 15 %, basis: observed, source: \"EPA 8081B\"}\n");

        assertThat(value("DDT", "", "breakdown", "raw")).isCloseTo(100 / 6.0, within(1e-12));
        assertThat(result("DDT", "", "breakdown", "raw", "verdict")).isEqualTo("fails");
        assertThat(value("endrin", "", "breakdown", "raw")).isCloseTo(12.5, within(1e-12));
        assertThat(result("endrin", "", "breakdown", "raw", "verdict")).isEqualTo("meets");
    }

    @Test
    void whatAllPeaksOfAnInjectionShareCancels() {
        evaluate(
                HEADER + injection("1", 900, 60, 40) + injection("2", 450, 30, 20),
                "parent",
                "parent: parent, products: [a, b]",
                "");

        assertThat(value("parent", "", "breakdown", "raw")).isCloseTo(10, within(1e-12));
        assertThat(result("parent", "", "breakdown", "raw", "note")).contains("agree exactly");
    }

    /** x 0.10 and 0.12: mean 0.11, s 0.014142, u = s / sqrt 2 = 0.01, t(1) 12.7062. */
    @Test
    void twoInjectionsHaveOneDegreeOfFreedom() {
        evaluate(
                HEADER + injection("1", 900, 60, 40) + injection("2", 880, 70, 50),
                "parent",
                "parent: parent, products: [a, b]",
                "");

        assertThat(value("parent", "", "breakdown", "raw")).isCloseTo(11, within(1e-12));
        assertThat(
                        Double.parseDouble(
                                result("parent", "", "breakdown", "raw", "standard_uncertainty")))
                .isCloseTo(1, within(1e-9));
        assertThat(
                        Double.parseDouble(
                                result("parent", "", "breakdown", "raw", "degrees_of_freedom")))
                .isCloseTo(1, within(1e-9));
        assertThat(Double.parseDouble(result("parent", "", "breakdown", "raw", "upper")))
                .isCloseTo(11 + 12.7062, within(1e-3));
    }

    /** b not found: from 50 / 950 to (50 + 4) / 954 with the stated threshold of 4. */
    @Test
    void aProductThatWasNotFoundLeavesABoundOnly() {
        evaluate(
                HEADER + injection("1", 900, 50) + "9,b,7,other\n",
                "parent",
                "parent: parent, products: [a, b], threshold: 4",
                "requirements:\n  - {quantity: breakdown, at-most: 10 %, basis: observed, source: ours}\n");

        assertThat(result("parent", "", "breakdown", "raw", "status")).isEqualTo("bound-only");
        assertThat(result("parent", "", "breakdown", "raw", "value")).isEmpty();
        assertThat(Double.parseDouble(result("parent", "", "breakdown", "raw", "lower")))
                .isCloseTo(5000 / 950.0, within(1e-12));
        assertThat(Double.parseDouble(result("parent", "", "breakdown", "raw", "upper")))
                .isCloseTo(5400 / 954.0, within(1e-12));
        assertThat(result("parent", "", "breakdown", "raw", "verdict")).isEqualTo("meets");
    }

    /** Kelvin, seconds: 60 x 1 mL x (200 / 101.325) x (298.15 / T) / (ratio x 1.5 mL/min). */
    private static double seconds(double celsius, double ratio) {
        return 60 * (200 / 101.325) * (298.15 / (celsius + 273.15)) / (ratio * 1.5);
    }

    private static double rate(double celsius) {
        return 0.1 * StrictMath.exp(-ENERGY / R * (1 / (celsius + 273.15) - 1 / (250 + 273.15)));
    }

    /** Injections whose breakdown is 1 - exp(-k t), two each, a part in a thousand apart. */
    private static String series(double[] temperatures, double[] ratios) {
        final StringBuilder text =
                new StringBuilder("injection,compound,area,series,inlet_temperature,split_ratio\n");
        int label = 0;
        for (double ratio : ratios) {
            for (double t : temperatures) {
                for (double off : new double[] {0.999, 1.001}) {
                    label++;
                    final double x = off * -StrictMath.expm1(-rate(t) * seconds(t, ratio));
                    for (String one : new String[] {"parent," + 100 * (1 - x), "a," + 100 * x}) {
                        text.append(label).append(',').append(one).append(",s,");
                        text.append(t).append(',').append(ratio).append('\n');
                    }
                }
            }
        }
        return text.toString();
    }

    private static final String INLET =
            "parent: parent, products: a, liner-volume: 1, inlet-pressure: 200, column-flow: 1.5";

    private static String conventions(String more) {
        return "conventions: {split-ratio: total-to-column}\n" + more;
    }

    /** Where 0.1 exp(-E/R (1/T - 1/523.15)) t(T) = -ln(1 - limit), by halving. */
    private static double reached(double limit, double ratio) {
        double low = 100;
        double high = 400;
        for (int i = 0; i < 100; i++) {
            final double middle = (low + high) / 2;
            if (rate(middle) * seconds(middle, ratio) > -StrictMath.log1p(-limit)) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return low;
    }

    @Test
    void energyRateAndHighestTemperatureOfAKnownDecompositionAreFound() {
        final double[] temperatures = {210, 230, 250, 270, 290};
        evaluate(
                series(temperatures, new double[] {50}),
                "parent",
                INLET + ", limit: 10",
                conventions(""));

        assertThat(value("parent", "", "activation-energy", "raw"))
                .isCloseTo(ENERGY / 1000, within(0.01));
        assertThat(value("parent", "inlet-temperature=250", "apparent-rate", "raw"))
                .isCloseTo(0.1, within(1e-4));
        assertThat(value("parent", "", "highest-inlet-temperature", "raw"))
                .isCloseTo(reached(0.10, 50), within(0.05));
        assertThat(result("parent", "", "activation-energy", "raw", "note"))
                .contains("order not tested")
                .doesNotContain("first order");
    }

    @Test
    void firstOrderIsSaidOnlyWithTwoFlows() {
        evaluate(
                series(new double[] {210, 230, 250, 270, 290}, new double[] {25, 50}),
                "parent",
                INLET + ", residence-time-uncertainty: 2",
                conventions(""));

        assertThat(result("parent", "", "activation-energy", "raw", "note"))
                .contains("consistent with first order");
    }

    @Test
    void fourTemperaturesOrTooNarrowASpanGiveNoActivationEnergy() {
        for (double[] temperatures :
                new double[][] {{210, 240, 270, 290}, {220, 230, 240, 250, 260}}) {
            evaluate(
                    series(temperatures, new double[] {50}),
                    "parent",
                    INLET + ", limit: 10",
                    conventions(""));
            assertThat(result("parent", "", "activation-energy", "raw", "reason"))
                    .isEqualTo("too-few-settings");
            assertThat(result("parent", "", "highest-inlet-temperature", "raw", "reason"))
                    .isEqualTo("too-few-settings");
        }
    }

    @Test
    void aLimitBeyondWhatWasMeasuredIsNotExtrapolated() {
        final double[] temperatures = {210, 230, 250, 270, 290};
        evaluate(
                series(temperatures, new double[] {50}),
                "parent",
                INLET + ", limit: 90",
                conventions(""));
        assertThat(result("parent", "", "highest-inlet-temperature", "raw", "status"))
                .isEqualTo("bound-only");
        assertThat(result("parent", "", "highest-inlet-temperature", "raw", "lower"))
                .isEqualTo("290");
        assertThat(result("parent", "", "highest-inlet-temperature", "raw", "upper")).isEmpty();

        evaluate(
                series(temperatures, new double[] {50}),
                "parent",
                INLET + ", limit: 0.5",
                conventions(""));
        assertThat(result("parent", "", "highest-inlet-temperature", "raw", "upper"))
                .isEqualTo("210");
        assertThat(result("parent", "", "highest-inlet-temperature", "raw", "value")).isEmpty();
    }

    @Test
    void withoutLinerAndPressureThereIsAnEnergyButNoRate() {
        evaluate(
                series(new double[] {210, 230, 250, 270, 290}, new double[] {50}),
                "parent",
                "parent: parent, products: a",
                conventions(""));

        assertThat(value("parent", "", "activation-energy", "raw"))
                .isCloseTo(ENERGY / 1000, within(0.01));
        assertThat(result("parent", "inlet-temperature=250", "apparent-rate", "raw", "reason"))
                .isEqualTo("no-residence-time");
        assertThat(result("parent", "", "highest-inlet-temperature", "raw", "reason"))
                .isEqualTo("no-limit-stated");
    }

    /** Negative areas of a product that is not there: x below 0, no logarithm. */
    @Test
    void aBreakdownBelowZeroIsLeftOutOfTheLineWithAFlag() {
        final String table =
                series(new double[] {210, 230, 250, 270, 290}, new double[] {50})
                        + "98,parent,100,s,120,50\n98,a,-0.2,s,120,50\n"
                        + "99,parent,100,s,120,50\n99,a,-0.1,s,120,50\n";
        evaluate(table, "parent", INLET, conventions(""));

        assertThat(value("parent", "inlet-temperature=120", "breakdown", "raw")).isNegative();
        assertThat(value("parent", "", "activation-energy", "raw"))
                .isCloseTo(ENERGY / 1000, within(0.01));
        assertThat(folder.resolve("out/report.html"))
                .content()
                .contains("a breakdown that is not above 0 gives no rate");
    }
}
