package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import splitledger.base.ProblemException;

/** Each optional effect alone, against its formula and against the true values it changes. */
class EffectsTest {
    private static final double DIGITS = 1e-12;

    private static Map<String, Double> truth(Design design) {
        final Map<String, Double> all = new TreeMap<>();
        for (TrueValue t : Truth.of(design)) {
            all.put(
                    t.key().compound() + "|" + t.key().conditionText() + "|" + t.key().quantity(),
                    t.value());
        }
        return all;
    }

    private static double of(Map<String, Double> truth, String key) {
        assertThat(truth).containsKey(key);
        return truth.getOrDefault(key, Double.NaN);
    }

    private static List<VirtualInlet.Chromatogram> of(Design design, String experiment) {
        return new VirtualInlet(design)
                .chromatograms().stream()
                        .filter(c -> c.injection().experiment().equals(experiment))
                        .toList();
    }

    private static double area(VirtualInlet.Chromatogram c, String compound) {
        return c.areas().getOrDefault(compound, Double.NaN);
    }

    private static void near(double value, double expected) {
        assertThat(value / expected).isCloseTo(1, within(DIGITS));
    }

    @Test
    void withoutAnyEffectTheLineAndTheSplitAreExact() throws ProblemException {
        final Design design = new SmallDesign().read();
        final Map<String, Double> truth = truth(design);

        for (VirtualInlet.Chromatogram c : of(design, "calibration")) {
            final double amount = c.injection().flask().level().equals("L1") ? 10 : 100;
            near(area(c, "light") / area(c, "n-C14"), of(truth, "light||slope") * amount);
        }
        for (VirtualInlet.Chromatogram c : of(design, "split")) {
            // 100 mg/L x 1 uL / r = 100 ng / r, 15 pA*s per ng of carbon, 9 of 130 g/mol are carbon
            near(area(c, "light"), 100 / c.injection().split() * 15 * 9 * 12.011 / 130);
        }
        assertThat(of(truth, "light||split-exponent")).isEqualTo(1);
        assertThat(of(truth, "||convention-offset")).isEqualTo(0);
    }

    @Test
    void wrongFlowsAndAnotherConventionMoveTheOffset() throws ProblemException {
        for (String convention : List.of("total-to-column", "vent-to-column")) {
            final Design design =
                    new SmallDesign()
                            .with(
                                    "split:\n"
                                            + "  table: "
                                            + convention
                                            + "\n  meter-gain: {value: 5, unit: \"%\", basis: invented}\n"
                                            + "  column-flow: {value: 4, unit: \"%\", basis: invented}\n")
                            .read();
            final double offset = of(truth(design), "||convention-offset");
            final double less = convention.startsWith("vent") ? 1 : 0;

            final List<VirtualInlet.Chromatogram> made = of(design, "split");
            final double first =
                    area(made.get(0), "light") * (made.get(0).injection().split() - less + offset);
            assertThat(offset).isNotEqualTo(less);
            for (VirtualInlet.Chromatogram c : made) {
                near(area(c, "light") * (c.injection().split() - less + offset), first);
            }
        }
    }

    @Test
    void theExponentDependsOnTheBoilingPointAsStated() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .with(
                                """
                                split:
                                  exponent: {value: 0.97, unit: "1", basis: invented}
                                  exponent-slope: {value: 0.02, unit: 1/(100 degC), basis: invented}
                                  exponent-at: {value: 150, unit: degC, basis: invented}
                                """)
                        .read();
        final Map<String, Double> truth = truth(design);

