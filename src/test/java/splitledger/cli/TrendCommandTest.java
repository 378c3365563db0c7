package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On dossiers of simulated monthly checks: the heavy end is lost in the last two. */
class TrendCommandTest {
    private static final int MONTHS = 10;
    private static final String INSTRUMENT = "instrument: {id: GC-3}\n";

    @TempDir private static Path simulated;
    @TempDir private Path folder;

    @BeforeAll
    static void studies() throws IOException {
        for (int i = 0; i < MONTHS; i++) {
            study(i, i < MONTHS - 2 ? 20 : 45);
        }
    }

    private static String date(int month) {
        return LocalDate.of(2025, 1, 8).plusMonths(month).toString();
    }

    private static void study(int month, int loss) throws IOException {
        final Path data = Files.createDirectories(simulated.resolve("data/" + date(month)));
        final Path design = data.resolve("design.yaml");
        Files.writeString(
                design,
                resource()
                        .replace("SEED", Integer.toString(month + 1))
                        .replace("LOSS", Integer.toString(loss))
                        .replace("DATE", date(month)));
        done("simulate", design.toString(), "--out", data.resolve("sim").toString());
        final Path protocol = data.resolve("sim/protocol.yaml");
        final String works =
                INSTRUMENT
                        + "events: [{date: 2025-03-01, what: septum}"
                        + (month < MONTHS - 2 ? "" : ", {date: 2025-09-01, what: liner}")
                        + "]\n";
        Files.writeString(protocol, Files.readString(protocol) + works);
        done(
                "evaluate",
                protocol.toString(),
                "--no-pdf",
                "--out",
                simulated.resolve("dossiers/" + date(month)).toString());
    }

