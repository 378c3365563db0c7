package splitledger.inlet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;

/** Viscosities and flows against published tables and independent calculations. */
class SplitInletTest {
    private static final double KELVIN = 273.15;
    private static final double ATMOSPHERE = 101_325;
    private static final double ML_PER_MIN = 60e6;

    private static Uncertain exact(double value) {
        return Uncertain.exact(value, "SI");
    }

    private static SplitInlet inlet(
            Gas gas, double metres, double mm, double celsius, double gauge, double outlet) {
        return SplitInlet.of(
                gas,
                exact(metres),
                exact(mm / 1000),
                exact(gauge * 1000 + ATMOSPHERE),
                exact(outlet),
                exact(celsius + KELVIN),
                298.15,
                ATMOSPHERE);
    }

    /** CRC Handbook of Chemistry and Physics, viscosity of gases; uPa s, stated to 3 %. */
    @ParameterizedTest
    @CsvSource({
        "He, 100, 9.6", "He, 200, 15.1", "He, 300, 19.9", "He, 400, 24.3", "He, 500, 28.3",
        "He, 600, 32.2", "H2, 100, 4.1", "H2, 200, 6.8", "H2, 300, 8.9", "H2, 400, 10.9",
        "H2, 500, 12.8", "H2, 600, 14.5", "N2, 200, 12.9", "N2, 300, 17.9", "N2, 400, 22.2",
        "N2, 500, 26.1", "N2, 600, 29.6", "Ar, 200, 15.9", "Ar, 300, 22.7", "Ar, 400, 28.6",
        "Ar, 500, 33.9", "Ar, 600, 38.8"
    })
    void viscositiesAgreeWithTheHandbook(String symbol, double kelvin, double expected) {
        assertThat(1e6 * Gas.of(symbol).orElseThrow().viscosity(kelvin))
                .isCloseTo(expected, within(0.3));
    }

    /** The correlation itself, evaluated independently in R; uPa s. */
    @ParameterizedTest
    @CsvSource({
        "He, 300, 19.95216", "He, 523.15, 29.32478", "H2, 300, 8.944472", "H2, 523.15, 13.09407",
        "N2, 300, 17.80046", "N2, 523.15, 26.72071", "Ar, 300, 22.77119", "Ar, 523.15, 35.13906"
    })
    void viscositiesAreThoseOfTheCorrelation(String symbol, double kelvin, double expected) {
        assertThat(1e6 * Gas.of(symbol).orElseThrow().viscosity(kelvin))
                .isCloseTo(expected, withinPercentage(1e-4));
    }

    /** Compressible laminar flow computed independently in R, reference 25 degC and 101325 Pa. */
    @ParameterizedTest
    @CsvSource({
        "He, 30, 0.25, 100, 100, 101325, 0.98680536, 27.092006, 110.73377",
        "H2, 30, 0.25, 100, 60, 101325, 1.1468986, 36.96001, 81.16881",
        "N2, 30, 0.32, 60, 80, 101325, 2.667649, 43.136546, 69.546597",
        "He, 30, 0.25, 50, 50, 100, 0.95208749, 35.190226, 85.250944",
        "He, 10, 0.53, 40, 20, 101325, 11.830622, 85.209829, 11.735735"
    })
    void flowVelocityAndHoldUpTimeAreThoseOfLaminarFlow(
            String gas,
            double metres,
            double mm,
            double celsius,
            double gauge,
            double outlet,
            double flow,
            double velocity,
            double seconds) {
        final SplitInlet inlet =
                inlet(Gas.of(gas).orElseThrow(), metres, mm, celsius, gauge, outlet);

        assertThat(inlet.columnFlow().value() * ML_PER_MIN).isCloseTo(flow, withinPercentage(1e-4));
        assertThat(inlet.linearVelocity().value() * 100)
                .isCloseTo(velocity, withinPercentage(1e-4));
        assertThat(inlet.holdUpTime().value()).isCloseTo(seconds, withinPercentage(1e-4));
    }

