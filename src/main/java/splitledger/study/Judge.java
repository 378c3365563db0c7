package splitledger.study;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.statistics.Quantiles;

/**
 * Applies a criterion to an answer. The basis picks the end that is compared: {@code observed} the
 * value itself; {@code lower-bound} and {@code upper-bound} the one-sided bound at 1 - risk; {@code
 * interval} both ends of the two-sided interval at 1 - risk; {@code equivalence} those at 1 - 2
 * risk (two one-sided tests).
 */
public final class Judge {
    private Judge() {}

    /**
     * Whether the criterion is about this key, the targets being those it is about when it names no
     * compound.
     */
    public static boolean isAbout(Criterion criterion, Key key, List<String> targets) {
        final boolean compound =
                criterion
                        .of()
                        .map(c -> c.equals(key.compound()))
                        .orElse(key.compound().isEmpty() || targets.contains(key.compound()));
        final boolean reference =
                criterion.to().map(r -> r.equals(key.condition().get("reference"))).orElse(true);
        return criterion.quantity().equals(key.quantity())
                && compound
                && reference
                && criterion.method().map(key.method()::equals).orElse(true)
                && criterion.condition().entrySet().stream()
                        .allMatch(e -> e.getValue().equals(key.condition().get(e.getKey())));
    }

    /**
     * Whether the units of limit and answer can be compared: equal, none stated, or percent against
     * a plain ratio.
     */
    public static boolean comparable(Criterion criterion, Answer answer) {
        return criterion.unit().isEmpty()
                || criterion.unit().equals(answer.unit())
                || ("%".equals(criterion.unit()) && "1".equals(answer.unit()))
                || ("1".equals(criterion.unit()) && "%".equals(answer.unit()));
    }

    /** The verdict with its explanation. */
    public static Judgement judge(Criterion criterion, Answer answer) {
        if (answer instanceof Answer.NotEstimable not) {
            return new Judgement(criterion, Verdict.NOT_SHOWN, "not shown: " + not.detail());
        }
        if (answer instanceof Answer.Statistic statistic) {
            return observed(criterion, statistic.value(), scale(criterion, answer), "");
        }
        if (answer instanceof Answer.Bound bound) {
            return bound(criterion, bound);
        }
        return estimate(criterion, (Answer.Estimate) answer);
    }

    /** What to multiply a limit by to have it in the unit of the answer. */
    private static double scale(Criterion criterion, Answer answer) {
        if ("%".equals(criterion.unit()) && "1".equals(answer.unit())) {
            return 0.01;
        }
        return "1".equals(criterion.unit()) && "%".equals(answer.unit()) ? 100 : 1;
    }

    private static Judgement observed(
            Criterion criterion, double value, double scale, String beside) {
        final Verdict verdict = inside(criterion, value, scale) ? Verdict.MEETS : Verdict.FAILS;
        return new Judgement(
                criterion,
                verdict,
                "observed " + rounded(value) + ", " + criterion.text() + beside);
    }

    private static Judgement estimate(Criterion criterion, Answer.Estimate e) {
        final double scale = scale(criterion, e);
        final double lower = oneSided(e, criterion.risk(), false);
        final double upper = oneSided(e, criterion.risk(), true);
        return switch (criterion.basis()) {
            case OBSERVED -> {
                final String beside =
                        "; the "
                                + percent(1 - criterion.risk())
                                + " % bounds beside it are "
                                + rounded(lower)
                                + " and "
                                + rounded(upper);
                yield observed(criterion, e.value(), scale, beside);
            }
            case LOWER_BOUND ->
                    criterion.limit() instanceof Criterion.Limit.AtLeast
                            ? between(criterion, lower, upper, scale)
                            : observed(criterion, lower, scale, " (lower bound)");
            case UPPER_BOUND ->
                    criterion.limit() instanceof Criterion.Limit.AtMost
                            ? between(criterion, lower, upper, scale)
                            : observed(criterion, upper, scale, " (upper bound)");
            case EQUIVALENCE -> between(criterion, lower, upper, scale);
            case INTERVAL ->
                    between(
                            criterion,
                            oneSided(e, criterion.risk() / 2, false),
                            oneSided(e, criterion.risk() / 2, true),
                            scale);
        };
    }

    private static Judgement between(
            Criterion criterion, double lower, double upper, double scale) {
        final boolean low = inside(criterion, lower, scale);
        final boolean high = inside(criterion, upper, scale);
        final Verdict verdict;
        if (low && high) {
            verdict = Verdict.MEETS;
        } else if (outside(criterion, lower, upper, scale)) {
            verdict = Verdict.FAILS;
        } else {
            verdict = Verdict.UNDECIDED;
        }
        return new Judgement(
                criterion,
                verdict,
                "from " + rounded(lower) + " to " + rounded(upper) + ", " + criterion.text());
    }

