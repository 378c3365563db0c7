package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;

/** The committed data set, and the protocol that reads it, against the design. */
class FlowerOilDataSetTest {
    @TempDir private Path out;

    @Test
    void nothingIsWrittenBesideTheTablesTheTruthAndTheProtocol()
            throws IOException, ProblemException {
        final byte[] design = Files.readAllBytes(FlowerOil.FOLDER.resolve("design.yaml"));
        Simulation.write("design.yaml", design, FolderVault.of(out));

        try (Stream<Path> written = Files.list(out)) {
            assertThat(written).hasSize(6);
        }
    }

    @Test
    void theSizesAreThoseThatTheBenchProtocolAsksFor() throws IOException, ProblemException {
        final Map<String, Integer> injections = new TreeMap<>();
        final Map<String, TreeSet<String>> flasks = new TreeMap<>();
        for (Injection i : Timetable.of(FlowerOil.design())) {
            injections.merge(i.experiment(), 1, Integer::sum);
            flasks.computeIfAbsent(i.experiment(), e -> new TreeSet<>()).add(i.flask().label());
        }

        assertThat(injections)
                .containsExactlyInAnyOrderEntriesOf(
                        Map.of(
                                "calibration", 6 * 3 * 2,
                                "blank", 10,
                                "spike-low", 7,
                                "repeatability", 5 * 2 * 3 * 2,
                                "split", 5 * 2 * 3,
                                "ladder", 2 * 6,
                                "inlet-temperature", 6 * 3,
                                "spike", 4 * 3 * 2,
                                "sample", 12 * 2 + 1));
        assertThat(flasks.get("calibration")).hasSize(18);
        assertThat(flasks.get("blank")).hasSize(10);
        assertThat(flasks.get("spike-low")).hasSize(7);
        assertThat(flasks.get("repeatability")).hasSize(30);
        assertThat(flasks.get("sample")).hasSize(12);
    }

    @Test
    void everyTargetInEverySampleLiesWithinTheCalibratedRange()
            throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final Map<String, Double> lowest = design.levels().getOrDefault("L1", Map.of());
        final Map<String, Double> highest = design.levels().getOrDefault("L6", Map.of());
        final Solutions solutions = new Solutions(design);
        final Peaks peaks = new Peaks(design);

