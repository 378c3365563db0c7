package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command {@code inlet}, in process. */
class InletCommandTest {
    private static final String PLAIN =
            """
            splitledger-inlet: 1
            gas: He
            column: {length: 30 m, diameter: 0.25 mm}
            head-pressure: 100 kPa gauge
            oven-temperature: 100 degC
            """;

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    private Bench.Ran inlet(String text) {
        bench.write("inlet.yaml", text);
        return Bench.command("inlet", folder.resolve("inlet.yaml").toString());
    }

    /** The value in a row of the table. */
    private static double value(Bench.Ran ran, String name, String note) {
        return ran.out()
                .lines()
                .filter(l -> l.startsWith(name + " ") && l.endsWith(note))
                .map(l -> List.of(l.split("\\s+", -1)).get(1))
                .mapToDouble(Double::parseDouble)
                .findFirst()
                .orElseThrow();
    }

    /** Compressible laminar flow computed independently in R: 0.98680536 mL/min, 110.73377 s. */
    @Test
    void flowAndHoldUpTimeAreThoseOfAnIndependentCalculation() {
        final Bench.Ran ran = inlet(PLAIN);

        assertThat(ran.exit()).isZero();
        assertThat(value(ran, "column-flow", "dimensions")).isEqualTo(0.9868);
        assertThat(value(ran, "hold-up-time", "")).isEqualTo(110.7);
        assertThat(value(ran, "linear-velocity", "mean")).isEqualTo(27.09);
    }

    /** Worked by hand: 50 mL/min vent and 1.2 mL/min column. */
    @Test
    void bothConventionsOfTheSplitRatioArePrinted() {
        final Bench.Ran ran = inlet(PLAIN + "column-flow: 1.2 mL/min\nvent-flow: 50 mL/min\n");

        assertThat(value(ran, "split-ratio", "total to column")).isEqualTo(42.67);
        assertThat(value(ran, "split-ratio", "vent to column")).isEqualTo(41.67);
    }

    @Test
    void thePurgeIsTakenFromTheTotalFlowAndNotFromTheRatio() {
        final Bench.Ran ran =
                inlet(
                        PLAIN
                                + "column-flow: 1.2 mL/min\ntotal-flow: 54.2 mL/min\npurge-flow: 3 mL/min\n");

        assertThat(value(ran, "vent-flow", "column")).isEqualTo(50);
        assertThat(value(ran, "split-ratio", "total to column")).isEqualTo(42.67);
    }

    /** 1 psi = 6.894757 kPa, 1 bar = 100 kPa. */
    @Test
    void pressuresMayBeInAnyUnitGaugeOrAbsolute() {
        for (String same :
                List.of(
                        "14.5038 psi gauge",
                        "1 bar gauge",
                        "201.325 kPa absolute",
                        "2.01325 bar absolute")) {
            final Bench.Ran ran = inlet(PLAIN.replace("100 kPa gauge", same));

            assertThat(value(ran, "column-flow", "dimensions")).as(same).isEqualTo(0.9868);
        }
    }

    /** Common practice, no source: heads from 10 to 50 psi on a usual column. */
    @Test
    void moreHeadPressureGivesMoreFlow() {
        double before = 0;
        for (int psi = 10; psi <= 50; psi += 10) {
            final double flow =
                    value(
                            inlet(PLAIN.replace("100 kPa gauge", psi + " psi gauge")),
                            "column-flow",
                            "dimensions");
            assertThat(flow).isGreaterThan(before);
            before = flow;
        }
    }

    @Test
    void aVacuumBehindTheColumnRaisesTheFlow() {
        final Bench.Ran ran = inlet(PLAIN + "outlet: vacuum\n");

        assertThat(value(ran, "column-flow", "dimensions")).isGreaterThan(1.2);
    }

    @Test
    void aPressureThatDoesNotSayWhatItCountsFromIsRefused() {
        final Bench.Ran ran = inlet(PLAIN.replace("100 kPa gauge", "100 kPa"));

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("inlet.yaml:4", "100 kPa gauge");
    }

    @Test
    void aRatioThatDoesNotSayItsConventionIsRefused() {
        final Bench.Ran ran = inlet(PLAIN + "split-ratio: 50\n");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("total-to-column");
    }

    @Test
    void everythingThatIsWrongIsToldAtOnce() {
        final Bench.Ran ran =
                inlet("splitledger-inlet: 1\ngas: Xe\ncolumn: {length: 30}\nwrong: 1\n");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err())
                .contains("Xe", "'30'", "no 'diameter'", "no 'head-pressure'", "'wrong'");
    }
}
