package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;

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
        int ofResult) {

    /** Where the levels lie between the lowest and the highest. */
    public enum Placement {
        /** At equal distances. */
        EVEN("at equal distances"),
        /** At equal ratios. */
        RATIO("at equal ratios");

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
            final double exact =
                    placement == Placement.EVEN
                            ? range.lowest() + share * (range.highest() - range.lowest())
                            : range.lowest()
                                    * FastMath.pow(range.highest() / range.lowest(), share);
            all.add(threeDigits(exact));
        }
        return all;
    }

    /** Standards are made to round amounts. */
    private static double threeDigits(double value) {
        return new java.math.BigDecimal(value)
                .round(new java.math.MathContext(3, java.math.RoundingMode.HALF_EVEN))
                .doubleValue();
    }

    /** Days at the bench, samples not counted. */
    public int benchDays() {
        final int base = levels > 0 || blanks > 0 || checks > 0 ? 1 : 0;
        final int spikes = spiked > 0 ? splitledger.evaluation.Minima.SPIKED_DAYS : 0;
        return Math.max(days, Math.max(base, spikes));
    }

    /** Solutions made in the study, samples not counted. */
    public int solutions() {
        return days * preparations + levels * calibrants + blanks + spiked + (checks > 0 ? 1 : 0);
    }

    /** Injections of the study, samples and checks of the run order not counted. */
    public int injected() {
        return (days * preparations + levels * calibrants) * injections + blanks + spiked + checks;
    }

    /** What the study and the samples cost. */
    public double cost(PlanFile file) {
        final PlanFile.Costs c = file.costs();
        final int ofSamples = days > 0 ? file.samples() * ofResult : 0;
        return benchDays() * c.day()
                + (solutions() + ofSamples) * c.preparation()
                + (injected() + ofSamples * injections) * c.injection();
    }
}
