package splitledger.inlet;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;

/**
 * Carrier gases with their viscosity at low pressure: eta = a T^b / (1 + c/T + d/T^2), the
 * coefficients of Perry's Chemical Engineers' Handbook, 8th ed., table 2-312 (from an open copy).
 * Compared with the tables of the CRC Handbook from 100 to 600 K they agree within 1 %; {@link
 * #RELATIVE_UNCERTAINTY} is the spread between published correlations there.
 */
public enum Gas {
    HELIUM("He", 3.253e-07, 0.7162, -9.6, 107),
    HYDROGEN("H2", 1.797e-07, 0.685, -0.59, 140),
    NITROGEN("N2", 6.5592e-07, 0.6081, 54.714, 0),
    ARGON("Ar", 9.2121e-07, 0.60529, 83.24, 0);

    /** Relative standard uncertainty of the viscosity. */
    public static final double RELATIVE_UNCERTAINTY = 0.01;

    /** Lowest temperature for which the viscosity is given, K. */
    public static final double COLDEST = 100;

    /** Highest temperature for which the viscosity is given, K. */
    public static final double HOTTEST = 700;

    private final String symbol;
    private final double a;
    private final double b;
    private final double c;
    private final double d;

    Gas(String symbol, double a, double b, double c, double d) {
        this.symbol = symbol;
        this.a = a;
        this.b = b;
        this.c = c;
        this.d = d;
    }

    /** The name in files: He, H2, N2, Ar. */
    public String symbol() {
        return symbol;
    }

    /** The gas of a symbol. */
    public static Optional<Gas> of(String symbol) {
        return Arrays.stream(values()).filter(g -> g.symbol.equals(symbol)).findFirst();
    }

    /**
     * Viscosity, Pa s.
     *
     * @param temperature K, from {@link #COLDEST} to {@link #HOTTEST}
     * @throws IllegalArgumentException outside of this range
     */
    public double viscosity(double temperature) {
        if (!(temperature >= COLDEST && temperature <= HOTTEST)) {
            throw new IllegalArgumentException(
                    "temperature = " + temperature + " K, must lie from 100 to 700 K");
        }
        return a
                * FastMath.pow(temperature, b)
                / (1 + c / temperature + d / (temperature * temperature));
    }
}