        assertThat(of(truth, "light||split-exponent")).isCloseTo(0.97, within(DIGITS));
        assertThat(of(truth, "heavy||split-exponent")).isCloseTo(1.01, within(DIGITS));
        assertThat(of(truth, "||split-exponent-slope")).isEqualTo(0.02);
        assertThat(truth).doesNotContainKeys("||split-exponent", "||convention-offset");
        for (String compound : List.of("light", "heavy")) {
            final double slope =
                    Math.log(areaAt(design, 5, compound) / areaAt(design, 100, compound))
                            / Math.log(20);
            near(slope, of(truth, compound + "||split-exponent"));
        }
    }

    private static double areaAt(Design design, double ratio, String compound) {
        return of(design, "split").stream()
                .filter(c -> c.injection().split() == ratio)
                .mapToDouble(c -> area(c, compound))
                .findFirst()
                .orElse(Double.NaN);
    }

    @Test
    void responseIsLostBelowTheNamedRatioAndHardlyAboveIt() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .with(
                                """
                                split:
                                  low-ratio:
                                    below: {value: 10, unit: "1", basis: invented}
                                    deviation: {value: 20, unit: "%", basis: invented}
                                """)
                        .read();
        final Map<String, Double> truth = truth(design);

        for (double ratio : new double[] {5, 10, 20, 100}) {
            final String key = "|ratio=" + (int) ratio + "|response-kept";
            near(
                    100
                            * areaAt(design, ratio, "light")
                            * ratio
                            / (areaAt(design, 50, "light") * 50),
                    of(truth, key));
            near(of(truth, "light" + key), of(truth, key));
        }
        // at the named ratio half of 20 % is lost, at 50 practically nothing
        assertThat(of(truth, "|ratio=10|response-kept")).isCloseTo(90, within(0.1));
        assertThat(of(truth, "|ratio=100|response-kept")).isCloseTo(100, within(0.1));
        assertThat(truth).doesNotContainKeys("light||split-exponent", "||convention-offset");
    }

    @Test
    void aSaturatedDetectorBendsTheLineAndItsTruthIsLeftOut() throws ProblemException {
        final Design straight = new SmallDesign().read();
        final Design bent = new SmallDesign().more("detector", "saturation", 200, "pA*s").read();

        for (int i = 0; i < of(straight, "split").size(); i++) {
            final double area = area(of(straight, "split").get(i), "heavy");
            near(area(of(bent, "split").get(i), "heavy"), area / (1 + area / 200));
        }
        assertThat(truth(bent))
                .doesNotContainKeys("light||slope", "light||split-exponent")
                .containsKey("light|preparation=S01|result");
    }

    @Test
    void drifts() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .more("detector", "drift", 0.5, "%")
                        .more("detector", "drift-against-standard", -0.2, "%")
                        .read();
        final List<VirtualInlet.Chromatogram> day =
                new VirtualInlet(design)
                        .chromatograms().stream()
                                .filter(c -> c.injection().day().equals("D2"))
                                .toList();

        for (int i = 0; i < day.size(); i++) {
            near(area(day.get(i), "n-C14") / area(day.get(0), "n-C14"), 1 + 0.005 * i);
            near(ratio(day.get(i)) / ratio(day.get(0)), 1 - 0.002 * i);
        }
        assertThat(of(truth(design), "light||drift-per-injection")).isEqualTo(-0.2);
        assertThat(truth(design)).doesNotContainKey("light||sd-repeatability");
    }

    private static double ratio(VirtualInlet.Chromatogram c) {
        return area(c, "light") / area(c, "n-C14");
    }

    @Test
    void aBlankAfterACalibrantShowsTheShareThatIsCarriedOver() throws ProblemException {
        final Design design = new SmallDesign().more("inlet", "carry-over", 0.4, "%").read();
        final List<VirtualInlet.Chromatogram> all = new VirtualInlet(design).chromatograms();
        final VirtualInlet.Chromatogram blank = of(design, "blank").get(0);
        final VirtualInlet.Chromatogram before = all.get(blank.injection().order() - 2);
        final double amount = before.injection().flask().level().equals("L1") ? 10 : 100;

        assertThat(before.injection().experiment()).isEqualTo("calibration");
        near(area(blank, "light"), 0.004 * amount / 50 * 15 * 9 * 12.011 / 130);
        assertThat(of(truth(design), "light||carry-over")).isEqualTo(0.4);
    }

    @Test
    void needleAndInletDiscriminateTogetherAndNeitherOnTheColumn() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .with(
                                """
                                needle:
                                  loss: {value: 10, unit: "%", basis: invented}
                                  midpoint: {value: 400, unit: degC, basis: invented}
                                  width: {value: 50, unit: degC, basis: invented}
                                discrimination:
                                  heavy-end-loss: {value: 20, unit: "%", basis: invented}
                                  midpoint: {value: 500, unit: degC, basis: invented}
                                  width: {value: 60, unit: degC, basis: invented}
                                  scatter-per-100-degC: {value: 0, unit: "%", basis: invented}
                                  scatter-from: {value: 125, unit: degC, basis: invented}
                                """)
                        .instead(
                                "analysts: A, levels: ladder",
                                "analysts: A, levels: ladder, injections: 1}\n"
                                        + "      - - {experiment: cold, flask: LADDER, analysts: A,"
                                        + " levels: ladder, technique: on-column")
                        .read();
        final VirtualInlet.Chromatogram split = of(design, "ladder").get(0);
        final VirtualInlet.Chromatogram cold = of(design, "cold").get(0);

        // 1 - 0.1 / (1 + exp(-(525 - 400) / 50)) = 0.907586..., of the inlet 1 - 0.2 / (1 +
        // exp(-25/60))
        final double needle = 1 - 0.1 / (1 + Math.exp(-2.5));
        final double inlet = 1 - 0.2 / (1 + Math.exp(-25.0 / 60));
        near(area(split, "n-C40") / area(cold, "n-C40") * 50, needle * inlet);
        near(
                of(truth(design), "n-C40|reference=n-C20|relative-response"),
                area(split, "n-C40")
                        / area(cold, "n-C40")
                        / (area(split, "n-C20") / area(cold, "n-C20")));
    }

    @Test
    void anErrorOfTheStockMovesTheLineInStatedAmountsButNotTheResult() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .with(
                                "stocks:\n  calibrants: {levels: [L1, L2], mass: {value: 2, unit: \"%\","
                                        + " basis: invented}}\n")
                        .read();
        final Map<String, Double> truth = truth(design);
        final double exact = of(truth(new SmallDesign().read()), "light||slope");

        for (VirtualInlet.Chromatogram c : of(design, "calibration")) {
            final double stated = c.injection().flask().level().equals("L1") ? 10 : 100;
            near(ratio(c), of(truth, "light||slope") * stated);
        }
        assertThat(Math.abs(of(truth, "light||slope") / exact - 1)).isBetween(1e-4, 0.08);
        for (VirtualInlet.Chromatogram c : of(design, "sample")) {
            near(
                    ratio(c) / of(truth, "light||slope"),
                    of(truth, "light|preparation=S01|predicted-amount"));
        }
        assertThat(of(truth, "light|preparation=S01|result")).isEqualTo(10);
        // 10 mg/g x 50 mg in 10 mL are 50 mg/L
        near(
                of(truth, "light|preparation=S01|predicted-amount") * of(truth, "light||slope"),
                50 * exact);
    }

    @Test
    void withoutInternalStandardTheLineIsThatOfItsDay() throws ProblemException {
        final Design design =
                new SmallDesign()
                        .instead("(?s)internal-standard:\n.*?targets", "targets")
                        .value("day-gain", 5)
                        .value("split-setting-scatter", 3)
                        .read();
        final Map<String, Double> truth = truth(design);

        for (VirtualInlet.Chromatogram c : of(design, "calibration")) {
            final double amount = c.injection().flask().level().equals("L1") ? 10 : 100;
            near(area(c, "light"), of(truth, "light||slope") * amount);
        }
        // days: gain 5 % and setting 3 %, nothing else
        near(of(truth, "light||rsd-intermediate"), 100 * Math.sqrt(0.05 * 0.05 + 0.03 * 0.03));
        assertThat(truth).doesNotContainKey("light|preparation=S01|predicted-amount");
    }

    @Test
    void severalParentsDecomposeEachByItsOwnRate() throws ProblemException {
        final String loss =
                """
                  - parent: %s
                    products: {piece: {value: 100, unit: "%%", basis: invented}}
                    rate: {value: %s, unit: 1/s, basis: invented}
                    rate-temperature: {value: 220, unit: degC, basis: invented}
                    activation-energy: {value: 80, unit: kJ/mol, basis: invented}
                """;
        final Design design =
                new SmallDesign()
                        .with(
                                "losses:\n"
                                        + loss.formatted("light", "0.1")
                                        + loss.formatted("heavy", "0.3"))
                        .read();
        final Design whole = new SmallDesign().read();
        final VirtualInlet.Chromatogram less = of(design, "split").get(0);
        final VirtualInlet.Chromatogram all = of(whole, "split").get(0);
        // 60 x 1 mL x (200 / 101.325) x (298.15 / 493.15) / (ratio x 1.5 mL/min)
        final double seconds =
                60 * (200 / 101.325) * (298.15 / 493.15) / (less.injection().split() * 1.5);

        near(area(less, "light") / area(all, "light"), Math.exp(-0.1 * seconds));
        near(area(less, "heavy") / area(all, "heavy"), Math.exp(-0.3 * seconds));
        final double nanomoles =
                100 / 130.0 * (1 - Math.exp(-0.1 * seconds))
                        + 200 / 300.0 * (1 - Math.exp(-0.3 * seconds));
        near(area(less, "piece"), nanomoles * 15 * 5 * 12.011 / less.injection().split());
    }
}