    private static String resource() throws IOException {
        try (var in = TrendCommandTest.class.getResourceAsStream("/history/design.yaml")) {
            assertThat(in).isNotNull();
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static void done(String... arguments) {
        final Bench.Ran ran = Bench.command(arguments);
        assertThat(ran.exit()).as(ran.err()).isLessThan(2);
    }

    private Bench.Ran trend(Path from, String... options) {
        return Bench.command(
                Stream.concat(
                                Stream.of(
                                        "trend",
                                        from.toString(),
                                        "--out",
                                        folder.resolve("out").toString()),
                                Stream.of(options))
                        .toArray(String[]::new));
    }

    /** A folder with copies of some dossiers. */
    private Path some(int... months) throws IOException {
        final Path some = folder.resolve("some");
        for (int month : months) {
            copy(simulated.resolve("dossiers/" + date(month)), some.resolve(date(month)));
        }
        return some;
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            for (Path p : all.toList()) {
                final Path there = to.resolve(from.relativize(p).toString());
                if (Files.isDirectory(p)) {
                    Files.createDirectories(there);
                } else {
                    Files.copy(p, there);
                }
            }
        }
    }

    private Map<String, String> files() throws IOException {
        final SortedMap<String, String> files = new TreeMap<>();
        final Path out = folder.resolve("out");
        try (Stream<Path> all = Files.walk(out)) {
            for (Path p :
                    all.filter(Files::isRegularFile).sorted(Comparator.naturalOrder()).toList()) {
                files.put(out.relativize(p).toString(), Files.readString(p));
            }
        }
        return files;
    }

    private List<String> row(String quantity, String compound, String day) {
        return Bench.rows(folder.resolve("out/trend.csv")).stream()
                .filter(r -> r.get(5).equals(quantity) && r.get(3).equals(compound))
                .filter(r -> r.get(1).startsWith(day))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aHeavyEndThatIsLostNeedsActionAndTheWorkBeforeItIsNamed() throws IOException {
        final Bench.Ran ran = trend(simulated.resolve("dossiers"), "--base", "8");

        assertThat(ran.exit()).as(ran.err()).isEqualTo(1);
        assertThat(ran.out())
                .contains("10 dossiers of GC-3, from 2025-01-08 to 2025-10-08; 0 left out.")
                .contains("needs action: GC-3, heavy-to-light ratio, n-C40");
        final String page = Files.readString(folder.resolve("out/trend.html"));
        assertThat(page)
                .contains("Beyond the limits since 2025-09-08")
                .contains("liner on 2025-09-01")
                .contains("Local codes")
                .doesNotContain("<script")
                .doesNotContain("src=");
        final List<String> last = row("heavy-to-light-ratio", "n-C40", "2025-10-08");
        assertThat(last.get(last.size() - 2)).contains("beyond-limits down");
        assertThat(last.get(last.size() - 1)).isEqualTo("act");
        assertThat(row("internal-standard-area", "n-C14", "2025-01-08").get(4))
                .isEqualTo("series-of=calibration");
        assertThat(row("liner", "", "2025-09-01").get(2)).isEqualTo("work");
        assertThat(files().keySet()).anyMatch(n -> n.endsWith("-ranges.svg"));
    }

    @Test
    void theInternalStandardsAreaIsTheGeometricMeanOfTheTable() {
        trend(simulated.resolve("dossiers"));
        final Path sim = simulated.resolve("data/" + date(0) + "/sim");
        final List<List<String>> runs = Bench.rows(sim.resolve("run-list.csv"));
        final List<List<String>> areas = Bench.rows(sim.resolve("areas.csv"));
        final int experiment = runs.get(0).indexOf("Experiment");
        final int standard = areas.get(0).indexOf("n-C14");
        final List<String> calibration =
                runs.stream()
                        .filter(r -> r.get(experiment).equals("calibration"))
                        .map(r -> r.get(0))
                        .toList();
        final double mean =
                areas.stream()
                        .filter(r -> calibration.contains(r.get(0)))
                        .mapToDouble(r -> Math.log(Double.parseDouble(r.get(standard))))
                        .average()
                        .orElseThrow();

        assertThat(calibration).hasSize(6);
        assertThat(Double.parseDouble(row("internal-standard-area", "n-C14", date(0)).get(7)))
                .isCloseTo(Math.exp(mean), org.assertj.core.api.Assertions.within(1e-9));
    }

    @Test
    void steadyMonthsNeedNoAction() throws IOException {
        final Bench.Ran ran = trend(some(0, 1, 2, 3, 4));

        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();
        assertThat(ran.out()).contains("nothing needs action");
        assertThat(Files.readString(folder.resolve("out/trend.html")))
                .contains("Nothing needs action")
                .contains("provisional");
    }

    @Test
    void theSameDossiersGiveTheSameBytesAndAreReplacedOnlyWhenAskedTo() throws IOException {
        trend(simulated.resolve("dossiers"));
        final Map<String, String> first = files();
        final Bench.Ran again = trend(simulated.resolve("dossiers"));

        assertThat(again.exit()).isEqualTo(2);
        assertThat(again.err()).contains("an earlier trend");
        assertThat(trend(simulated.resolve("dossiers"), "--replace").exit()).isEqualTo(1);
        assertThat(files()).isEqualTo(first);
        Files.writeString(folder.resolve("out/notes.txt"), "mine");
        assertThat(trend(simulated.resolve("dossiers"), "--replace").exit()).isEqualTo(2);
        assertThat(folder.resolve("out/notes.txt")).exists();
    }

    @Test
    void theTableOfATrendGivesTheSameTrendAgain() throws IOException {
        trend(simulated.resolve("dossiers"), "--base", "8");
        final String table = files().getOrDefault("trend.csv", "");
        final Path copy = folder.resolve("copy.csv");
        Files.writeString(copy, table);
        final Bench.Ran ran = trend(copy, "--base", "8", "--replace");

        assertThat(ran.exit()).as(ran.err()).isEqualTo(1);
        assertThat(files().getOrDefault("trend.csv", "")).isEqualTo(table);
    }

    @Test
    void aDamagedDossierIsLeftOutLoudly() throws IOException {
        final Path some = some(0, 1, 2);
        Files.writeString(some.resolve(date(1)).resolve("results.csv"), "changed\n");
        final Bench.Ran ran = trend(some);

        assertThat(ran.exit()).as(ran.err()).isEqualTo(1);
        assertThat(ran.out()).contains("left out: " + date(1) + ": results.csv: found SHA-256");
        assertThat(ran.out()).doesNotContain("nothing needs action");
    }

    @Test
    void aPackedDossierCountsAndACopyDoesNot() throws IOException {
        final Path some = some(0);
        done(
                "evaluate",
                simulated.resolve("data/" + date(1) + "/sim/protocol.yaml").toString(),
                "--no-pdf",
                "--pack",
                "--out",
                folder.resolve("packed/second").toString());
        final Path archive = folder.resolve("packed/second.zip");
        assertThat(archive).exists();
        Files.copy(archive, some.resolve("second.zip"));
        Files.copy(archive, some.resolve("third.zip"));
        Files.writeString(some.resolve("other.zip"), "no archive");
        final Bench.Ran ran = trend(some);

        assertThat(ran.out())
                .contains("2 dossiers of GC-3")
                .contains("third.zip: the same study as second.zip")
                .contains("other.zip: found no zip archive, or a damaged one");
    }

    @Test
    void aStudyWithoutInstrumentOrTimeIsLeftOutWithTheReason() throws IOException {
        final Path some = some(0);
        final Path data = folder.resolve("data");
        copy(simulated.resolve("data/" + date(1) + "/sim"), data);
        final String text = Files.readString(data.resolve("protocol.yaml"));
        Files.writeString(data.resolve("protocol.yaml"), text.replace(INSTRUMENT, ""));
        done(
                "evaluate",
                data.resolve("protocol.yaml").toString(),
                "--no-pdf",
                "--out",
                some.resolve("nameless").toString());
        final Path runs = data.resolve("run-list.csv");
        Files.writeString(runs, Files.readString(runs).replace("acquired", "noted"));
        Files.writeString(
                data.resolve("protocol.yaml"), text.substring(0, text.indexOf("events:")));
        done(
                "evaluate",
                data.resolve("protocol.yaml").toString(),
                "--no-pdf",
                "--out",
                some.resolve("timeless").toString());
        final Bench.Ran ran = trend(some);

        assertThat(ran.out())
                .contains("nameless: its protocol states no instrument id")
                .contains("timeless: it tells no time");
    }

    @Test
    void aFolderWithoutDossiersAndATableWithoutColumnsAreRefused() throws IOException {
        final Path empty = Files.createDirectory(folder.resolve("empty"));
        assertThat(trend(empty).exit()).isEqualTo(2);
        assertThat(trend(empty).err()).contains("no dossier");
        assertThat(folder.resolve("out")).doesNotExist();

        final Path table = folder.resolve("table.csv");
        Files.writeString(table, "instrument,time,value\nGC-3,2025-01-08,1\n");
        assertThat(trend(table).err()).contains("'characteristic'").contains("'quantity'");
        Files.writeString(
                table,
                """
                instrument,time,characteristic,quantity,value
                GC-3,8.1.2025,discrimination,heavy-to-light-ratio,0.9
                GC-3,2025-01-08,discrimination,heavy-to-light-ratio,much
                """);
        assertThat(trend(table).err())
                .contains("table.csv:2: 'time'")
                .contains("table.csv:3: 'value'");
        assertThat(trend(folder.resolve("nowhere")).exit()).isEqualTo(2);
        assertThat(trend(empty, "--base", "3").err()).contains("at least 4");
        assertThat(folder.resolve("out")).doesNotExist();
    }
}
