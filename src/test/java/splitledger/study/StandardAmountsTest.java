package splitledger.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import splitledger.propagation.Uncertain;
import splitledger.study.Standards.Diluted;
import splitledger.study.Standards.Portion;
import splitledger.study.Standards.Solution;
import splitledger.study.Standards.Spread;
import splitledger.study.Standards.Temperature;
import splitledger.study.Standards.Vessel;
import splitledger.study.Standards.Weighed;
import splitledger.study.Standards.Weighing;

class StandardAmountsTest {
    private static final double GLASS = 1e-5;
    private static final double SOLVENT = 1.2e-3;

    private static Vessel vessel(String piece, double volume, double u, double repeatability) {
        return new Vessel(
                piece, piece, volume, new Spread(u, "triangular"), repeatability, GLASS, "hand");
    }

    private static Weighing weighing(double mass, double u, double purity, double purityU) {
        return new Weighing(
                mass, new Spread(u, "normal"), purity, new Spread(purityU, "rectangular"), "hand");
    }

    private static Weighed stock(Vessel into) {
        final Map<String, Weighing> weighings = new LinkedHashMap<>();
        weighings.put("a", weighing(100, 0.1, 0.99, 0.002));
        weighings.put("b", weighing(50, 0.1, 0.98, 0.001));
        return new Weighed("stock", weighings, into);
    }

    private static StandardAmounts amounts(Optional<Temperature> laboratory, Solution... made) {
        final Map<String, Solution> solutions = new LinkedHashMap<>();
        for (Solution s : made) {
            solutions.put(s.name(), s);
        }
        return StandardAmounts.of(
                new Standards(laboratory, SOLVENT, solutions, Place.NONE), "mg/L");
    }

    private static Uncertain of(StandardAmounts amounts, String solution, String compound) {
        return amounts.amount(solution, compound).orElseThrow();
    }

    private static Diluted diluted(String name, String of, double take, Vessel with, Vessel into) {
        return new Diluted(name, List.of(new Portion(of, take, with)), into);
    }

    private static double square(double x) {
        return x * x;
    }

    /** Worked by hand: 100 mg x 0.99 / 100 mL = 990 mg/L; relative parts add in squares. */
    @Test
    void aStockIsMassTimesPurityOverVolume() {
        final StandardAmounts made = amounts(Optional.empty(), stock(vessel("F", 100, 0.04, 0.02)));
        final Uncertain a = of(made, "stock", "a");
        final double relative =
                square(0.1 / 100) + square(0.002 / 0.99) + square(0.04 / 100) + square(0.02 / 100);

        assertThat(a.value()).isCloseTo(990, within(1e-10));
        assertThat(a.variance()).isCloseTo(square(990) * relative, within(1e-9));
        assertThat(a.degreesOfFreedom()).isInfinite();
    }

    @Test
    void compoundsOfOneFlaskShareItsErrorAndNothingElse() {
        final StandardAmounts made = amounts(Optional.empty(), stock(vessel("F", 100, 0.04, 0.02)));
        final Uncertain a = of(made, "stock", "a");
        final Uncertain b = of(made, "stock", "b");

        assertThat(a.covariance(b))
                .isCloseTo(990 * 490 * (square(0.04 / 100) + square(0.02 / 100)), within(1e-9));
    }

    /** Two levels from one stock: everything of the stock is common, the rest their own. */
    @Test
    void levelsShareWhatTheirStockHas() {
        final StandardAmounts made =
                amounts(
                        Optional.empty(),
                        stock(vessel("F", 100, 0.04, 0)),
                        diluted(
                                "L2",
                                "stock",
                                25,
                                vessel("p1", 25, 0.012, 0.005),
                                vessel("f1", 50, 0.03, 0)),
                        diluted(
                                "L1",
                                "stock",
                                10,
                                vessel("p2", 10, 0.008, 0),
                                vessel("f2", 100, 0.04, 0)));
        final Uncertain two = of(made, "L2", "a");
        final Uncertain one = of(made, "L1", "a");
        final double common = square(0.1 / 100) + square(0.002 / 0.99) + square(0.04 / 100);

        assertThat(two.value()).isCloseTo(495, within(1e-10));
        assertThat(one.value()).isCloseTo(99, within(1e-10));
        assertThat(one.covariance(two)).isCloseTo(495 * 99 * common, within(1e-9));
        assertThat(two.variance())
                .isCloseTo(
                        square(495)
                                * (common
                                        + square(0.012 / 25)
                                        + square(0.005 / 25)
                                        + square(0.03 / 50)),
                        within(1e-9));
    }

    /** The same pipette twice: its relative error is the same in both levels. */
    @Test
    void theSamePieceHasTheSameErrorWhereverItIsUsed() {
        final Vessel pipette = vessel("P", 10, 0.008, 0);
        final Weighed exact =
                new Weighed("stock", Map.of("a", weighing(100, 0, 1, 0)), vessel("F", 100, 0, 0));
        final StandardAmounts made =
                amounts(
                        Optional.empty(),
                        exact,
                        diluted("L2", "stock", 10, pipette, vessel("f1", 50, 0, 0)),
                        diluted("L1", "L2", 10, pipette, vessel("f2", 100, 0, 0)));
        final Uncertain two = of(made, "L2", "a");
        final Uncertain one = of(made, "L1", "a");

        assertThat(two.correlation(one)).isCloseTo(1, within(1e-12));
        assertThat(one.standardUncertainty())
                .as("twice in the chain: the relative error doubles")
                .isCloseTo(one.value() * 2 * 0.0008, within(1e-12));
    }

