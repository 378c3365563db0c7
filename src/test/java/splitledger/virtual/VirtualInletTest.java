package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.base.ProblemException;

class VirtualInletTest {
    private static final double ROUNDING = 1e-12;

    @Test
    void anInjectionDoesNotDependOnTheOrderOfEvaluation() throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final List<Injection> backwards = new ArrayList<>(Timetable.of(design));
        Collections.reverse(backwards);
        final VirtualInlet inlet = new VirtualInlet(design);
        final List<VirtualInlet.Chromatogram> made = new ArrayList<>();
        backwards.forEach(i -> made.add(inlet.inject(i)));
        Collections.reverse(made);

        assertThat(made).isEqualTo(new VirtualInlet(design).chromatograms());
    }

    @Test
    void injectionsInParallelGiveTheSame() throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final VirtualInlet inlet = new VirtualInlet(design);

        assertThat(Timetable.of(design).parallelStream().map(inlet::inject).toList())
                .isEqualTo(inlet.chromatograms());
    }

    @Test
    void anExperimentDoesNotDependOnWhatElseTheDesignHolds() throws IOException, ProblemException {
        final String whole = FlowerOil.text();
        final int from = whole.indexOf("  - day: D07\n");
        final int to = whole.indexOf("  - day: D08\n");
        final String shorter = whole.substring(0, from) + whole.substring(to);

        assertThat(areasOf("sample", FlowerOil.read(shorter)))
                .hasSize(25)
                .isEqualTo(areasOf("sample", FlowerOil.read(whole)));
    }

    private static List<Map<String, Double>> areasOf(String experiment, Design design) {
        return new VirtualInlet(design)
                .chromatograms().stream()
                        .filter(c -> c.injection().experiment().equals(experiment))
                        .map(VirtualInlet.Chromatogram::areas)
                        .toList();
    }

    @Test
    void theSeedDecidesEveryArea() throws IOException, ProblemException {
        assertThat(areasOf("calibration", FlowerOil.withSeed(1)))
                .doesNotContainAnyElementsOf(areasOf("calibration", FlowerOil.withSeed(2)));
    }

    @Test
    void residenceTimeAndLossAreThoseWorkedByHand() throws IOException, ProblemException {
        final LinerLoss loss = loss(FlowerOil.design());

        // 60 x 0.98 mL x (201.3 / 101.325) x (298.15 / 493.15) / (50 x 1.33 mL/min)
        assertThat(loss.residenceTime(50, 220)).isCloseTo(1.06204, within(1e-5));
        assertThat(loss.rate(220)).isEqualTo(0.042);
        // 0.042 exp(80000 / 8.314463 (1/493.15 - 1/553.15)) = 0.042 x 8.3007
        assertThat(loss.rate(280)).isCloseTo(0.34863, within(1e-4));
        // 1 - exp(-0.0446057)
        assertThat(loss.decomposed(50, 220)).isCloseTo(0.0436255, within(1e-6));
        assertThat(loss.decomposed(10, 220)).isGreaterThan(4 * loss.decomposed(50, 220));
    }

    @Test
    void molesOfTheEsterAreKept() throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final Peaks peaks = new Peaks(design);
        final double[] before = peaks.array(Map.of("linalyl acetate", 4.0));
        final double[] left = before.clone();
        loss(design).act(before, left, 50, 280);
        final Map<String, Double> after = peaks.map(left);

        double moles = 0;
        for (Map.Entry<String, Double> e : after.entrySet()) {
            moles += e.getValue() / design.compound(e.getKey()).molarMass();
        }
        assertThat(after).containsOnlyKeys("linalyl acetate", "myrcene", "ocimene");
        assertThat(moles).isCloseTo(4.0 / 196.290, within(ROUNDING));
    }

    @Test
    void expectedAreasFallAsTheRatioRisesButForTheEster() throws IOException, ProblemException {
        final VirtualInlet inlet = new VirtualInlet(FlowerOil.design());
        final Map<String, Double> amounts = Map.of("limonene", 100.0, "linalyl acetate", 100.0);
        final Map<String, Double> at20 = expected(inlet, amounts, 20);
        final Map<String, Double> at200 = expected(inlet, amounts, 200);

        assertThat(area(at20, "limonene") / area(at200, "limonene"))
                .isCloseTo(10, within(ROUNDING));
        assertThat(area(at20, "linalyl acetate") / area(at200, "linalyl acetate"))
                .as("longer in the liner at the small ratio")
                .isBetween(8.5, 9.5);
    }

    private static Map<String, Double> expected(
            VirtualInlet inlet, Map<String, Double> amounts, double ratio) {
        return inlet.peaks()
                .map(inlet.physics().expected(inlet.peaks().array(amounts), ratio, 220, ""));
    }

    private static LinerLoss loss(Design design) {
        return LinerLoss.of(design, new Peaks(design)).get(0);
    }

    private static double area(Map<String, Double> areas, String compound) {
        return areas.getOrDefault(compound, Double.NaN);
    }

    private static double kept(Physics physics, Design design, String member, String occasion) {
        return physics.kept(design.compound(member).boilingPoint(), occasion);
    }

    @Test
    void discriminationNeverHelpsAndGrowsWithTheBoilingPoint()
            throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final Physics physics = new VirtualInlet(design).physics();
        final Peaks peaks = new Peaks(design);
        double before = 1;
        double noise = -1;
        for (int n = 8; n <= 40; n += 2) {
            final String member = "n-C" + n;
            assertThat(kept(physics, design, member, "before")).isLessThan(before).isGreaterThan(0);
            assertThat(physics.scatter(peaks.of(member))).isGreaterThan(noise);
            before = kept(physics, design, member, "before");
            noise = physics.scatter(peaks.of(member));
            assertThat(kept(physics, design, member, "after")).isGreaterThan(before);
        }
    }

    @Test
    void peaksBelowTheThresholdAreNotDetectedUnlessTheirWindowIsForced()
            throws IOException, ProblemException {
        final Design design = FlowerOil.design();
        final double threshold = design.integration().threshold().value();
        int small = 0;
        for (VirtualInlet.Chromatogram c : new VirtualInlet(design).chromatograms()) {
            assertThat(c.areas()).containsKeys(design.forced().toArray(new String[0]));
            for (Map.Entry<String, Double> e : c.areas().entrySet()) {
                assertThat(e.getValue()).isNotZero();
                if (design.forced().contains(e.getKey())) {
                    small += e.getValue() < 0 ? 1 : 0;
                } else {
                    assertThat(e.getValue()).isGreaterThanOrEqualTo(threshold - 1e-5);
                }
            }
        }
        assertThat(small).as("signed areas around zero in blanks").isPositive();
    }
}
