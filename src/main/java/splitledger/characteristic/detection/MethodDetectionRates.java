package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Moments;
import splitledger.statistics.NoncentralT;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/**
 * How often decisions by the method detection limit would be wrong, in closed form. A later blank
 * is above t s of n spiked preparations as often as a t with n-1 degrees of freedom, shifted by the
 * blanks' mean over their standard deviation, is above t times the ratio of both standard
 * deviations; above mean + t s of n blanks as often as t(n-1) is above t / sqrt(1 + 1/n); above the
 * highest of n blanks once in n+1 times. Misses are counted at the limit itself.
 *
 * <p>A repetition finds the form anew that is the larger one here. The other form could only raise
 * the limit, so that the false positive rate is not understated.
 */
final class MethodDetectionRates {
    private static final String POSITIVE = "expected-false-positive-rate";
    private static final String NEGATIVE = "expected-false-negative-rate";
    private static final double FAR = 100;
    private static final String NO_LAW =
            "not every blank gives a number: the scatter of the others is not that of blanks";

    private final ScatterLine line;
    private final String compound;
    private final double coverage;
    private final double tail;

    MethodDetectionRates(String compound, ScatterLine line, double coverage) {
        this.compound = compound;
        this.line = line;
        this.coverage = coverage;
        this.tail = (1 - coverage) / 2;
    }

    /** Amounts found with mean and standard deviation; the number of preparations is at least 7. */
    private record Sample(double mean, double sd, int count) {
        static Sample of(FoundAmounts found) {
            final Moments m = Moments.ofAll(found.values().toArray());
            return new Sample(m.mean(), Math.sqrt(m.variance()), m.count());
        }

        double freedom() {
            return count - 1.0;
        }
    }

    /**
     * Rates of the limit; none where there is no limit or no straight line.
     *
     * @param spiked amounts found in low-level spiked preparations
     * @param blank amounts found in blanks
     */
    List<Finding> of(FoundAmounts spiked, FoundAmounts blank) {
        final int fewest = MethodDetectionLimit.FEWEST;
        if (line.law() != MeanLaw.LINE
                || spiked.values().size() < fewest
                || blank.preparations() < fewest) {
            return List.of();
        }
        final Sample s = Sample.of(spiked);
        final double bySpiked = factor(s) * s.sd();
        if (blank.silent() > 0) {
            final double highest = blank.values().stream().max().orElse(Double.NEGATIVE_INFINITY);
            return highest > bySpiked
                    ? byHighest(s, highest, blank.preparations())
                    : bySpikedAlone(s, bySpiked);
        }
        final Sample b = Sample.of(blank);
        if (!(s.sd() > 0 && b.sd() > 0)) {
            return List.of();
        }
        final double byBlank = Math.max(0, b.mean()) + factor(b) * b.sd();
        return byBlank > bySpiked ? byBlank(s, b, byBlank) : bySpiked(s, b, bySpiked);
    }

    private static double factor(Sample of) {
        return Quantiles.t(MethodDetectionLimit.PROBABILITY, of.freedom());
    }

    private List<Finding> bySpiked(Sample s, Sample b, double limit) {
        final double t = factor(s);
        final double ratio = s.sd() / b.sd();
        final double shift = b.mean() / b.sd();
        final double[] shifts = standardized(shift, b);
        final double value = above(t * ratio, s.freedom(), shift);
        // the ratio's F ends and the shift's noncentral t ends, joined as independent deviations
        final double few =
                FastMath.hypot(
                        value - above(t * ratioUpper(s, b), s.freedom(), shift),
                        value - above(t * ratio, s.freedom(), shifts[0]));
        final double many =
                FastMath.hypot(
                        above(t * ratioLower(s, b), s.freedom(), shift) - value,
                        above(t * ratio, s.freedom(), shifts[1]) - value);
        return findings(
                limit,
                "spiked",
                ends(value, Math.max(0, value - few), Math.min(1, value + many)),
                missed(t, s.freedom(), limit / s.sd()),
                kept(b, limit),
                s);
    }

    private List<Finding> byBlank(Sample s, Sample b, double limit) {
        final double t = factor(b);
        final boolean raised = b.mean() > 0;
        final double ofMean = raised ? 1.0 / b.count() : 0;
        final double root = Math.sqrt(1 + ofMean);
        final double shift = raised ? 0 : b.mean() / b.sd();
        final double[] shifts = raised ? new double[] {0, 0} : standardized(shift, b);
        final double both = Math.sqrt(s.sd() * s.sd() + ofMean * b.sd() * b.sd());
        return findings(
                limit,
                "blank",
                ends(
                        above(t / root, b.freedom(), shift),
                        above(t / root, b.freedom(), shifts[0]),
                        above(t / root, b.freedom(), shifts[1])),
                missed(t * b.sd() / both, b.freedom(), t * b.sd() / both),
                kept(b, limit),
                s);
    }