    /** Worked by hand: four times the relative uncertainty of the diameter. */
    @Test
    void theDiameterCountsFourfoldInTheFlow() {
        final Root root =
                Root.normal("d", Pool.known("d", "stated"), Effect.MODEL, ActsOn.BOTH, "stated");
        final Uncertain flow =
                SplitInlet.of(
                                Gas.HELIUM,
                                exact(30),
                                Uncertain.of(0.25e-3, "m", root, 0.25e-5),
                                exact(201_325),
                                exact(ATMOSPHERE),
                                exact(313.15),
                                298.15,
                                ATMOSPHERE)
                        .columnFlow();

        assertThat(flow.standardUncertainty() / flow.value())
                .isCloseTo(Math.sqrt(0.04 * 0.04 + 0.01 * 0.01), within(1e-6));
    }

    /** Worked by hand: 50 mL/min vent, 1.2 mL/min column; the purge is in the balance alone. */
    @Test
    void theSplitRatioTakesTheVentFlowThatTotalAndPurgeLeave() {
        final Uncertain column = exact(1.2);
        final Uncertain vent = SplitInlet.ventFlow(exact(54.2), exact(3), column);

        assertThat(vent.value()).isCloseTo(50, within(1e-12));
        assertThat(SplitInlet.splitRatio(vent, column).value()).isCloseTo(42.666667, within(5e-7));
    }

    /**
     * Vapour of 1 uL at 250 degC, uL; psi gauge. Worked by hand with densities and molar masses
     * from memory (hexane 0.659 g/mL at 20 degC, 86.18 g/mol; methanol 0.791, 32.04; water 0.997,
     * 18.02).
     */
    @ParameterizedTest
    @CsvSource({
        "659, 86.18, 5, 245", "659, 86.18, 10, 196", "659, 86.18, 15, 163", "791, 32.04, 5, 792",
        "791, 32.04, 10, 629", "791, 32.04, 15, 525", "997, 18.02, 5, 1776", "997, 18.02, 10, 1418",
        "997, 18.02, 15, 1179"
    })
    void vapourVolumesFollowTheGasLaw(double density, double mass, double psi, double expected) {
        final Uncertain volume =
                inlet(Gas.HELIUM, 30, 0.25, 40, psi * 6.894757, ATMOSPHERE)
                        .vapourVolume(
                                exact(1e-9), exact(density), exact(mass / 1000), exact(523.15));

        assertThat(volume.value() * 1e9).isCloseTo(expected, withinPercentage(0.5));
    }

    /** Worked by hand: 1 mL at 200 kPa and 250 degC, 50 mL/min at 25 degC and 100 kPa. */
    @Test
    void theResidenceTimeCountsPressureAndTemperature() {
        final SplitInlet inlet =
                SplitInlet.of(
                        Gas.HELIUM,
                        exact(30),
                        exact(0.25e-3),
                        exact(200_000),
                        exact(100_000),
                        exact(313.15),
                        298.15,
                        100_000);

        assertThat(inlet.residenceTime(exact(1e-6), exact(523.15), exact(50 / ML_PER_MIN)).value())
                .isCloseTo(1.2 * 2 * 298.15 / 523.15, within(1e-9));
    }

    @Test
    void aPressureBelowTheOutletsIsRefused() {
        assertThatThrownBy(() -> inlet(Gas.HELIUM, 30, 0.25, 40, -1, ATMOSPHERE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("outlet");
    }

    /** Worked by hand: 60 mL/min, 20 mL/min after 2 min of 30; 20 injections a day. */
    @Test
    void aReducedVentFlowMakesTheCylinderLast() {
        final GasUse use = new GasUse(60, 20, 2, 30);

        assertThat(use.perInjection()).isEqualTo(680);
        assertThat(use.unreduced().perInjection()).isEqualTo(1800);
        assertThat(use.perDay(20)).isEqualTo(13_600 + 840 * 20);
        assertThat(use.days(50_000, 190, 20)).isCloseTo(9.5e6 / 30_400, within(1e-9));
    }
}
