package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Rows that give no response are left out of every characteristic, and the reader sees why. */
class StatesInFindingsTest {
    private static final String HEADER =
            "injection,compound,area,series,preparation,level,amount,state\n";

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    /** The line y = 10 x exactly, and one row more that would spoil it. */
    private String results(String spoiling, String protocol) throws IOException {
        final StringBuilder areas = new StringBuilder(HEADER);
        for (int level = 1; level <= 5; level++) {
            areas.append("i" + level + ",c," + 10 * level + ",cal,p" + level + ",L" + level + ",");
            areas.append(level + ",\n");
        }
        bench.write("areas.csv", areas + spoiling);
        final Bench.Ran ran =
                bench.run(
                        protocol
                                + "characteristics: {calibration: {where: {series: cal}, weights: none}}\n");
        assertThat(ran.exit()).as(ran.err()).isZero();
        return Files.readString(folder.resolve("out/results.json"));
    }

    private double slope() {
        return bench.number("calibration", "", "slope", "", "value");
    }

    @Test
    void aSaturatedPeakDoesNotBendTheLine() throws IOException {
        final String results = results("i6,c,50,cal,p6,L6,10,saturated\n", Bench.usual());

        assertThat(slope()).isCloseTo(10, org.assertj.core.data.Offset.offset(1e-12));
        assertThat(results)
                .contains("left out: saturated: the peak is cut off, its area too small");
    }

    @Test
    void aPeakBelowTheThresholdIsNotTakenForZero() throws IOException {
        final String results =
                results(
                        "i6,c,,cal,p6,L6,3,\n",
                        Bench.usual()
                                .replace("{file: areas.csv}", "{file: areas.csv, threshold: 4}"));

        assertThat(slope()).isCloseTo(10, org.assertj.core.data.Offset.offset(1e-12));
        assertThat(results)
                .contains(
                        "left out: below the integrator's threshold: its area is not known, and not 0");
    }

    @Test
    void aRunThatWasBrokenOffIsLeftOut() throws IOException {
        final String results = results("i6,c,1,cal,p6,L6,6,aborted\n", Bench.usual());

        assertThat(slope()).isCloseTo(10, org.assertj.core.data.Offset.offset(1e-12));
        assertThat(results).contains("left out: aborted: the run was broken off");
    }

    @Test
    void aRatioToASaturatedInternalStandardIsNoResponse() throws IOException {
        final StringBuilder areas = new StringBuilder(HEADER);
        for (int level = 1; level <= 6; level++) {
            final String rest = ",cal,p" + level + ",L" + level + "," + level + ",";
            final String state = level == 6 ? "saturated" : "";
            areas.append("i" + level + ",c," + 10 * level + rest + "\n");
            areas.append("i" + level + ",is," + (level == 6 ? 7 : 5) + rest + state + "\n");
        }
        bench.write("areas.csv", areas.toString());
        final Bench.Ran ran =
                bench.run(
                        Bench.usual().replace("[c]}", "[c], internal-standard: {compound: is}}")
                                + "characteristics: {calibration: {where: {series: cal}, weights: none}}\n");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(slope()).isCloseTo(2, org.assertj.core.data.Offset.offset(1e-12));
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("left out: its internal standard is saturated");
    }
}
