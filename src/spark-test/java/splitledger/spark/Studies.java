package splitledger.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import splitledger.base.Digests;
import splitledger.cli.Main;
import splitledger.dossier.DossierWriter;

/** Small studies in a folder, and what the command on one machine makes of them. */
final class Studies {
    private static final double[] AREAS = {10.1, 19.9, 30.2, 39.8, 50.1, 60.3};

    private final Path folder;

    Studies(Path folder) {
        this.folder = folder;
    }

    Path folder() {
        return folder;
    }

    /** Adds a study with a calibration whose responses are raised by a number of its own. */
    Studies add(String name, int number) throws IOException {
        final StringBuilder table =
                new StringBuilder(
                        "injection,acquired,compound,area,series,preparation,level,amount\n");
        for (int i = 0; i < AREAS.length; i++) {
            table.append("i").append(i);
            table.append(",2026-0")
                    .append(1 + number % 9)
                    .append("-05T08:0")
                    .append(i)
                    .append(":00");
            table.append(",c,").append(AREAS[i] + number / 8.0);
            table.append(",calibration,k").append(i).append(",L").append(i + 1);
            table.append(',').append(i + 1).append('\n');
        }
        final Path place = Files.createDirectories(folder.resolve(name));
        Files.writeString(place.resolve("areas.csv"), table);
        Files.writeString(
                place.resolve("protocol.yaml"),
                """
                splitledger: 1
                title: worked by hand
                instrument: {id: %s}
                tables: [{file: areas.csv}]
                compounds: {targets: [c]}
                characteristics: {calibration: {where: {series: calibration}, weights: none}}
                """
                        .formatted(number % 2 == 0 ? "GC-1" : "GC-2"));
        return this;
    }

    /** Adds one that cannot be evaluated. */
    Studies addBroken(String name) throws IOException {
        final Path place = Files.createDirectories(folder.resolve(name));
        Files.writeString(place.resolve("protocol.yaml"), "splitledger: 1\n");
        return this;
    }

    /** Evaluates them on one machine. */
    void evaluateHere(Path out, int exit) {
        final StringWriter said = new StringWriter();
        final PrintWriter print = new PrintWriter(said);

        assertThat(Main.run(print, print, "evaluate", folder.toString(), "--out", out.toString()))
                .as(said.toString())
                .isEqualTo(exit);
    }

    /** Digests of all files below a folder by name. */
    static SortedMap<String, String> digests(Path folder) throws IOException {
        final SortedMap<String, String> digests = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                digests.put(
                        folder.relativize(file).toString(),
                        Digests.sha256(Files.readAllBytes(file)));
            }
        }
        assertThat(digests.keySet()).anyMatch(name -> name.endsWith(DossierWriter.MANIFEST));
        return digests;
    }
}
