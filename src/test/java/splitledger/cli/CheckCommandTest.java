package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Everything is read and nothing evaluated or written. */
class CheckCommandTest {
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
        bench.row("sample", "s1", "", "", 22).table();
    }

    private Bench.Ran check(String protocol, String... options) {
        bench.write("protocol.yaml", protocol);
        final String[] all = new String[options.length + 2];
        all[0] = "check";
        all[1] = folder.resolve("protocol.yaml").toString();
        System.arraycopy(options, 0, all, 2, options.length);
        return Bench.command(all);
    }

    @Test
    void aGoodProtocolIsToldInAFewLinesAndLeavesNothing() {
        final Bench.Ran ran = check(Bench.usual() + CALIBRATION);

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out())
                .contains("nothing wrong was found")
                .contains("injections: 5")
                .contains("compounds: c")
                .contains("series: calibration 4, sample 1")
                .contains("calibration: 4 injections of 4 preparations at 4 levels");
        assertThat(ran.out().lines().count()).isLessThan(12);
        assertThat(bench.leftSomething()).isFalse();
    }

    @Test
    void whatACharacteristicLacksIsTold() {
        final Bench.Ran ran =
                check(
                        Bench.usual()
                                + "characteristics: {calibration: {where: {series: calibration}},"
                                + " detection: {where: {series: calibration}},"
                                + " repeatability: {where: {series: sample}}}\n"
                                + "requirements: [{quantity: relative-expanded-uncertainty, at-most: 5 %,"
                                + " source: ours}]\n");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out())
                .contains("lacks: Each compound: 4 levels; 5 are wanted.")
                .contains("4 of 4 levels made once only")
                .contains("lacks: no blank injection; 10 are wanted.")
                .contains("lacks: 1 preparation; 6 are wanted.")
                .contains("Nothing in this protocol gives relative-expanded-uncertainty");
    }

    @Test
    void enoughOfEverythingLacksNothing() {
        final Bench full = new Bench(folder);
        for (int level = 1; level <= 5; level++) {
            for (int flask = 1; flask <= 2; flask++) {
                full.row(
                        "calibration",
                        "p" + level + flask,
                        "L" + level,
                        Integer.toString(level),
                        10.0 * level + flask);
            }
        }
        full.table();

        assertThat(check(Bench.usual() + CALIBRATION).out())
                .contains("calibration: 10 injections of 10 preparations at 5 levels")
                .doesNotContain("lacks");
    }

    @Test
    void allMistakesAreToldInOneGo() {
        bench.row("calibration", "p5", "L5", "many", 50)
                .row("calibration", "p6", "L6", "6", 0)
                .table();

        final Bench.Ran ran = check("purpos: budget\n" + Bench.usual() + CALIBRATION);

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).contains("purpos", "areas.csv:7", "areas.csv:8", "zero-means");
    }

    @Test
    void fiftyMistakesAreToldAndTheRestCounted() {
        final StringBuilder keys = new StringBuilder();
        for (int i = 1; i <= 60; i++) {
            keys.append("wrong").append(i).append(": 1\n");
        }

        final Bench.Ran text = check(Bench.usual() + CALIBRATION + keys);
        final Bench.Ran json = check(Bench.usual() + CALIBRATION + keys, "--messages", "json");

        assertThat(text.err().lines().filter(l -> l.contains("the unknown key"))).hasSize(50);
        assertThat(text.err()).contains("and 10 more");
        assertThat(json.err().lines()).hasSize(60);
    }

    @Test
    void aLimitInAUnitThatCannotFitIsFoundWithoutEvaluating() {
        final String limits =
                """
                requirements:
                  - {quantity: relative-standard-error, at-most: 2 furlong, source: a}
                  - {quantity: detection-limit, at-most: 2 furlong, source: b}
                  - {quantity: lack-of-fit-p, at-least: 5 %, source: c}
                  - {quantity: detection-limit, at-most: 2 mg/L, source: d}
                """;

        final Bench.Ran ran =
                check(Bench.usual() + "conventions: {amount-unit: mg/L}\n" + CALIBRATION + limits);

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err().lines().filter(l -> l.contains("furlong"))).hasSize(2);
        assertThat(ran.err()).contains("a limit in '%'", "a limit in 'mg/L'");
    }

    @Test
    void anAnswerThatOnlyBeginsLikeAQuestionIsNone() {
        final Bench.Ran ran =
                check(Bench.usual().replace("worked by hand", "ASKJA lava") + CALIBRATION);
        final Bench.Ran asked =
                check(Bench.usual().replace("worked by hand", "ASK which title?") + CALIBRATION);

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(asked.exit()).isEqualTo(2);
        assertThat(asked.err()).contains("'title': found an open question: which title?");
    }

    @Test
    void everyProtocolOfTheProjectPasses() {
        final Bench.Ran ran =
                Bench.command(
                        "check",
                        "protocols/flower-oil/protocol.yaml",
                        "protocols/published/norris/protocol.yaml",
                        "protocols/published/pigment-paste/protocol.yaml");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out()).contains("calibration: 36 injections of 36 preparations");
    }
}