    private static Judgement bound(Criterion criterion, Answer.Bound bound) {
        final double scale = scale(criterion, bound);
        final OptionalDouble end = bound.upper().isPresent() ? bound.upper() : bound.lower();
        Verdict verdict = Verdict.UNDECIDED;
        final List<String> words = new ArrayList<>();
        if (end.isPresent()) {
            final boolean upper = bound.upper().isPresent();
            words.add((upper ? "no more than " : "no less than ") + rounded(end.getAsDouble()));
            verdict = ofOneEnd(criterion, end.getAsDouble(), upper, scale);
        }
        words.add(criterion.text());
        return new Judgement(criterion, verdict, String.join(", ", words));
    }

    /** What an upper (or lower) bound alone can show. */
    private static Verdict ofOneEnd(Criterion criterion, double end, boolean upper, double scale) {
        final double least = upper ? Double.NEGATIVE_INFINITY : end;
        final double most = upper ? end : Double.POSITIVE_INFINITY;
        if (outside(criterion, least, most, scale)) {
            return Verdict.FAILS;
        }
        final boolean shown =
                upper
                        ? criterion.limit() instanceof Criterion.Limit.AtMost
                        : criterion.limit() instanceof Criterion.Limit.AtLeast;
        return shown && inside(criterion, end, scale) ? Verdict.MEETS : Verdict.UNDECIDED;
    }

    private static boolean inside(Criterion criterion, double value, double scale) {
        if (criterion.limit() instanceof Criterion.Limit.AtMost most) {
            return value <= most.limit() * scale;
        }
        if (criterion.limit() instanceof Criterion.Limit.AtLeast least) {
            return value >= least.limit() * scale;
        }
        final Criterion.Limit.Within within = (Criterion.Limit.Within) criterion.limit();
        return Math.abs(value - within.equals() * scale) <= within.margin() * scale;
    }

    private static boolean outside(Criterion criterion, double lower, double upper, double scale) {
        if (criterion.limit() instanceof Criterion.Limit.AtMost most) {
            return lower > most.limit() * scale;
        }
        if (criterion.limit() instanceof Criterion.Limit.AtLeast least) {
            return upper < least.limit() * scale;
        }
        final Criterion.Limit.Within within = (Criterion.Limit.Within) criterion.limit();
        return lower > (within.equals() + within.margin()) * scale
                || upper < (within.equals() - within.margin()) * scale;
    }

    /** One-sided bound with probability 1 - risk. */
    private static double oneSided(Answer.Estimate e, double risk, boolean upper) {
        return switch (e.law()) {
            case STUDENT -> {
                final double half =
                        Quantiles.t(1 - risk, e.degreesOfFreedom()) * e.standardUncertainty();
                yield upper ? e.value() + half : e.value() - half;
            }
            case CHI_SQUARE -> {
                final double q = Quantiles.chiSquare(upper ? risk : 1 - risk, e.degreesOfFreedom());
                yield e.value() * Math.sqrt(e.degreesOfFreedom() / q);
            }
            case SPREAD -> stretched(e, risk, upper);
            case ENDS -> {
                // the stated half-widths, scaled from their own probability to the wanted one
                final double scale =
                        Quantiles.t(1 - risk, e.degreesOfFreedom())
                                / Quantiles.coverageFactor(e.coverage(), e.degreesOfFreedom());
                yield upper
                        ? e.value() + scale * (e.upper() - e.value())
                        : e.value() - scale * (e.value() - e.lower());
            }
        };
    }

    /**
     * Value times (end / value) to the power ln c(risk) / ln c(coverage), c being the factors of
     * chi-square with the same degrees of freedom: exactly chi-square where the ends are.
     */
    private static double stretched(Answer.Estimate e, double risk, boolean upper) {
        final double end = upper ? e.upper() : e.lower();
        if (!(e.value() > 0 && end > 0)) {
            return end;
        }
        final double tail = (1 - e.coverage()) / 2;
        final double df = e.degreesOfFreedom();
        final double wanted = df / Quantiles.chiSquare(upper ? risk : 1 - risk, df);
        final double given = df / Quantiles.chiSquare(upper ? tail : 1 - tail, df);
        final double power = FastMath.log(wanted) / FastMath.log(given);
        return e.value() * FastMath.pow(end / e.value(), power);
    }

    private static String percent(double probability) {
        return rounded(100 * probability);
    }

    /** Four significant digits, for sentences. */
    private static String rounded(double value) {
        if (Double.isInfinite(value)) {
            return value > 0 ? "infinity" : "minus infinity";
        }
        return Numbers.text(
                new java.math.BigDecimal(value).round(new java.math.MathContext(4)).doubleValue());
    }
}