        assertThat(Timetable.of(design))
                .filteredOn(
                        i -> List.of("sample", "repeatability", "spike").contains(i.experiment()))
                .isNotEmpty()
                .allSatisfy(
                        i ->
                                assertThat(design.targets())
                                        .allSatisfy(
                                                target ->
                                                        assertThat(
                                                                        solutions
                                                                                .made(i.flask())[
                                                                                peaks.of(target)])
                                                                .isBetween(
                                                                        lowest.get(target),
                                                                        highest.get(target))));
    }

    @Test
    void onlyTheInjectionThatTheProtocolExcludesIsTheOddOne() throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final Plan.Incident incident = design.incidents().get(0);
        final List<VirtualInlet.Chromatogram> ofFlask =
                new VirtualInlet(design)
                        .chromatograms().stream()
                                .filter(c -> c.injection().flask().label().equals(incident.flask()))
                                .sorted(Comparator.comparingInt(c -> c.injection().number()))
                                .toList();
        final List<Double> ratios = new ArrayList<>();
        for (VirtualInlet.Chromatogram c : ofFlask) {
            ratios.add(area(c, "limonene") / area(c, "n-C14"));
        }
        final Tree.Mapping protocol = protocol();

        assertThat(((Tree.Sequence) protocol.get("exclusions").orElseThrow()).items())
                .singleElement()
                .satisfies(
                        e ->
                                assertThat(((Tree.Mapping) e).text("injection"))
                                        .contains(oddLabel(ofFlask, incident)));
        assertThat(ratios).hasSize(3);
        assertThat(ratios.get(0) / ratios.get(2)).isBetween(0.97, 1.03);
        assertThat(ratios.get(1) / ratios.get(0))
                .as("limonene evaporated: ten percent low, a scatter of 0.7 percent")
                .isLessThan(0.93);
    }

    private static double area(VirtualInlet.Chromatogram c, String compound) {
        return c.areas().getOrDefault(compound, Double.NaN);
    }

    private static String oddLabel(List<VirtualInlet.Chromatogram> all, Plan.Incident incident) {
        return all.stream()
                .filter(c -> c.injection().number() == incident.injection())
                .map(c -> c.injection().label())
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theProtocolSetsItsRequirementsBeforeTheFirstInjectionAndNamesFilesThatExist()
            throws IOException, ProblemException {
        final Tree.Mapping protocol = protocol();
        final String first = Timetable.of(FlowerOil.design()).get(0).acquired().toString();

        assertThat(((Tree.Sequence) protocol.get("requirements").orElseThrow()).items())
                .isNotEmpty()
                .allSatisfy(
                        r ->
                                assertThat(((Tree.Mapping) r).text("set").orElseThrow())
                                        .isLessThan(first));
        assertThat(((Tree.Sequence) protocol.get("tables").orElseThrow()).items())
                .hasSize(3)
                .allSatisfy(
                        t ->
                                assertThat(
                                                Path.of("protocols", "flower-oil")
                                                        .resolve(
                                                                ((Tree.Mapping) t)
                                                                        .text("file")
                                                                        .orElseThrow()))
                                        .exists());
    }

    @Test
    void compoundsAreThoseOfTheSharedTable() throws IOException, ProblemException {
        final Map<String, List<String>> shared = sharedCompounds();

        assertThat(FlowerOil.design().compounds().values())
                .filteredOn(c -> !c.name().startsWith("peak "))
                .hasSize(30)
                .allSatisfy(
                        c -> {
                            final List<String> row = shared.get(c.name());
                            assertThat(row).as(c.name()).isNotNull();
                            assertThat(c.boilingPoint()).isEqualTo(Double.parseDouble(row.get(3)));
                            assertThat(c.carbonNumber()).isEqualTo(Double.parseDouble(row.get(5)));
                            assertThat(c.molarMass()).isEqualTo(Double.parseDouble(row.get(6)));
                        });
    }

    @Test
    void theSharedTableHoldsEveryAlkaneWithRisingBoilingPointAndASource() throws IOException {
        final Map<String, List<String>> shared = sharedCompounds();
        double before = 0;
        for (int n = 8; n <= 40; n++) {
            final List<String> row = shared.get("n-C" + n);
            assertThat(row).as("n-C" + n).hasSize(12);
            assertThat(row.get(1)).isEqualTo("C" + n + "H" + (2 * n + 2));
            final double boilingPoint = Double.parseDouble(row.get(3));
            assertThat(boilingPoint).isGreaterThan(before);
            before = boilingPoint;
        }
        assertThat(shared.values()).allSatisfy(row -> assertThat(row.get(7)).isNotBlank());
    }

    private static Tree.Mapping protocol() throws IOException, ProblemException {
        final Path file = Path.of("protocols", "flower-oil", "protocol.yaml");
        return YamlReader.read("protocol.yaml", Files.readAllBytes(file));
    }

    /** Cells by name; quotes as the writer of that table sets them. */
    private static Map<String, List<String>> sharedCompounds() throws IOException {
        final Map<String, List<String>> rows = new TreeMap<>();
        final List<String> lines =
                Files.readAllLines(Path.of("shared", "compounds.csv"), StandardCharsets.UTF_8);
        for (String line : lines.subList(1, lines.size())) {
            final List<String> cells = new ArrayList<>();
            for (String cell : line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1)) {
                cells.add(cell.replace("\"", ""));
            }
            assertThat(rows.put(cells.get(0), cells)).as(cells.get(0) + " twice").isNull();
        }
        return rows;
    }
}
