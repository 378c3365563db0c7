package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command as a user runs it. */
class SimulateCommandTest {
    private static final Path DATA = Path.of("datasets", "flower-oil");
    private static final Path DESIGN = DATA.resolve("design.yaml");

    @TempDir private Path folder;

    private Bench.Ran simulate(Path design, String out, String... options) {
        final List<String> all =
                Stream.concat(
                                Stream.of(
                                        "simulate",
                                        design.toString(),
                                        "--out",
                                        folder.resolve(out).toString()),
                                Stream.of(options))
                        .toList();
        return Bench.command(all.toArray(String[]::new));
    }

    private List<String> names(String in) throws IOException {
        try (Stream<Path> all = Files.list(folder.resolve(in))) {
            return all.map(p -> p.getFileName().toString()).sorted().toList();
        }
    }

    private String text(String name) throws IOException {
        return Files.readString(folder.resolve(name));
    }

    @Test
    void whatItWritesIsEvaluatedAtOnce() throws IOException {
        final Bench.Ran made = simulate(DESIGN, "deep/data");

        assertThat(made.err()).isEmpty();
        assertThat(made.exit()).isEqualTo(0);
        assertThat(made.out()).contains("areas.csv", "truth.csv", "splitledger evaluate");
        assertThat(names("deep/data"))
                .containsExactly(
                        "areas.csv",
                        "compounds.csv",
                        "levels.csv",
                        "protocol.yaml",
                        "run-list.csv",
                        "truth.csv");
        for (String table : List.of("areas.csv", "run-list.csv", "levels.csv", "truth.csv")) {
            assertThat(text("deep/data/" + table)).isEqualTo(Files.readString(DATA.resolve(table)));
        }

        final Bench.Ran evaluated =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        folder.resolve("deep/data/protocol.yaml").toString(),
                        "--out",
                        folder.resolve("out").toString());

        assertThat(evaluated.err()).isEmpty();
        assertThat(evaluated.exit()).isEqualTo(0);
        assertThat(text("out/results.csv"))
                .contains("calibration,limonene,,slope")
                .contains("budget,limonene,preparation=S01,result");
    }

    @Test
    void aFolderWithOtherFilesIsLeftAlone() throws IOException {
        Files.writeString(
                Files.createDirectory(folder.resolve("data")).resolve("areas.csv"), "mine");

        for (String[] options : new String[][] {{}, {"--replace"}}) {
            final Bench.Ran ran = simulate(DESIGN, "data", options);

            assertThat(ran.exit()).isEqualTo(2);
            assertThat(ran.err())
                    .contains("a folder with other files", "nothing in it was touched");
            assertThat(names("data")).containsExactly("areas.csv");
            assertThat(text("data/areas.csv")).isEqualTo("mine");
        }
    }

    @Test
    void anEarlierDataSetIsReplacedOnlyWhenAskedAndItsNeighboursStay() throws IOException {
        simulate(DESIGN, "data", "--tables-only");
        Files.writeString(folder.resolve("data/README.md"), "ours");
        Files.writeString(folder.resolve("data/protocol.yaml"), "ours too");
        final Path other = folder.resolve("other.yaml");
        Files.writeString(
                other, Files.readString(DESIGN).replaceFirst("\nseed: \\d+\n", "\nseed: 5\n"));
        final String before = text("data/areas.csv");

        final Bench.Ran refused = simulate(other, "data", "--tables-only");

        assertThat(refused.exit()).isEqualTo(2);
        assertThat(refused.err()).contains("an earlier simulation", "--replace");
        assertThat(text("data/areas.csv")).isEqualTo(before);

        final Bench.Ran replaced = simulate(other, "data", "--tables-only", "--replace");

        assertThat(replaced.exit()).isEqualTo(0);
        assertThat(text("data/areas.csv")).isNotEqualTo(before);
        assertThat(text("data/README.md")).isEqualTo("ours");
        assertThat(text("data/protocol.yaml")).isEqualTo("ours too");
        assertThat(names("data"))
                .containsExactly(
                        "README.md",
                        "areas.csv",
                        "levels.csv",
                        "protocol.yaml",
                        "run-list.csv",
                        "truth.csv");
    }

    @Test
    void mistakesInTheDesignAreToldWithTheirPlaceAndNothingIsMade() throws IOException {
        final Path wrong = folder.resolve("wrong.yaml");
        Files.writeString(
                wrong,
                Files.readString(DESIGN)
                                .replace(
                                        "stroke-scatter: {value: 2,",
                                        "stroke-scatter: {value: 200,")
                        + "mishap: {missing: {value: 1, unit: \"%\", basis: invented}}\n"
                        + "split: {table: vent-to-colum, protocol: total-to-column}\n");

        final Bench.Ran ran = simulate(wrong, "new/data");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err())
                .contains("wrong.yaml:11", "found 200, expected a number from 0 to 30")
                .contains("did you mean 'mishaps'?")
                .contains("did you mean 'vent-to-column'?")
                .doesNotContain("\tat ");
        assertThat(folder.resolve("new")).doesNotExist();
    }

    @Test
    void aDesignThatIsNotThere() {
        final Bench.Ran ran = simulate(folder.resolve("none.yaml"), "data");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("none.yaml", "no such file", "a design file");
        assertThat(folder.resolve("data")).doesNotExist();
    }

    @Test
    void aFileWhereTheFolderShouldBe() throws IOException {
        Files.writeString(folder.resolve("data"), "a file");

        final Bench.Ran ran = simulate(DESIGN, "data", "--replace");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("found a file");
        assertThat(text("data")).isEqualTo("a file");
    }

    @Test
    void whenOneFileCannotBePutInPlaceEverythingIsAsBefore() throws IOException {
        simulate(DESIGN, "data");
        final String areas = text("data/areas.csv");
        Files.delete(folder.resolve("data/run-list.csv"));
        Files.createDirectory(folder.resolve("data/run-list.csv"));
        Files.writeString(folder.resolve("data/run-list.csv/inside"), "kept");
        final Path other = folder.resolve("other.yaml");
        Files.writeString(
                other, Files.readString(DESIGN).replaceFirst("\nseed: \\d+\n", "\nseed: 5\n"));

        final Bench.Ran ran = simulate(other, "data", "--replace");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(text("data/areas.csv")).isEqualTo(areas);
        assertThat(text("data/run-list.csv/inside")).isEqualTo("kept");
        assertThat(names("data")).noneMatch(n -> n.startsWith(".splitledger"));
    }
}
