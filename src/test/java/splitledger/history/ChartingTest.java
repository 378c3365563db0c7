package splitledger.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.util.FastMath;
import org.junit.jupiter.api.Test;
import splitledger.statistics.MovingAverage;
import splitledger.statistics.RandomStream;
import splitledger.statistics.RunRules;

class ChartingTest {
    private static final String INSTRUMENT = "GC-3";

    private static DatedValue value(
            String quantity, int month, double value, double u, double freedom) {
        final String time = LocalDate.of(2024, 1, 8).plusMonths(month).toString();
        return new DatedValue(
                INSTRUMENT,
                time,
                "study-" + (month + 1),
                quantity.startsWith("rsd") ? "repeatability" : "discrimination",
                "c",
                "occasion=" + month,
                quantity,
                "any",
                "1",
                value,
                u,
                freedom,
                Double.NaN,
                Double.NaN,
                Double.isNaN(value) ? "too-few-points" : "");
    }

    private static List<DatedValue> values(String quantity, double... values) {
        return IntStream.range(0, values.length)
                .mapToObj(i -> value(quantity, i, values[i], 0.01 * Math.abs(values[i]), 9))
                .toList();
    }

    private static Chart only(
            List<DatedValue> values, List<History.Work> works, TrendOptions options) {
        final List<Chart> charts =
                Charts.of(new History(List.of(), values, works, List.of()), options).charts();
        assertThat(charts).hasSize(1);
        return charts.get(0);
    }

    private static Chart only(List<DatedValue> values) {
        return only(values, List.of(), TrendOptions.usual());
    }

    private static List<Signal.Kind> kinds(Chart chart, int at) {
        return chart.points().get(at).signals().stream().map(Signal::kind).toList();
    }

    /** NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, ten batches; from memory. */
    @Test
    void valuesAsTheyAreHaveTheLimitsOfThePublishedExample() {
        final Chart chart =
                only(
                        values(
                                "discrimination-per-100C",
                                49.6,
                                47.6,
                                49.9,
                                51.3,
                                47.8,
                                51.2,
                                52.6,
                                52.4,
                                53.6,
                                52.1));

        assertThat(chart.last().centre()).isCloseTo(50.81, within(1e-9));
        // the handbook rounds d2 to 1.128
        assertThat(chart.last().upper()).isCloseTo(55.8041, within(2e-3));
        assertThat(chart.last().lower()).isCloseTo(45.8159, within(2e-3));
        assertThat(chart.standing()).isEqualTo(Standing.QUIET);
        assertThat(chart.isProvisional()).isFalse();
    }

    @Test
    void limitsOfRatiosAreEvenOnTheLogarithmicScale() {
        // logs 0, 1, 0, 1, 0: centre 0.4, mean range 1, half width 3 sqrt(pi)/2
        final double e = Math.E;
        final Chart chart = only(values("heavy-to-light-ratio", 1, e, 1, e, 1));
        final double half = 1.5 * FastMath.sqrt(FastMath.PI);

        assertThat(chart.last().centre()).isCloseTo(FastMath.exp(0.4), within(1e-12));
        assertThat(chart.last().upper()).isCloseTo(FastMath.exp(0.4 + half), within(1e-12));
        assertThat(chart.last().lower()).isCloseTo(FastMath.exp(0.4 - half), within(1e-12));
        assertThat(chart.isProvisional()).isTrue();
        assertThat(new TrendWords(chart).sentences()).anyMatch(s -> s.contains("provisional"));
    }

