package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import org.junit.jupiter.api.Test;
import splitledger.statistics.Quantiles;

/** Published budgets; the source stands at each. */
class LawOfPropagationTest {

    /**
     * EURACHEM/CITAC guide QUAM:2012, A1: cadmium standard, 1002.7 mg/L, u 0.9 mg/L. Inputs as
     * printed (from memory); the digits beyond the printed ones were computed with R.
     */
    @Test
    void preparationOfACalibrationStandard() {
        final double volume = Math.sqrt(0.1 * 0.1 / 6 + 0.02 * 0.02 + 0.084 * 0.084 / 3);
        assertThat(volume).isCloseTo(0.07, within(0.005));
        final Uncertain c =
                new Given()
                        .input("m", 100.28, 0.05)
                        .input("P", 0.9999, 0.000058)
                        .input("V", 100, 0.07)
                        .propagate("1000 * m * P / V");

        assertThat(c.value()).isCloseTo(1002.7, within(0.05));
        assertThat(c.standardUncertainty()).isCloseTo(0.9, within(0.05));
        assertThat(c.standardUncertainty() / c.value()).isCloseTo(0.0009, within(0.00005));
        assertDigits(7, 1002.69972, c.value(), "c");
        assertThat(c.standardUncertainty()).isCloseTo(0.8637025902, within(5e-7));
    }

    /** The same guide, A2: sodium hydroxide, 0.10214 mol/L, u 0.00010 mol/L, relative 0.00097. */
    @Test
    void standardisationOfSodiumHydroxide() {
        final Uncertain c =
                new Given()
                        .input("rep", 1, 0.0005)
                        .input("m", 0.3888, 0.00013)
                        .input("P", 1.0, 0.00029)
                        .input("M", 204.2212, 0.0038)
                        .input("V", 18.64, 0.013)
                        .propagate("rep * 1000 * m * P / (M * V)");

        assertThat(c.value()).isCloseTo(0.10214, within(0.000005));
        assertThat(c.standardUncertainty()).isCloseTo(0.00010, within(0.000005));
        assertThat(c.standardUncertainty() / c.value()).isCloseTo(0.00097, within(0.000005));
        assertDigits(9, 9.863655208e-05, c.standardUncertainty(), "u(c)");
    }

    /**
     * The same guide, A5 (2nd edition): cadmium released from ceramic ware, r 0.036 mg/dm^2; the
     * guide's u 0.0033 multiplies rounded numbers, unrounded inputs give 0.00347 (relative 0.095,
     * printed 0.09).
     */
    @Test
    void releaseOfCadmium() {
        final Uncertain r =
                new Given()
                        .input("c0", 0.26, 0.018)
                        .input("V", 0.332, 0.0018)
                        .input("aV", 2.37, 0.06)
                        .input("facid", 1, 0.0008)
                        .input("ftime", 1, 0.001)
                        .input("ftemp", 1, 0.06)
                        .propagate("c0 * V / aV * facid * ftime * ftemp");

        assertThat(r.value()).isCloseTo(0.036, within(0.0005));
        assertThat(r.standardUncertainty() / r.value()).isCloseTo(0.0952, within(0.00005));
        assertDigits(9, 0.03642194093, r.value(), "r");
        assertDigits(9, 0.003467716341, r.standardUncertainty(), "u(r)");
    }

    /**
     * JCGM 100:2008, H.1: end gauge; l 50 000 838 nm, u_c 32 nm, 16 degrees of freedom. The first
     * order computed without rounding in R: 31.71060964 and 16.84831779.
     */
    @Test
    void endGauge() {
        final Uncertain l = endGaugeInputs().propagate("lS + d - lS * (da * th + aS * dt)");

        assertThat(l.value()).isCloseTo(50000838, within(0.5));
        assertThat(l.standardUncertainty()).isCloseTo(32, within(0.5));
        assertThat(Math.floor(l.degreesOfFreedom())).isEqualTo(16);
        assertThat(Quantiles.coverageFactor(0.99, 16)).isCloseTo(2.92, within(0.005));
        // contributions as printed: 2.9 and 16.6 (u of the inputs rounded there)
        final double alpha = 50000623 * 0.1 * 5.8e-7;
        assertThat(alpha).isCloseTo(2.9, within(0.05));
        final double theta = l.part(Given.root("dt", 2, new Shape.Normal()));
        assertThat(Math.abs(theta)).isCloseTo(16.67520777, within(1e-6));
    }

    /**
     * l = lS + d - lS (da th + aS dt); standard uncertainties and degrees of freedom of table H.1.
     */
    private static Given endGaugeInputs() {
        return new Given()
                .input("lS", 50000623, 25, 18)
                .input("d", 215, 9.7, 25.6)
                .input("da", 0, 5.8e-7, 50)
                .input("th", -0.1, 0.41)
                .input("aS", 1.15e-5, 1.2e-6)
                .input("dt", 0, 0.029, 2);
    }

    @Test
    void sensitivitiesAreDerivatives() {
        final LawOfPropagation.Propagated found =
                LawOfPropagation.propagate(
                        Given.parse("a * b / c"),
                        new Given().input("a", 2, 1).input("b", 3, 1).input("c", 4, 1).inputs(),
                        "mg");

        assertThat(found.sensitivities())
                .containsEntry("a", 0.75)
                .containsEntry("b", 0.5)
                .containsEntry("c", -0.375);
        assertThat(found.result().unit()).isEqualTo("mg");
        assertThat(found.result().variance())
                .isCloseTo(0.75 * 0.75 + 0.5 * 0.5 + 0.375 * 0.375, within(1e-15));
    }

    @Test
    void anExactInputMayHaveAnInfiniteSensitivity() {
        final Uncertain y =
                new Given()
                        .input("a", Uncertain.exact(0, "1"))
                        .input("b", 4, 0.1)
                        .propagate("b + sqrt(a)");

        assertThat(y.standardUncertainty()).isCloseTo(0.1, within(1e-15));
    }

    @Test
    void whatHasNoFiniteValueIsSaidSo() {
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> new Given().input("a", 0, 1).propagate("1 / a"))
                .withMessageContaining("the equation");
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> new Given().input("a", 0, 1).propagate("sqrt(a)"))
                .withMessageContaining("derivative by a");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Given().input("a", 0, 1).propagate("a + b"))
                .withMessageContaining("symbol b");
    }
}
