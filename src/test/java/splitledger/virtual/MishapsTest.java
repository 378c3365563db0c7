package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;
import splitledger.intake.StudyReader;
import splitledger.study.Study;

/**
 * What goes wrong by chance, over many seeds. A share may lie four of its binomial standard errors
 * off, a standard deviation over n degrees of freedom by 4/sqrt(2 n) of itself.
 */
class MishapsTest {
    private static final int SEEDS = 400;
    private static final double ERRORS = 4;

    private static SmallDesign unlucky() {
        return new SmallDesign()
                .with(
                        """
                        mishaps:
                          outliers:
                            probability: {value: 4, unit: "%", basis: invented}
                            size: {value: 25, unit: "%", basis: invented}
                          missing: {value: 5, unit: "%", basis: invented}
                          aborted: {value: 10, unit: "%", basis: invented}
                          re-injected-as: R
                          lost-preparations: {value: 20, unit: "%", basis: invented}
                        """);
    }

    private static void isShare(double met, int of, double expected) {
        assertThat(met / of)
                .isCloseTo(expected, within(ERRORS * Math.sqrt(expected * (1 - expected) / of)));
    }

    @Test
    void everyMishapComesAsOftenAsStated() throws ProblemException {
        final Design design = unlucky().read();
        int planned = 0;
        int missing = 0;
        int stopped = 0;
        int repeated = 0;
        int numbered = 0;
        final Set<String> made = new HashSet<>();
        for (long seed = 1; seed <= SEEDS; seed++) {
            for (Injection i : Timetable.of(design.seeded(seed))) {
                final boolean again = i.label().endsWith("R");
                planned += again ? 0 : 1;
                missing += i.fate().missing() ? 1 : 0;
                stopped += i.fate().stopped() ? 1 : 0;
                repeated += again ? 1 : 0;
                if (i.flask().label().length() == 3) {
                    made.add(seed + i.flask().label());
                }
            }
            numbered += 4 + 1 + 3 + 1;
        }
        isShare(missing, planned, 0.05);
        isShare(stopped, planned, 0.1);
        isShare((double) numbered - made.size(), numbered, 0.2);
        assertThat(repeated).isEqualTo(stopped);
    }

