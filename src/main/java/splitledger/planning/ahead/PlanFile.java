package splitledger.planning.ahead;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What a laboratory wants of a study, and what it knows before.
 *
 * @param title of the study
 * @param targets compounds that are quantified
 * @param standard internal standard; empty without one
 * @param wanted what the study shall reach
 * @param prior scatter known beforehand
 * @param costs of the bench
 * @param amounts where calibrants and results lie
 * @param samples reported with what the study finds; they cost, too
 * @param samplesInStudy how many of them are injected in the study, on a last day
 * @param setting of the inlet, and what one day holds
 * @param range of the settings that a study may use, and what is known of them
 * @param labile what decomposes; empty if nothing is known to
 * @param start first day
 * @param seed of the run order
 */
public record PlanFile(
        String title,
        List<String> targets,
        Optional<Standard> standard,
        Wanted wanted,
        Prior prior,
        Costs costs,
        Amounts amounts,
        int samples,
        int samplesInStudy,
        Setting setting,
        Range range,
        Optional<Labile> labile,
        LocalDate start,
        long seed) {
    /** What stands where the laboratory said nothing. */
    public static final String COMMON = "common practice, no source";

    public PlanFile {
        targets = List.copyOf(targets);
    }

    /** The same plan with a ratio whose convention is known. */
    PlanFile rehearsed() {
        return new PlanFile(
                title,
                targets,
                standard,
                wanted,
                prior,
                costs,
                amounts,
                samples,
                samplesInStudy,
                new Setting(
                        setting.split(),
                        "total-to-column",
                        setting.temperature(),
                        setting.vial(),
                        setting.bracket(),
                        setting.day()),
                range,
                labile,
                start,
                seed);
    }

    /**
     * An internal standard.
     *
     * @param amount mg/L in every solution
     */
    public record Standard(String compound, double amount) {}

    /**
     * Wishes.
     *
     * @param uncertainty relative expanded uncertainty of a result, as a fraction
     * @param limit detection limit, mg/L
     * @param margin of the check after maintenance, as a fraction
     * @param power of that check
     * @param chance share of studies that shall reach what is wanted
     * @param exponent half width of the interval of the split exponent
     * @param energy half width of the interval of the activation energy, kJ/mol
     * @param heavy relative half width of the interval of the ratio of the heaviest member of the
     *     ladder to the reference, as a fraction
     * @param recovery half width of the interval of the mean recovery, as a fraction
     */
    public record Wanted(
            Optional<Double> uncertainty,
            Optional<Double> limit,
            Optional<Double> margin,
            double power,
            double chance,
            Optional<Double> exponent,
            Optional<Double> energy,
            Optional<Double> heavy,
            Optional<Double> recovery) {
        /** Whether nothing is wished for. */
        boolean nothing() {
            return Stream.of(uncertainty, limit, margin, exponent, energy, heavy, recovery)
                    .allMatch(Optional::isEmpty);
        }
    }

    /**
     * A standard deviation known beforehand.
     *
     * @param value as a fraction; blanks in mg/L
     * @param basis where it comes from
     * @param degreesOfFreedom of its estimate; infinite if it is taken as known
     */
    public record Known(double value, String basis, double degreesOfFreedom) {}

    /**
     * Scatter known beforehand.
     *
     * @param injection between injections of a preparation
     * @param preparation between preparations of a day
     * @param day between days
     * @param occasion of a response between occasions on which nothing was done
     * @param other everything else in a result: glassware, purity, recovery
     * @param blank of blanks, mg/L; empty if not known
     */
    public record Prior(
            Known injection,
            Known preparation,
            Known day,
            Known occasion,
            Known other,
            Optional<Known> blank) {}

    /**
     * What the bench costs.
     *
     * @param unit minutes or money
     */
    public record Costs(
            String unit, double injection, double preparation, double day, String basis) {}

    /**
     * Amounts, mg/L.
     *
     * @param lowest calibrant
     * @param highest calibrant
     * @param result where the uncertainty is wanted
     */
    public record Amounts(double lowest, double highest, double result) {}

    /**
     * The inlet.
     *
     * @param split ratio set
     * @param convention of the ratio, as a protocol writes it
     * @param temperature degC
     * @param vial most injections of one vial
     * @param bracket injections between two checks
     * @param day how many injections fit into one
     */
    public record Setting(
            double split, String convention, double temperature, int vial, int bracket, Day day) {}

    /**
     * How many injections fit into a day, washes and checks included.
     *
     * @param most injections
     * @param basis in words
     */
    public record Day(int most, String basis) {}

    /**
     * Settings that a study may use.
     *
     * @param lowest split ratio
     * @param highest split ratio
     * @param coolest inlet temperature, degC
     * @param hottest inlet temperature, degC
     * @param setting relative scatter of a ratio when it is set up again
     * @param member relative error of mass and response of a member of the ladder
     * @param area relative scatter that the areas of one injection share, which an internal
     *     standard cancels; without one it is in the scatter of injections
     */
    public record Range(
            double lowest,
            double highest,
            double coolest,
            double hottest,
            Known setting,
            Known member,
            Known area) {}

    /**
     * What decomposes in the inlet.
     *
     * @param parent one of the targets
     * @param products what it becomes
     * @param breakdown expected at the working temperature, as a fraction
     * @param energy activation energy expected, kJ/mol
     */
    public record Labile(String parent, List<String> products, Known breakdown, Known energy) {
        public Labile {
            products = List.copyOf(products);
        }
    }
}