    /**
     * The highest of n blanks decides: the next one is the highest of n + 1 once in n + 1 times.
     */
    private List<Finding> byHighest(Sample s, double limit, int blanks) {
        final double rate = 1 / (blanks + 1.0);
        return findings(
                limit,
                "blank",
                ends(rate, rate, rate),
                Answers.not("1", Reason.NOT_DETECTED, NO_LAW),
                Answers.not("1", Reason.NOT_DETECTED, NO_LAW),
                s);
    }

    private List<Finding> bySpikedAlone(Sample s, double limit) {
        return s.sd() > 0
                ? findings(
                        limit,
                        "spiked",
                        Answers.not("1", Reason.NOT_DETECTED, NO_LAW),
                        missed(factor(s), s.freedom(), factor(s)),
                        Answers.not("1", Reason.NOT_DETECTED, NO_LAW),
                        s)
                : List.of();
    }

    private List<Finding> findings(
            double limit,
            String form,
            Answer positive,
            Answer negative,
            Answer keptPositive,
            Sample spiked) {
        final String words =
                "present above "
                        + Digits.three(limit)
                        + ", missed at "
                        + Digits.three(limit)
                        + " "
                        + line.amountUnit();
        final String anew = words + "; the " + form + " form found anew, in closed form";
        final String kept = words + "; this calibration and this limit kept";
        final List<Finding> findings = new ArrayList<>();
        findings.add(Finding.of(key(POSITIVE), positive, Rows.NONE, anew));
        findings.add(Finding.of(key(NEGATIVE), negative, Rows.NONE, anew));
        findings.add(
                Finding.of(
                        key(POSITIVE).with("calibration", "kept"), keptPositive, Rows.NONE, kept));
        if (spiked.sd() > 0) {
            findings.add(
                    Finding.of(
                            key(NEGATIVE).with("calibration", "kept"),
                            keptMissed(spiked, limit),
                            Rows.NONE,
                            kept));
        }
        return findings;
    }

    private Key key(String quantity) {
        return Key.of(Detection.ID, compound, quantity, MethodDetectionLimit.METHOD);
    }

    /** Chance that a shifted t is above. */
    private static double above(double t, double freedom, double shift) {
        return shift == 0
                ? Quantiles.tTail(t, freedom)
                : 1 - NoncentralT.cumulative(t, freedom, shift);
    }

    /** Misses; the limit found anew grows with the true scatter, the amount looked for does not. */
    private Answer missed(double t, double freedom, double shift) {
        final VarianceEstimate one = new VarianceEstimate(1, freedom);
        return ends(
                NoncentralT.cumulative(t, freedom, shift),
                NoncentralT.cumulative(t, freedom, shift / one.sdLower(coverage)),
                NoncentralT.cumulative(t, freedom, shift / one.sdUpper(coverage)));
    }

    /** A later blank above the kept limit; exact interval of a normal tail by noncentral t. */
    private Answer kept(Sample b, double limit) {
        final double z = (limit - b.mean()) / b.sd();
        final double[] zs = standardized(z, b);
        return ends(normalTail(z), normalTail(zs[1]), normalTail(zs[0]));
    }

    /** An amount at the limit found below it: half, but for the line's own error there. */
    private Answer keptMissed(Sample spiked, double limit) {
        final double u =
                Math.sqrt(line.fitVariance(limit)) / Math.abs(line.slope().value()) / spiked.sd();
        final double k = Quantiles.normal(1 - tail);
        return ends(normalTail(0), normalTail(k * u), normalTail(-k * u));
    }

    /** Ends of a standardized distance of which the mean and standard deviation were estimated. */
    private double[] standardized(double z, Sample of) {
        final double root = Math.sqrt(of.count());
        if (Math.abs(z) * root > FAR) {
            final double u = Math.sqrt(1.0 / of.count() + z * z / (2 * of.freedom()));
            final double k = Quantiles.normal(1 - tail);
            return new double[] {z - k * u, z + k * u};
        }
        return new double[] {
            NoncentralT.shift(z * root, of.freedom(), 1 - tail) / root,
            NoncentralT.shift(z * root, of.freedom(), tail) / root
        };
    }

    private double ratioLower(Sample s, Sample b) {
        return s.sd() / b.sd() / Math.sqrt(Quantiles.f(1 - tail, s.freedom(), b.freedom()));
    }

    private double ratioUpper(Sample s, Sample b) {
        return s.sd() / b.sd() / Math.sqrt(Quantiles.f(tail, s.freedom(), b.freedom()));
    }

    private static double normalTail(double z) {
        return Quantiles.tTail(z, Double.POSITIVE_INFINITY);
    }

    private Answer ends(double value, double lower, double upper) {
        return new Answer.Estimate(
                value,
                "1",
                (upper - lower) / (2 * Quantiles.normal(1 - tail)),
                Double.POSITIVE_INFINITY,
                lower,
                upper,
                coverage,
                Answer.Law.ENDS,
                Optional.empty());
    }
}