    @Test
    void outliersAreTooHighOrTooLowByTheirSize() throws ProblemException {
        final Design design =
                unlucky().instead("missing: \\{value: 5", "missing: {value: 0").read();
        int peaks = 0;
        int high = 0;
        int low = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            for (VirtualInlet.Chromatogram c :
                    new VirtualInlet(design.seeded(seed)).chromatograms()) {
                final Double area = c.areas().get("n-C14");
                if (area != null) {
                    peaks++;
                    final double own =
                            area * c.injection().split() / (50 * 15 * 14 * 12.011 / 198.394);
                    high += Math.abs(own - 1.25) < 1e-9 ? 1 : 0;
                    low += Math.abs(own - 0.75) < 1e-9 ? 1 : 0;
                }
            }
        }
        isShare(high, peaks, 0.02);
        isShare(low, peaks, 0.02);
    }

    @Test
    void aStoppedRunShowsWhatElutedBeforeAndNothingAfter() throws ProblemException {
        final Design design = unlucky().read();
        int seen = 0;
        for (long seed = 1; seed <= 50; seed++) {
            final Design drawn = design.seeded(seed);
            for (VirtualInlet.Chromatogram c : new VirtualInlet(drawn).chromatograms()) {
                if (c.injection().fate().stopped()) {
                    seen++;
                    assertThat(c.areas().keySet())
                            .allSatisfy(
                                    name ->
                                            assertThat(drawn.compound(name).boilingPoint())
                                                    .isLessThanOrEqualTo(
                                                            c.injection().fate().stoppedAt()));
                }
            }
        }
        assertThat(seen).isGreaterThan(20);
    }

    @Test
    void anUnluckyStudyIsReadByItsOwnProtocolWithTheStoppedRunsExcluded(@TempDir Path out)
            throws IOException, ProblemException {
        final Design design = firstWithMissingAndStopped(unlucky().read());
        final List<Injection> plan = Timetable.of(design);
        final FolderVault vault = FolderVault.of(out);
        for (Map.Entry<String, byte[]> file : Simulation.tables(design).entrySet()) {
            vault.write(file.getKey(), file.getValue());
        }

        final Study study = StudyReader.read(vault, "protocol.yaml");

        assertThat(study.table().size()).isPositive();
        assertThat(study.protocol().exclusions())
                .extracting(e -> e.injection())
                .containsExactlyElementsOf(
                        plan.stream()
                                .filter(i -> i.fate().stopped() && !i.fate().missing())
                                .map(Injection::label)
                                .toList());
    }

    private static Design firstWithMissingAndStopped(Design design) {
        long seed = 1;
        while (true) {
            final List<Injection> plan = Timetable.of(design.seeded(seed));
            if (plan.stream().anyMatch(i -> i.fate().missing())
                    && plan.stream().anyMatch(i -> i.fate().stopped())) {
                return design.seeded(seed);
            }
            seed++;
        }
    }

    @Test
    void aProtocolAsksForNoSeriesThatWasLost(@TempDir Path out)
            throws IOException, ProblemException {
        final Design design = unlucky().read();
        int lost = 0;
        for (long seed = 1; seed <= 60; seed++) {
            final Design drawn = design.seeded(seed);
            final boolean samples =
                    Timetable.of(drawn).stream()
                            .anyMatch(i -> i.experiment().equals("sample") && !i.fate().missing());
            final FolderVault vault = FolderVault.of(out);
            for (Map.Entry<String, byte[]> file : Simulation.tables(drawn).entrySet()) {
                vault.write(file.getKey(), file.getValue());
            }
            lost += samples ? 0 : 1;

            final Study study = StudyReader.read(vault, "protocol.yaml");

            assertThat(study.protocol().measurand().isPresent()).isEqualTo(samples);
        }
        assertThat(lost).isPositive();
    }

    @Test
    void daysAnalystsTheirInteractionAndInstrumentsScatterAsStated() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .value("between-days", 1)
                        .value("between-analysts", 2)
                        .more("preparation", "day-by-analyst", 3, "%")
                        .with("instruments:\n  between: {value: 4, unit: \"%\", basis: invented}\n")
                        .instead(
                                "experiment: repeatability, flasks: P, analysts: A",
                                "experiment: repeatability, flasks: P, analysts: [A, B],"
                                        + " instruments: [X, Y]")
                        .read();
        final Map<String, Double> truth = new TreeMap<>();
        for (TrueValue t : Truth.of(design)) {
            if (t.key().compound().equals("light")) {
                truth.put(t.key().conditionText() + "|" + t.key().quantity(), t.value());
            }
        }
        double sum = 0;
        double betweenInstruments = 0;
        double betweenAnalysts = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            final Map<String, Double> cells = new TreeMap<>();
            for (VirtualInlet.Chromatogram c :
                    new VirtualInlet(design.seeded(seed)).chromatograms()) {
                if (c.injection().experiment().equals("repeatability")) {
                    final double response =
                            c.areas().getOrDefault("light", 0.0)
                                    / c.areas().getOrDefault("n-C14", 0.0)
                                    / 50
                                    / truth.getOrDefault("|mean", 0.0);
                    cells.put(c.injection().analyst() + c.injection().instrument(), response);
                }
            }
            final double ax = cells.getOrDefault("AX", 0.0);
            sum += (ax - 1) * (ax - 1);
            final double ay = cells.getOrDefault("AY", 0.0);
            betweenInstruments += (ax - ay) * (ax - ay) / 2;
            final double bx = cells.getOrDefault("BX", 0.0);
            betweenAnalysts += (ax - bx) * (ax - bx) / 2;
        }
        final double band = ERRORS / Math.sqrt(2.0 * SEEDS) + 0.005;
        assertThat(Math.sqrt(sum / SEEDS) * 100 / truth.getOrDefault("|rsd-intermediate", 0.0))
                .isCloseTo(1, within(band));
        final double mean = truth.getOrDefault("|mean", 0.0);
        final double instrument = truth.getOrDefault("factor=instrument|sd-between", 0.0) / mean;
        assertThat(instrument).isCloseTo(0.04, within(1e-12));
        assertThat(Math.sqrt(betweenInstruments / SEEDS) / instrument).isCloseTo(1, within(band));
        final double analyst = truth.getOrDefault("factor=analyst|sd-between", 0.0) / mean;
        final double both = truth.getOrDefault("factor=day:analyst|sd-between", 0.0) / mean;
        assertThat(Math.sqrt(betweenAnalysts / SEEDS) / Math.hypot(analyst, both))
                .isCloseTo(1, within(band));
        // 1, 4, 9 and 16 parts of 30
        assertThat(truth.getOrDefault("factor=instrument|variance-share", 0.0))
                .isCloseTo(100 * 16 / 30.0, within(1e-9));
    }
}
