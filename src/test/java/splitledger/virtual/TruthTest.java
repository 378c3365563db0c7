package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import splitledger.base.ProblemException;

/**
 * Moments of many simulated laboratories against the true values. Seeds are fixed. A mean may lie 4
 * of its standard errors off; a standard deviation pooled over n degrees of freedom 4/sqrt(2 n),
 * which is 4 standard errors of a normal sample, and half a percent more for what the truth leaves
 * out (terms of second order and the spread of the test portions). A right simulation fails such a
 * comparison once in 16,000.
 */
class TruthTest {
    private static final int LABORATORIES = 80;
    private static final double ERRORS = 4;
    private static final double SECOND_ORDER = 0.005;

    private static final List<Laboratory> ALL = new ArrayList<>();

    /** One seed of the design. */
    private record Laboratory(
            Design design,
            VirtualInlet inlet,
            List<VirtualInlet.Chromatogram> chromatograms,
            Map<String, Double> truth) {

        List<VirtualInlet.Chromatogram> of(String experiment) {
            return chromatograms.stream()
                    .filter(c -> c.injection().experiment().equals(experiment))
                    .toList();
        }

        double truth(String compound, String condition, String quantity) {
            final Double value = truth.get(compound + "|" + condition + "|" + quantity);
            assertThat(value).as(compound + "|" + condition + "|" + quantity).isNotNull();
            return value == null ? Double.NaN : value;
        }
    }

    @BeforeAll
    static void simulate() throws IOException, ProblemException {
        for (long seed = 1; seed <= LABORATORIES; seed++) {
            final Design design = FlowerOil.withSeed(seed);
            final Map<String, Double> truth = new TreeMap<>();
            for (TrueValue t : Truth.of(design)) {
                truth.putIfAbsent(
                        t.key().compound()
                                + "|"
                                + t.key().conditionText()
                                + "|"
                                + t.key().quantity(),
                        t.value());
            }
            final VirtualInlet inlet = new VirtualInlet(design);
            ALL.add(new Laboratory(design, inlet, inlet.chromatograms(), truth));
        }
    }

    private static double area(VirtualInlet.Chromatogram c, String compound) {
        return c.areas().getOrDefault(compound, 0.0);
    }

    private static double response(Laboratory lab, String compound) {
        return lab.inlet().physics().response(lab.inlet().peaks().of(compound));
    }

    private static double ratio(VirtualInlet.Chromatogram c, String compound) {
        return area(c, compound) / area(c, "n-C14");
    }

    private static void meanIs(double expected, List<Double> values, String what) {
        final double mean = mean(values);
        final double error = Math.sqrt(variance(values) / values.size());
        assertThat(mean).as(what).isCloseTo(expected, within(ERRORS * error));
    }

