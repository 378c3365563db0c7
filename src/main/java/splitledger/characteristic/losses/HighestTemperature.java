package splitledger.characteristic.losses;

import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.characteristic.Digits;
import splitledger.propagation.Uncertain;
import splitledger.statistics.CrossingRange;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Key;
import splitledger.study.Trail;

/** The inlet temperature at which the breakdown of one parent reaches a limit. */
final class HighestTemperature {
    private static final double PERCENT = 100;

    private final LossRows rows;
    private final double coverage;
    private final LossFindings to;

    HighestTemperature(LossRows rows, double coverage, LossFindings to) {
        this.rows = rows;
        this.coverage = coverage;
        this.to = to;
    }

    /** Adds it for every ratio; without a limit between 0 and 1 there is none. */
    void add(Outcome<LossLine> outcome, LossBasis basis, OptionalDouble limit) {
        for (LossRows.Group g : rows.flows()) {
            Key key = to.key("highest-inlet-temperature", basis.method());
            if (rows.severalRatios()) {
                key = key.with("ratio", Numbers.text(g.ratio()));
            }
            if (limit.isEmpty() || !(limit.getAsDouble() > 0 && limit.getAsDouble() < 1)) {
                to.add(
                        key,
                        Answers.not(
                                "degC",
                                Reason.NO_LIMIT_STATED,
                                "no requirement on breakdown and no option limit"),
                        "");
                continue;
            }
            final Answer answer =
                    outcome.fold(
                            line -> highest(line, limit.getAsDouble(), g),
                            not -> Answers.not("degC", not));
            to.add(
                    key,
                    answer,
                    "for a breakdown of "
                            + Digits.three(PERCENT * limit.getAsDouble())
                            + " %; for this flow, liner and amount only");
        }
    }

    private Answer highest(LossLine line, double limit, LossRows.Group flow) {
        final double wanted = FastMath.log(-FastMath.log1p(-limit));
        final CrossingRange range =
                CrossingRange.of(
                        t -> line.logTimes(t, flow).value() - wanted,
                        t -> {
                            final Uncertain at = line.logTimes(t, flow);
                            return Quantiles.coverageFactor(coverage, at.degreesOfFreedom())
                                    * at.standardUncertainty();
                        },
                        line.coldest(),
                        line.hottest());
        if (range.value().isPresent() && range.lower().isPresent() && range.upper().isPresent()) {
            final double at = range.value().getAsDouble();
            final Uncertain h = line.logTimes(at, flow);
            final double step = (line.hottest() - line.coldest()) / 1e4;
            final double steepness =
                    (line.logTimes(at + step, flow).value()
                                    - line.logTimes(at - step, flow).value())
                            / (2 * step);
            return Answers.ends(
                    h.scaled(1 / steepness, "degC").at(at),
                    range.lower().getAsDouble(),
                    range.upper().getAsDouble(),
                    coverage);
        }
        final String measured =
                "; measured from "
                        + Trail.digits(line.coldest())
                        + " to "
                        + Trail.digits(line.hottest())
                        + " degC, and nothing is said beyond";
        if (range.lower().isEmpty() && range.upper().isEmpty()) {
            return Answers.not(
                    "degC", Reason.OUTSIDE_RANGE, "the limit may be reached anywhere" + measured);
        }
        return new Answer.Bound(
                range.value(),
                "degC",
                range.lower(),
                range.upper(),
                coverage,
                Reason.OUTSIDE_RANGE.code(),
                (range.value().isPresent()
                                ? "one end of the interval lies outside the temperatures measured"
                                : range.below()
                                        ? "the limit is passed at the lowest temperature already"
                                        : "the limit is not reached at the highest temperature")
                        + measured);
    }
}
