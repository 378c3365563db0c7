package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every kind of mistake ends with exit 2, a message that says where and what to do, and nothing
 * written.
 */
class BadInputTest {
    private static final String CALIBRATION =
            "characteristics: {calibration: {where: {series: calibration}}}\n";

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
        for (int i = 1; i <= 4; i++) {
            bench.row("calibration", "p" + i, "L" + i, Integer.toString(i), 10.0 * i + i % 2);
        }
        bench.table();
    }

    private void refused(Bench.Ran ran, String... words) {
        assertThat(ran.exit()).as(ran.err()).isEqualTo(2);
        assertThat(ran.err()).contains(words).contains("found", "expected").doesNotContain("\tat ");
        assertThat(ran.out()).isEmpty();
        assertThat(bench.leftSomething()).isFalse();
    }

    private Bench.Ran usual(String rest) {
        return bench.run(Bench.usual() + rest);
    }

    @Test
    void aGoodStudyIsNotRefused() {
        assertThat(usual(CALIBRATION))
                .extracting(Bench.Ran::exit, Bench.Ran::err)
                .containsExactly(0, "");
    }

    @Test
    void aTableThatIsNotThere() {
        refused(
                bench.run(
                        "splitledger: 1\ntables: [{file: lost.csv}]\ncompounds: {targets: [c]}\n"
                                + CALIBRATION),
                "protocol.yaml:2",
                "lost.csv");
    }

    @Test
    void aProtocolThatIsNotThere() {
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        folder.resolve("none.yaml").toString(),
                        "--out",
                        folder.resolve("out").toString());
        refused(ran, "none.yaml", "no such file");
    }

    @Test
    void anEmptyTable() {
        bench.write("areas.csv", "");
        refused(usual(CALIBRATION), "areas.csv");
    }

    @Test
    void aTableWithAHeaderAlone() {
        bench.write("areas.csv", "injection,compound,area,series,preparation,level,amount\n");
        refused(usual(CALIBRATION), "areas.csv");
    }

    @Test
    void anEmptyProtocol() {
        refused(bench.run(""), "protocol.yaml", "an empty file");
    }

    @Test
    void aColumnThatIsNotThere() {
        bench.write(
                "areas.csv",
                "injection,compound,series,preparation,level,amount\ni1,c,calibration,p,L1,1\n");
        refused(usual(CALIBRATION), "areas.csv:1", "area");
    }

    @Test
    void aColumnThatIsThereTwice() {
        bench.write(
                "areas.csv",
                "injection,compound,area,area,series,preparation,level,amount\ni1,c,1,2,calibration,p,L1,1\n");
        refused(usual(CALIBRATION), "areas.csv:1", "area");
    }

    @Test
    void textInANumber() {
        bench.row("calibration", "p5", "L5", "5 mg", 50).table();
        refused(usual(CALIBRATION), "areas.csv:6", "'amount'", "5 mg");
    }

    @Test
    void aCompoundThatNoRowHas() {
        refused(
                bench.run(
                        "splitledger: 1\ntables: [{file: areas.csv}]\ncompounds: {targets: [c, linalool]}\n"
                                + CALIBRATION),
                "linalool");
    }

    @Test
    void twoRowsOfOneInjectionAndCompound() {
        bench.write(
                "areas.csv",
                """
                injection,compound,area,series,preparation,level,amount
                i1,c,1,calibration,p1,L1,1
                i2,c,2,calibration,p2,L2,2
                i1,c,3,calibration,p3,L3,3
                """);
        refused(usual(CALIBRATION), "areas.csv:4", "i1");
    }

    @Test
    void injectionsOfTheRunListThatDoNotMatch() {
        bench.write("areas.csv", "injection,compound,area\ni1,c,1\ni2,c,2\n");
        bench.write(
                "runs.csv",
                "injection,series,preparation,amount\ni1,calibration,p1,1\ni3,calibration,p3,3\n");
        refused(
                bench.run(
                        "splitledger: 1\ntables: [{file: areas.csv}, {file: runs.csv, joins-on: injection}]\n"
                                + "compounds: {targets: [c]}\n"
                                + CALIBRATION),
                "i2",
                "i3",
                "unmatched");
    }

    @Test
    void anUnknownProtocolKey() {
        refused(
                usual("measurant: {equation: found}\n" + CALIBRATION),
                "protocol.yaml:5",
                "measurant",
                "did you mean 'measurand'?");
    }

    @Test
    void anUnknownOptionOfACharacteristic() {
        refused(
                usual(
                        "characteristics: {calibration: {where: {series: calibration}, weigths: none}}\n"),
                "weigths",
                "did you mean 'weights'?");
    }

    @Test
    void anUnknownQuantityInARequirement() {
        refused(
                usual(
                        CALIBRATION
                                + "requirements: [{quantity: lack-of-fit-q, at-least: 0.05, source: ours}]\n"),
                "lack-of-fit-q");
    }

    @Test
    void aRepeatedKey() {
        refused(usual("title: again\n" + CALIBRATION), "protocol.yaml:5", "title", "line 2");
    }

    @Test
    void anAreaOfZeroWhoseMeaningIsNotStated() {
        bench.row("calibration", "p5", "L5", "5", 0).table();
        refused(usual(CALIBRATION), "areas.csv:6", "zero-means");
    }

    @Test
    void aSplitRatioWhoseConventionIsNotStated() {
        bench.write(
                "areas.csv",
                "injection,compound,area,series,preparation,amount,split_ratio\ni1,c,1,calibration,p1,1,50\n");
        refused(usual(CALIBRATION), "split-ratio", "total-to-column", "vent-to-column");
    }

    @Test
    void aSeriesWithoutRows() {
        refused(
                usual("characteristics: {calibration: {where: {series: calibratoin}}}\n"),
                "calibratoin",
                "calibration");
    }

    @Test
    void preparationsWhoseMeaningIsNotStated() {
        bench.write("areas.csv", "injection,compound,area,series,amount\ni1,c,1,calibration,1\n");
        refused(usual(CALIBRATION), "preparation", "each-injection");
    }

    @Test
    void aFileOutsideTheFolder() {
        refused(
                bench.run(
                        "splitledger: 1\ntables: [{file: ../../etc/areas.csv}]\ncompounds: {targets: [c]}\n"
                                + CALIBRATION),
                "protocol.yaml:2");
    }

    @Test
    void anEquationThatCannotBeRead() {
        refused(
                usual(
                        CALIBRATION
                                + "measurand: {equation: found * (V, inputs: {V: {value: 1}}, results-for: {series: calibration}}\n"),
                "protocol.yaml");
    }

    @Test
    void aLimitInAUnitThatDoesNotFit() {
        refused(
                usual(
                        CALIBRATION
                                + "requirements: [{quantity: slope, at-least: 3 furlong, source: ours}]\n"),
                "furlong");
    }

    @Test
    void severalMistakesAreToldInOneGo() {
        bench.row("calibration", "p5", "L5", "many", 50)
                .row("calibration", "p6", "L6", "6", 0)
                .table();
        refused(usual("purpos: budget\n" + CALIBRATION), "purpos", "areas.csv:6", "areas.csv:7");
    }

    @Test
    void aFolderThatHoldsSomethingElseIsLeftAlone() throws java.io.IOException {
        java.nio.file.Files.createDirectory(folder.resolve("mine"));
        java.nio.file.Files.writeString(folder.resolve("mine/letter.txt"), "keep");
        bench.write("protocol.yaml", Bench.usual() + CALIBRATION);
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        folder.resolve("protocol.yaml").toString(),
                        "--out",
                        folder.resolve("mine").toString());
        refused(ran, "mine", "other files");
        assertThat(folder.resolve("mine/letter.txt")).hasContent("keep");
    }

    @Test
    void aDossierIsReplacedOnlyWhenAsked() {
        assertThat(usual(CALIBRATION).exit()).isZero();
        final Bench.Ran again = usual(CALIBRATION);
        assertThat(again.exit()).isEqualTo(2);
        assertThat(again.err()).contains("--replace");
        assertThat(bench.run(Bench.usual() + CALIBRATION, "--replace").exit()).isZero();
    }

    @Test
    void aMistakeInOneOfTwoProtocolsDoesNotStopTheOther() throws java.io.IOException {
        for (String name : new String[] {"one", "two"}) {
            final Path own = java.nio.file.Files.createDirectory(folder.resolve(name));
            java.nio.file.Files.copy(folder.resolve("areas.csv"), own.resolve("areas.csv"));
            java.nio.file.Files.writeString(
                    own.resolve("protocol.yaml"),
                    Bench.usual() + (name.equals("one") ? "oops: 1\n" : "") + CALIBRATION);
        }
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        folder.resolve("one/protocol.yaml").toString(),
                        folder.resolve("two/protocol.yaml").toString(),
                        "--out",
                        folder.resolve("both").toString());
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("oops");
        assertThat(folder.resolve("both/two/manifest.json")).exists();
        assertThat(folder.resolve("both/one")).doesNotExist();
    }
}