    private static double mean(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).sum() / values.size();
    }

    private static double variance(List<Double> values) {
        final double mean = mean(values);
        return values.stream().mapToDouble(v -> (v - mean) * (v - mean)).sum()
                / (values.size() - 1);
    }

    /** Values by group, each group with its own mean: the pooled variance within. */
    private static final class Pooled {
        private final Map<String, List<Double>> groups = new LinkedHashMap<>();

        void add(String group, double value) {
            groups.computeIfAbsent(group, g -> new ArrayList<>()).add(value);
        }

        Map<String, Double> means() {
            final Map<String, Double> means = new LinkedHashMap<>();
            groups.forEach((group, values) -> means.put(group, mean(values)));
            return means;
        }

        void relativeScatterIs(double expected, String what) {
            double sum = 0;
            int freedom = 0;
            for (List<Double> values : groups.values()) {
                sum += variance(values) * (values.size() - 1);
                freedom += values.size() - 1;
            }
            assertThat(Math.sqrt(sum / freedom) / expected)
                    .as(what + " over its true value, " + freedom + " degrees of freedom")
                    .isCloseTo(1, within(ERRORS / Math.sqrt(2.0 * freedom) + SECOND_ORDER));
        }
    }

    @Test
    void calibrantsLieOnTheTrueLine() {
        for (String target : List.of("limonene", "linalool", "linalyl acetate")) {
            for (String level : List.of("L2", "L6")) {
                final Pooled byFlask = new Pooled();
                for (Laboratory lab : ALL) {
                    final double amount = level(lab, level, target);
                    final double onLine =
                            lab.truth(target, "", "intercept")
                                    + lab.truth(target, "", "slope") * amount;
                    for (VirtualInlet.Chromatogram c : lab.of("calibration")) {
                        if (c.injection().flask().level().equals(level)) {
                            byFlask.add(
                                    lab.design().seed() + c.injection().flask().label(),
                                    ratio(c, target) / onLine);
                        }
                    }
                }
                meanIs(1, List.copyOf(byFlask.means().values()), target + " at " + level);
            }
        }
    }

    private static double level(Laboratory lab, String level, String target) {
        return lab.design().levels().getOrDefault(level, Map.of()).getOrDefault(target, Double.NaN);
    }

    @Test
    void blanksGiveTheTrueIntercept() {
        for (String target : List.of("limonene", "linalool", "linalyl acetate")) {
            final List<Double> off = new ArrayList<>();
            for (Laboratory lab : ALL) {
                for (VirtualInlet.Chromatogram c : lab.of("blank")) {
                    off.add(ratio(c, target) - lab.truth(target, "", "intercept"));
                }
            }
            meanIs(0, off, target);
        }
    }

    @Test
    void meansOfCalibrantsScatterByAConstantAndAProportionalPart() {
        for (String target : List.of("limonene", "linalool", "linalyl acetate")) {
            for (String level : List.of("L1", "L2", "L6")) {
                final Pooled means = new Pooled();
                for (Laboratory lab : ALL) {
                    final Pooled byFlask = new Pooled();
                    for (VirtualInlet.Chromatogram c : lab.of("calibration")) {
                        if (c.injection().flask().level().equals(level)) {
                            byFlask.add(c.injection().flask().label(), ratio(c, target));
                        }
                    }
                    final double response =
                            lab.truth(target, "", "slope") * level(lab, level, target);
                    final double expected =
                            Math.hypot(
                                    lab.truth(target, "", "signal-sd-constant"),
                                    lab.truth(target, "", "signal-sd-proportional")
                                            / 100
                                            * response);
                    byFlask.means()
                            .values()
                            .forEach(mean -> means.add("" + lab.design().seed(), mean / expected));
                }
                means.relativeScatterIs(1, target + " at " + level);
            }
        }
    }

    @Test
    void spikesNearTheDetectionLimitScatterAsTheirLimitSays() {
        // Student's t of 6 degrees of freedom, one-sided 0.99, from tables
        final double t = 3.143;
        for (String target : List.of("limonene", "linalool", "linalyl acetate")) {
            final Pooled spikes = new Pooled();
            for (Laboratory lab : ALL) {
                final double expected =
                        lab.truth(target, "form=spiked", "method-detection-limit")
                                / t
                                * lab.truth(target, "", "slope");
                for (VirtualInlet.Chromatogram c : lab.of("spike-low")) {
                    spikes.add("" + lab.design().seed(), ratio(c, target) / expected);
                }
            }
            spikes.relativeScatterIs(1, target);
        }
    }

    @Test
    void injectionsPreparationsAndDaysScatterAsStated() {
        for (String target : List.of("limonene", "linalool", "linalyl acetate")) {
            final Pooled injections = new Pooled();
            final Pooled preparations = new Pooled();
            final Pooled days = new Pooled();
            for (Laboratory lab : ALL) {
                final Pooled own = new Pooled();
                final Map<String, String> cell = new LinkedHashMap<>();
                for (VirtualInlet.Chromatogram c : lab.of("repeatability")) {
                    final Flask flask = c.injection().flask();
                    final double portion = new Solutions(lab.design()).portion(flask);
                    final double scaled =
                            ratio(c, target) / portion * relative(lab, target, "sd-injection");
                    own.add(flask.label(), ratio(c, target) / portion);
                    injections.add(lab.design().seed() + flask.label(), scaled);
                    cell.put(flask.label(), flask.day() + flask.analyst());
                }
                final Pooled cells = new Pooled();
                own.means()
                        .forEach(
                                (flask, mean) -> {
                                    final String in = cell.getOrDefault(flask, "");
                                    preparations.add(
                                            lab.design().seed() + in,
                                            mean * relative(lab, target, "sd-repeatability"));
                                    cells.add(in.substring(0, 3), mean);
                                });
                final double day = lab.truth(target, "factor=day", "sd-between");
                final double within = lab.truth(target, "", "sd-repeatability");
                final double ofDayMean = Math.sqrt(day * day + within * within / 6);
                cells.means()
                        .forEach((d, mean) -> days.add("" + lab.design().seed(), mean / ofDayMean));
            }
            injections.relativeScatterIs(1, "sd-injection of " + target);
            preparations.relativeScatterIs(1, "sd-repeatability of " + target);
            days.relativeScatterIs(1, "scatter of day means of " + target);
        }
    }

    /** 1 over the true standard deviation, so that all laboratories can be pooled. */
    private static double relative(Laboratory lab, String target, String quantity) {
        return 1 / lab.truth(target, "", quantity);
    }

    @Test
    void theInternalStandardAloneScattersByStrokeDiscriminationAndIntegration() {
        final Pooled areas = new Pooled();
        for (Laboratory lab : ALL) {
            for (VirtualInlet.Chromatogram c : lab.of("repeatability")) {
                areas.add(
                        lab.design().seed() + c.injection().flask().label(),
                        area(c, "n-C14") / response(lab, "n-C14"));
            }
        }
        // stroke 2 %, discrimination 0.3 % x (253.6 - 125) / 100, integration 0.3 % and 0.05 pA*s
        final double constant = 0.05 / (15 * 14 * 12.011 / 198.394);
        final double expected =
                Math.sqrt(0.02 * 0.02 + 0.003858 * 0.003858 + 0.003 * 0.003 + constant * constant);
        areas.relativeScatterIs(expected, "area of the internal standard");
    }

    @Test
    void theHeavyEndIsLostAsStatedBeforeAndAfterMaintenance() {
        for (String occasion : List.of("before", "after")) {
            final List<Double> off = new ArrayList<>();
            for (Laboratory lab : ALL) {
                final double expected =
                        lab.truth(
                                "n-C40",
                                "occasion=" + occasion + ";reference=n-C20",
                                "heavy-to-light-ratio");
                final double response = response(lab, "n-C40") / response(lab, "n-C20");
                for (VirtualInlet.Chromatogram c : lab.of("ladder")) {
                    if (c.injection().occasion().equals(occasion)) {
                        off.add(area(c, "n-C40") / area(c, "n-C20") / response / expected);
                    }
                }
            }
            meanIs(1, off, occasion);
        }
    }

    @Test
    void theEsterBreaksDownAsStatedAtEachTemperature() {
        for (int temperature : new int[] {220, 240, 260, 280}) {
            final Pooled byLaboratory = new Pooled();
            for (Laboratory lab : ALL) {
                final double expected =
                        lab.truth(
                                "linalyl acetate", "inlet-temperature=" + temperature, "breakdown");
                for (VirtualInlet.Chromatogram c : lab.of("inlet-temperature")) {
                    if (c.injection().temperature() == temperature) {
                        byLaboratory.add("" + lab.design().seed(), breakdown(c) / expected);
                    }
                }
            }
            meanIs(1, List.copyOf(byLaboratory.means().values()), temperature + " degC");
        }
    }

    private static double breakdown(VirtualInlet.Chromatogram c) {
        final double products = area(c, "myrcene") + area(c, "ocimene");
        return 100 * products / (products + area(c, "linalyl acetate"));
    }

    /** Preparations scatter by 0.7 % (dilution) and 0.4 % (internal standard) about it. */
    @Test
    void whatTheFlaskWasMeantToHoldIsWhatTheLineFindsOnAverage() {
        final ToDoubleFunction<VirtualInlet.Chromatogram> linalool = c -> ratio(c, "linalool");
        final List<Double> off = new ArrayList<>();
        for (Laboratory lab : ALL) {
            for (VirtualInlet.Chromatogram c : lab.of("sample")) {
                final String flask = c.injection().flask().label();
                if (!flask.equals("S07")) {
                    final double found =
                            (linalool.applyAsDouble(c) - lab.truth("linalool", "", "intercept"))
                                    / lab.truth("linalool", "", "slope");
                    off.add(
                            found
                                    / lab.truth(
                                            "linalool",
                                            "preparation=" + flask,
                                            "predicted-amount"));
                }
            }
        }
        meanIs(1, off, "linalool found over linalool meant");
        assertThat(variance(off)).isLessThan(0.008 * 0.008 + 0.007 * 0.007 + 0.004 * 0.004);
    }
}
