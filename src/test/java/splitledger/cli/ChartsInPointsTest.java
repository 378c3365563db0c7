package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.Digests;

class ChartsInPointsTest {
    private static final String PROTOCOL =
            Bench.usual()
                    + "characteristics: {calibration: {where: {series: calibration}, weights: none}}\n";

    @TempDir Path folder;

    private Bench bench() {
        final Bench bench = new Bench(folder);
        final double[] y = {10.1, 19.9, 30.2, 39.8, 50.1};
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "k" + i, "L" + (i + 1), String.valueOf(i + 1), y[i]);
        }
        return bench.table();
    }

    private List<String> figures(String ending) throws IOException {
        try (Stream<Path> files = Files.list(folder.resolve("out/figures"))) {
            return files.map(p -> p.getFileName().toString())
                    .filter(name -> name.endsWith(ending))
                    .map(name -> name.substring(0, name.length() - ending.length()))
                    .sorted()
                    .toList();
        }
    }

    @Test
    void everyChartIsThereInPointsIfAskedForAndTheManifestKnowsIt() throws IOException {
        assertThat(bench().run(PROTOCOL, "--png").exit()).isZero();

        assertThat(figures(".png")).isNotEmpty().isEqualTo(figures(".svg"));
        final String name = "figures/" + figures(".png").get(0) + ".png";
        assertThat(Files.readString(folder.resolve("out/manifest.json")))
                .containsSubsequence(
                        "\"environment\"",
                        name,
                        Digests.sha256(Files.readAllBytes(folder.resolve("out/" + name))));
        final String out = folder.resolve("out").toString();
        assertThat(Bench.command("recheck", out).exit()).isZero();
    }

    @Test
    void withoutTheOptionThereIsNone() throws IOException {
        assertThat(bench().run(PROTOCOL).exit()).isZero();

        assertThat(figures(".png")).isEmpty();
        assertThat(figures(".svg")).isNotEmpty();
    }

    @Test
    void aDossierWithoutThemIsNotKeptWhereTheyAreAskedFor() throws IOException {
        final Bench bench = bench();
        assertThat(bench.run(PROTOCOL).exit()).isZero();
        final Bench.Ran painted = bench.run(PROTOCOL, "--png", "--resume", "--replace");
        assertThat(painted.exit()).as(painted.err()).isZero();
        assertThat(painted.out()).doesNotContain("nothing has changed");
        assertThat(figures(".png")).isNotEmpty();

        assertThat(bench.run(PROTOCOL, "--png", "--resume").out()).contains("nothing has changed");
    }
}
