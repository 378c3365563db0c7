package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.evaluation.Minima;

/**
 * How much of everything a study has.
 *
 * @param days of the precision study; 0 without one
 * @param preparations of the precision study on each day
 * @param injections of every preparation, calibrants and samples included
 * @param levels of the calibration; 0 without one
 * @param placement of the levels
 * @param calibrants preparations of each level
 * @param blanks independent blanks
 * @param spiked low spiked preparations
 * @param checks injections on each occasion of the check after maintenance
 * @param ofResult preparations of which a reported result is the mean
 * @param experiments beside precision and calibration
 */
public record StudyDesign(
        int days,
        int preparations,
        int injections,
        int levels,
        Placement placement,
        int calibrants,
        int blanks,
        int spiked,
        int checks,
        int ofResult,
        List<Experiment> experiments) {
    public StudyDesign {
        experiments = List.copyOf(experiments);
    }

    /** Where the levels lie between the lowest and the highest. */
    public enum Placement {
        /** At equal distances. */
        EVEN("at equal distances"),
        /** At equal ratios. */
        RATIO("at equal ratios"),
        /** Distances grow from the lowest on. */
        LOW("closer together at the low end"),
        /** Half a wave of a cosine. */
        ENDS("closer together at both ends");

        private final String words;

        Placement(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /** Amounts of the levels, mg/L, lowest first. */
    public List<Double> amounts(PlanFile.Amounts range) {
        final List<Double> all = new ArrayList<>();
        for (int i = 0; i < levels; i++) {
            final double share = (double) i / (levels - 1);
            final double exact = amount(range, share);
            all.add(threeDigits(exact));
        }
        return all;
    }

    private double amount(PlanFile.Amounts range, double share) {
        final double span = range.highest() - range.lowest();
        return switch (placement) {
            case EVEN -> range.lowest() + share * span;
            case RATIO -> range.lowest() * FastMath.pow(range.highest() / range.lowest(), share);
            case LOW -> range.lowest() + share * share * span;
            case ENDS -> range.lowest() + (1 - FastMath.cos(FastMath.PI * share)) / 2 * span;
        };
    }

    /** Standards are made to round amounts. */
    static double threeDigits(double value) {
        return new java.math.BigDecimal(value)
                .round(new java.math.MathContext(3, java.math.RoundingMode.HALF_EVEN))
                .doubleValue();
    }

    /** The smallest design that a calibration can have. */
    static StudyDesign fewest() {
        return new StudyDesign(
                0,
                0,
                2,
                Minima.LEVELS,
                Placement.EVEN,
                Minima.PREPARATIONS_A_LEVEL,
                0,
                0,
                0,
                1,
                List.of());
    }

    /** Solutions made in the study, samples not counted. */
    public int solutions() {
        return days * preparations
                + levels * calibrants
                + blanks
                + spiked
                + (checks > 0 ? 1 : 0)
                + experiments.stream().mapToInt(Experiment::solutions).sum();
    }

    /**
     * What the study and the samples cost: every day, every solution, every injection, washes and
     * checks of the run order included; empty if a day does not hold what must be done on one.
     */
    public OptionalDouble cost(PlanFile file) {
        final PlanFile.Costs c = file.costs();
        final int ofSamples = days > 0 ? file.samples() * ofResult : 0;
        final Optional<Bench> bench = Bench.of(this, file);
        return bench.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        bench.get().studyDays() * c.day()
                                + (solutions() + ofSamples) * c.preparation()
                                + (bench.get().injections() + ofSamples * injections)
                                        * c.injection());
    }
}