    @Test
    void aShareInPercentNeverHasLimitsOutsideItsEnds() {
        final double[] shares = {1, 9, 2, 8, 1.5, 10, 3, 7};
        final List<DatedValue> values = new ArrayList<>();
        for (int i = 0; i < shares.length; i++) {
            final DatedValue v = value("x", i, shares[i], 0.1, 9);
            values.add(
                    new DatedValue(
                            v.instrument(),
                            v.time(),
                            v.dossier(),
                            "losses",
                            "p",
                            "",
                            "breakdown",
                            i % 2 == 0 ? "raw" : "response-corrected",
                            "%",
                            v.value(),
                            v.standardUncertainty(),
                            9,
                            Double.NaN,
                            Double.NaN,
                            ""));
        }
        final List<DatedValue> one = new ArrayList<>(values);
        values.forEach(
                v ->
                        one.add(
                                new DatedValue(
                                        v.instrument(),
                                        v.time(),
                                        v.dossier(),
                                        "losses",
                                        "p",
                                        "",
                                        "breakdown",
                                        "raw",
                                        "%",
                                        v.value(),
                                        0.1,
                                        9,
                                        Double.NaN,
                                        Double.NaN,
                                        "")));
        final Chart chart = only(one);

        assertThat(chart.method()).isEqualTo("raw");
        assertThat(chart.remarks()).anyMatch(r -> r.contains("response-corrected"));
        assertThat(chart.scale()).isEqualTo(Scale.SHARE);
        assertThat(chart.last().lower()).isBetween(0.0, 1.0);
        assertThat(chart.last().upper()).isBetween(10.0, 100.0);
    }

    @Test
    void aRatioThatFallsNeedsActionAndSaysSinceWhenAndAfterWhichWork() {
        final Chart chart =
                only(
                        values(
                                "heavy-to-light-ratio",
                                .88,
                                .87,
                                .885,
                                .875,
                                .88,
                                .872,
                                .883,
                                .876,
                                .879,
                                .80,
                                .79),
                        List.of(
                                new History.Work(INSTRUMENT, "2024-03-01", "septum"),
                                new History.Work(INSTRUMENT, "2024-10-01", "liner")),
                        new TrendOptions(List.of(), 9));

        assertThat(chart.standing()).isEqualTo(Standing.ACT);
        assertThat(kinds(chart, 9)).contains(Signal.Kind.BEYOND, Signal.Kind.JUMP);
        assertThat(String.join(" ", new TrendWords(chart).sentences()))
                .contains("study-11 of 2024-11-08")
                .contains("Beyond the limits since 2024-10-08 (dossier study-10)")
                .contains("liner on 2024-10-01")
                .doesNotContain("septum");
    }

    @Test
    void limitsSetAnewAfterWorkTakeTheNewLevelAsUsual() {
        final double[] levels = {.88, .87, .885, .875, .88, .80, .79, .805, .795, .80};
        final List<History.Work> works =
                List.of(new History.Work(INSTRUMENT, "2024-06-01", "New Column"));
        final Chart through =
                only(values("heavy-to-light-ratio", levels), works, new TrendOptions(List.of(), 5));
        final Chart anew =
                only(
                        values("heavy-to-light-ratio", levels),
                        works,
                        new TrendOptions(List.of("column"), 5));

        assertThat(through.standing()).isEqualTo(Standing.ACT);
        assertThat(anew.standing()).isEqualTo(Standing.QUIET);
        assertThat(anew.last().stretch()).isEqualTo(2);
        assertThat(anew.last().centre()).isCloseTo(.798, within(1e-4));
        assertThat(anew.points().get(0).centre()).isCloseTo(.878, within(1e-4));
    }

    @Test
    void twoOrThreeDossiersAreHeldAgainstTheirOwnUncertainties() {
        // u of the logarithms 0.01 each: three times the root of two of them is 0.042
        final Chart alike = only(values("heavy-to-light-ratio", 1, 1.04));
        final Chart apart = only(values("heavy-to-light-ratio", 1, 1.05));

        assertThat(alike.standing()).isEqualTo(Standing.TOO_FEW);
        assertThat(alike.last().hasLimits()).isFalse();
        assertThat(apart.standing()).isEqualTo(Standing.WATCH);
        assertThat(kinds(apart, 1)).containsExactly(Signal.Kind.STEP);
        assertThat(only(values("heavy-to-light-ratio", 1)).standing()).isEqualTo(Standing.TOO_FEW);
    }

    @Test
    void equalValuesGiveNoLimitsAndAnotherValueIsSeen() {
        final Chart equal = only(values("heavy-to-light-ratio", .9, .9, .9, .9, .9));
        final Chart other =
                only(
                        values("heavy-to-light-ratio", .9, .9, .9, .9, .8),
                        List.of(),
                        new TrendOptions(List.of(), 4));

        assertThat(equal.standing()).isEqualTo(Standing.TOO_FEW);
        assertThat(equal.remarks()).anyMatch(r -> r.contains("all equal"));
        assertThat(kinds(other, 4)).containsExactly(Signal.Kind.DIFFERS);
        assertThat(other.standing()).isEqualTo(Standing.WATCH);
    }