    /** A flask that was used for the stock and for a level: signs are kept. */
    @Test
    void aPieceThatEntersTwiceIsAddedWithItsSign() {
        final Vessel flask = vessel("F", 100, 0.05, 0);
        final Weighed stock = new Weighed("stock", Map.of("a", weighing(100, 0, 1, 0)), flask);
        final Vessel same = new Vessel("F", "F", 100, new Spread(0.05, "triangular"), 0, GLASS, "");
        final StandardAmounts made =
                amounts(
                        Optional.empty(),
                        stock,
                        diluted("again", "stock", 100, same, vessel("G", 200, 0, 0)));

        assertThat(of(made, "again", "a").standardUncertainty())
                .as("a flask that gives away what it took in makes no error")
                .isCloseTo(0, within(1e-12));
    }

    /** Worked by hand: relative part (s - g) t / sqrt(3), the same at every level. */
    @Test
    void aDeviationOfTheTemperatureCancelsInADilutionAndStaysInTheStock() {
        final Weighed exact =
                new Weighed("stock", Map.of("a", weighing(100, 0, 1, 0)), vessel("F", 100, 0, 0));
        final StandardAmounts made =
                amounts(
                        Optional.of(new Temperature(20, 3)),
                        exact,
                        diluted("L1", "stock", 10, vessel("P", 10, 0, 0), vessel("f", 100, 0, 0)));
        final double relative = (SOLVENT - GLASS) * 3 / Math.sqrt(3);

        assertThat(of(made, "stock", "a").standardUncertainty())
                .isCloseTo(1000 * relative, within(1e-9));
        assertThat(of(made, "L1", "a").standardUncertainty())
                .isCloseTo(100 * relative, within(1e-9));
        assertThat(of(made, "L1", "a").correlation(of(made, "stock", "a")))
                .isCloseTo(1, within(1e-12));
    }

    @Test
    void aWarmLaboratoryMakesTheGlassLargerAndNothingElse() {
        final Weighed exact =
                new Weighed("stock", Map.of("a", weighing(100, 0, 1, 0)), vessel("F", 100, 0, 0));
        final StandardAmounts made = amounts(Optional.of(new Temperature(25, 0)), exact);

        assertThat(of(made, "stock", "a").value()).isCloseTo(1000 / 1.00005, within(1e-9));
        assertThat(of(made, "stock", "a").variance()).isZero();
    }

    /** Two stocks into one flask: amounts of one compound add up. */
    @Test
    void portionsOfSeveralSolutionsAddUp() {
        final Weighed one =
                new Weighed("one", Map.of("a", weighing(100, 0.1, 1, 0)), vessel("F", 100, 0, 0));
        final Weighed two =
                new Weighed("two", Map.of("a", weighing(50, 0.1, 1, 0)), vessel("G", 100, 0, 0));
        final Diluted mixed =
                new Diluted(
                        "mixed",
                        List.of(
                                new Portion("one", 10, vessel("P", 10, 0, 0)),
                                new Portion("two", 20, vessel("Q", 20, 0, 0))),
                        vessel("H", 100, 0, 0));
        final StandardAmounts made = amounts(Optional.empty(), one, two, mixed);
        final Uncertain a = of(made, "mixed", "a");

        assertThat(a.value()).isCloseTo(200, within(1e-10));
        assertThat(a.variance()).isCloseTo(square(0.1) + square(0.2), within(1e-10));
        assertThat(made.trail("mixed", "a").steps())
                .extracting(Trail.Step::numbers)
                .containsExactly(
                        "100 mg * 1 / 100 mL * 1000 (mg/mL to mg/L)",
                        "50 mg * 1 / 100 mL * 1000 (mg/mL to mg/L)",
                        "(1000 * 10 mL + 500 * 20 mL) / 100 mL");
    }

    @Test
    void theOrderInWhichSolutionsStandDoesNotMatter() {
        final Solution stock = stock(vessel("F", 100, 0.04, 0.02));
        final Solution l1 =
                diluted("L1", "stock", 10, vessel("p1", 10, 0.01, 0), vessel("f1", 100, 0.04, 0));
        final Solution l2 =
                diluted("L2", "stock", 25, vessel("p2", 25, 0.01, 0), vessel("f2", 50, 0.03, 0));
        final StandardAmounts one = amounts(Optional.of(new Temperature(20, 3)), stock, l1, l2);
        final StandardAmounts other = amounts(Optional.of(new Temperature(20, 3)), stock, l2, l1);

        assertThat(of(other, "L1", "a").covariance(of(other, "L2", "a")))
                .isEqualTo(of(one, "L1", "a").covariance(of(one, "L2", "a")));
        assertThat(of(other, "L1", "b").variance()).isEqualTo(of(one, "L1", "b").variance());
    }

    @Test
    void amountsAreGivenInTheUnitAskedFor() {
        final Map<String, Solution> one = Map.of("stock", stock(vessel("F", 100, 0.04, 0)));
        final Standards tree = new Standards(Optional.empty(), 0, one, Place.NONE);

        assertThat(of(StandardAmounts.of(tree, "g/L"), "stock", "a").value())
                .isCloseTo(0.99, within(1e-12));
        assertThat(of(StandardAmounts.of(tree, "ng/mL"), "stock", "a").value())
                .isCloseTo(990_000, within(1e-6));
        assertThatThrownBy(() -> StandardAmounts.of(tree, "furlong"))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
