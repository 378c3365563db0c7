package splitledger.study;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How the calibrants were made: solutions weighed into vessels and diluted from each other, each
 * named. {@link StandardAmounts} turns it into amounts.
 *
 * @param laboratory temperature while they were made, if stated
 * @param expansion of the solvent's volume, per kelvin
 * @param solutions by name, a parent before what is made of it
 * @param place where it stands
 */
public record Standards(
        Optional<Temperature> laboratory,
        double expansion,
        Map<String, Solution> solutions,
        Place place) {
    /** Temperature to which volumetric glassware is adjusted, degC (ISO 384, from memory). */
    public static final double ADJUSTED_AT = 20;

    public Standards {
        solutions = Collections.unmodifiableMap(new LinkedHashMap<>(solutions));
    }

    /**
     * The solution of a row: its preparation if a solution has that name, else its level, else
     * none.
     */
    public Optional<String> solution(InjectionTable table, int row) {
        final String preparation = table.label("preparation", row);
        final String level = table.label("level", row);
        if (solutions.containsKey(preparation)) {
            return Optional.of(preparation);
        }
        return Optional.of(level).filter(solutions::containsKey);
    }

    /**
     * A temperature between limits.
     *
     * @param celsius its middle, degC
     * @param halfWidth kelvin
     */
    public record Temperature(double celsius, double halfWidth) {}

    /** One solution. */
    public sealed interface Solution {
        /** Its name. */
        String name();

        /** The vessel that was made up to the mark. */
        Vessel into();
    }

    /**
     * A solution of weighed substances.
     *
     * @param weighings by compound, in order of the file
     */
    public record Weighed(String name, Map<String, Weighing> weighings, Vessel into)
            implements Solution {
        public Weighed {
            weighings = Collections.unmodifiableMap(new LinkedHashMap<>(weighings));
        }
    }

    /**
     * A solution of portions of others.
     *
     * @param portions in order of the protocol
     */
    public record Diluted(String name, List<Portion> portions, Vessel into) implements Solution {
        public Diluted {
            portions = List.copyOf(portions);
        }
    }

    /**
     * One portion.
     *
     * @param of name of the solution it was taken from
     * @param volume aimed at and, for a calibrated piece, corrected; mL
     * @param with the vessel that measured it
     */
    public record Portion(String of, double volume, Vessel with) {}

    /**
     * One weighing.
     *
     * @param mass net, mg
     * @param massError of the net mass, mg
     * @param purity mass fraction
     * @param purityError of the mass fraction
     * @param source of the purity, as stated
     */
    public record Weighing(
            double mass, Spread massError, double purity, Spread purityError, String source) {}

    /**
     * Size of an error.
     *
     * @param standardUncertainty in the unit of its value, {@code >= 0}
     * @param shape code of its distribution
     */
    public record Spread(double standardUncertainty, String shape) {
        /** None. */
        public static final Spread NONE = new Spread(0, "normal");
    }

    /**
     * A vessel as it was used.
     *
     * @param piece tells pieces apart: the same name is the same piece with the same error
     * @param kind as the list of glassware names it
     * @param volume it holds or delivers at 20 degC, mL
     * @param tolerance of that volume, the same each time the piece is used; mL
     * @param repeatability standard deviation of one filling or delivery, mL
     * @param expansion of its volume, per kelvin
     * @param source of the tolerance
     */
    public record Vessel(
            String piece,
            String kind,
            double volume,
            Spread tolerance,
            double repeatability,
            double expansion,
            String source) {}
}