    @Test
    void scatterThatGrowsNeedsActionAndScatterThatShrinksDoesNot() {
        final double[] usual = {1, 1.1, .9, 1.05, .95, 1, 1.1, .9, 3, .1};
        final Chart chart = only(values("rsd-repeatability", usual));

        assertThat(chart.scale()).isEqualTo(Scale.SPREAD);
        assertThat(chart.points().get(8).acts()).isTrue();
        assertThat(kinds(chart, 9)).contains(Signal.Kind.BEYOND);
        assertThat(chart.last().acts()).isFalse();
        assertThat(chart.standing()).isEqualTo(Standing.WATCH);
        assertThat(String.join(" ", new TrendWords(chart).sentences())).contains("better");
    }

    @Test
    void scatterWithoutDegreesOfFreedomIsChartedAsLogarithms() {
        final List<DatedValue> values = new ArrayList<>(values("rsd-repeatability", 1, 2, 1, 2));
        values.set(3, value("rsd-repeatability", 3, 2, 0.1, Double.NaN));
        final Chart chart = only(values);

        assertThat(chart.scale()).isEqualTo(Scale.LOGARITHM);
        assertThat(chart.remarks()).anyMatch(r -> r.contains("another scale"));
    }

    @Test
    void whatNoDossierGivesIsListedAndWhatOneDoesNotGiveIsNamed() {
        final double none = Double.NaN;
        final Charts.Made made =
                Charts.of(
                        new History(
                                List.of(),
                                values("heavy-to-light-ratio", none, none),
                                List.of(),
                                List.of()),
                        TrendOptions.usual());
        final Chart some = only(values("heavy-to-light-ratio", .9, none, .8));

        assertThat(made.charts()).isEmpty();
        assertThat(made.without()).singleElement().asString().contains("too-few-points");
        assertThat(some.points()).hasSize(2);
        assertThat(new TrendWords(some).missing())
                .hasValueSatisfying(m -> assertThat(m).contains("study-2 (too-few-points)"));
    }

    @Test
    void aSignalThatIsOverIsToldAsEarlier() {
        final Chart chart =
                only(
                        values(
                                "heavy-to-light-ratio",
                                .88,
                                .87,
                                .885,
                                .875,
                                .88,
                                .872,
                                .60,
                                .876,
                                .879,
                                .878,
                                .877,
                                .874,
                                .881,
                                .876,
                                .877,
                                .880,
                                .879,
                                .875,
                                .878,
                                .876),
                        List.of(),
                        new TrendOptions(List.of(), 6));

        assertThat(kinds(chart, 6)).contains(Signal.Kind.BEYOND);
        assertThat(chart.standing()).isIn(Standing.EARLIER, Standing.WATCH);
        assertThat(new TrendWords(chart).earlier()).anyMatch(s -> s.contains("dossier study-7"));
    }

    @Test
    void chanceAloneAsksForActionAsOftenAsThePageSays() {
        final int length = 400_000;
        final RandomStream random = RandomStream.of(13, 2);
        final double[] z =
                IntStream.range(0, length).mapToDouble(i -> random.nextNormal()).toArray();
        final double[] sd = new double[length];
        Arrays.fill(sd, 1);
        final List<MovingAverage.Step> averages =
                MovingAverage.of(z, sd, 0, MovingAverage.WEIGHT, MovingAverage.WIDTH);
        final List<List<RunRules.Signal>> rules = RunRules.of(z);
        final long acting =
                IntStream.range(0, length)
                        .filter(
                                i ->
                                        averages.get(i).outside() != 0
                                                || rules.get(i).stream()
                                                        .map(r -> Signal.Kind.of(r.rule()))
                                                        .anyMatch(
                                                                k ->
                                                                        Signal.of(
                                                                                        k,
                                                                                        1,
                                                                                        Watched
                                                                                                .HEAVY_TO_LIGHT)
                                                                                .act()))
                        .count();

        assertThat((double) acting / length).isCloseTo(TrendSummary.FALSE_SHARE, within(0.0008));
    }
}
