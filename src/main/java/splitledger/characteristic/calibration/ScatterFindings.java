package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Seeds;
import splitledger.propagation.ScatterLine;
import splitledger.propagation.UncertainLine;
import splitledger.propagation.WeightedLine;
import splitledger.statistics.AmountPredictor.SdInterval;
import splitledger.statistics.LineFit;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.RandomStream;
import splitledger.statistics.ScatterFit;
import splitledger.statistics.ScatterFitter;
import splitledger.statistics.ScatterGrowth;
import splitledger.statistics.ScatterLaw;
import splitledger.statistics.ScatterLaw.Form;
import splitledger.statistics.VarianceEstimate;
import splitledger.statistics.Weighting;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/** How the preparations of one compound scatter about its calibration. */
final class ScatterFindings {
    static final String CONSTANT = "signal-sd-constant";
    static final String PROPORTIONAL = "signal-sd-proportional";
    private static final List<String> ALL =
            List.of(
                    "residual-sd",
                    CONSTANT,
                    PROPORTIONAL,
                    "variance-ratio-top-to-bottom",
                    "homoscedasticity-p");

    /** So many times the largest amount only the proportional part is left. */
    private static final double FAR = 1e7;

    private static final int FEW = 15;
    private static final int REPETITIONS = 399;

    private final Calibrants calibrants;
    private final CalibrationFit fit;
    private final double coverage;
    private final Rows rows;
    private final List<Finding> findings = new ArrayList<>();

    ScatterFindings(Calibrants calibrants, CalibrationFit fit, double coverage) {
        this.calibrants = calibrants;
        this.fit = fit;
        this.coverage = coverage;
        this.rows = calibrants.rows();
    }

    List<Finding> all() {
        fit.outcome()
                .fold(
                        line -> {
                            of(line);
                            return true;
                        },
                        not -> {
                            ALL.forEach(q -> add(q, Answers.not("1", not), ""));
                            return false;
                        });
        return findings;
    }

    private void of(UncertainLine line) {
        if (line instanceof WeightedLine weighted) {
            of(weighted);
        } else {
            of((ScatterLine) line);
        }
        final double[] range = calibrants.range();
        final double bottom = line.scatter(range[0]);
        add(
                "variance-ratio-top-to-bottom",
                bottom > 0
                        ? new Answer.Statistic(line.scatter(range[1]) / bottom, "1")
                        : Answers.not("1", Reason.NO_SCATTER, "no scatter at the lowest level"),
                "");
        homoscedasticity(line);
    }

    private void of(WeightedLine line) {
        final LineFit f = line.line();
        final boolean plain = f.weighting() == Weighting.NONE;
        final String perAmount = line.responseUnit() + "/(" + line.amountUnit() + ")";
        final String power = f.weighting() == Weighting.INVERSE ? "^(1/2)" : "";
        add(
                "residual-sd",
                Answers.sd(
                        new VarianceEstimate(f.residualSd() * f.residualSd(), f.degreesOfFreedom()),
                        1,
                        plain ? line.responseUnit() : perAmount + power,
                        coverage),
                plain
                        ? "standard deviation of a preparation's mean response about the line"
                        : "standard deviation of a preparation's mean response about the line at amount 1; it grows by the"
                                + " law that the weights stand for");
        final String why =
                plain
                        ? "the points lie exactly on the line"
                        : "the weights in the protocol fix how it grows";
        add(CONSTANT, Answers.not(line.responseUnit(), Reason.NOT_IN_MODEL, why), "");
        add(PROPORTIONAL, Answers.not("%", Reason.NOT_IN_MODEL, why), "");
    }

    private void of(ScatterLine line) {
        final ScatterFit f = line.fit();
        final ScatterLaw law = f.law();
        final double middle = java.util.Arrays.stream(calibrants.amounts()).average().orElse(0);
        final boolean same = law.form() == Form.CONSTANT;
        final double sd = Math.sqrt(line.scatter(middle));
        add(
                "residual-sd",
                line.isGiven()
                        ? Answers.sd(given(line, middle), 1, line.responseUnit(), coverage)
                        : between(sd, line, middle),
                "standard deviation of a preparation's mean response about the fit"
                        + (same
                                ? ""
                                : ", at the calibrants' mean amount "
                                        + Digits.three(middle)
                                        + " "
                                        + line.amountUnit()));
        constant(line);
        proportional(line);
    }

    /** The variance of a given law, with exactly n - p degrees of freedom. */
    private static VarianceEstimate given(ScatterLine line, double amount) {
        return new VarianceEstimate(line.scatter(amount), line.scatterFreedom(amount));
    }

    private Answer between(double sd, ScatterLine line, double amount) {
        final SdInterval ends = line.predictor().sdInterval(amount);
        final VarianceEstimate v = line.fit().scatter(amount);
        final double freedom = line.scatterFreedom(amount);
        return new Answer.Estimate(
                sd,
                line.responseUnit(),
                v.sd() / Math.sqrt(2 * freedom),
                freedom,
                ends.lower(),
                ends.upper(),
                coverage,
                Answer.Law.ENDS,
                java.util.Optional.empty());
    }

    /** s0: the scatter where the response is 0. */
    private void constant(ScatterLine line) {
        final ScatterFit f = line.fit();
        final double nothing = f.amountOf(0);
        final String unit = line.responseUnit();
        if (Double.isNaN(nothing)) {
            add(
                    CONSTANT,
                    Answers.not(
                            unit,
                            Reason.NO_FINITE_VALUE,
                            "the curve does not reach a response of 0"),
                    "");
            return;
        }
        final double s0 = Math.sqrt(f.law().constant());
        if (line.isGiven()) {
            add(CONSTANT, Answers.sd(given(line, nothing), 1, unit, coverage), "");
            return;
        }
        if (ScatterNearNothing.carriesConstant(line)) {
            add(CONSTANT, between(s0, line, nothing), "");
            return;
        }
        add(
                CONSTANT,
                new Answer.Bound(
                        OptionalDouble.of(s0),
                        unit,
                        OptionalDouble.empty(),
                        OptionalDouble.of(line.predictor().sdInterval(nothing).upper()),
                        coverage,
                        "scatter-near-nothing-not-seen",
                        ScatterNearNothing.tooHigh(line)),
                "");
    }

    /** s1, percent of the response: what is left of the scatter far above all amounts. */
    private void proportional(ScatterLine line) {
        final ScatterFit f = line.fit();
        if (line.isGiven()) {
            add(
                    PROPORTIONAL,
                    Answers.not(
                            "%",
                            Reason.NOT_IN_MODEL, "the scatter is taken as the same at every level"),
                    "");
            return;
        }
        final double far = FAR * calibrants.range()[1];
        final double response = Math.abs(f.at(far));
        final SdInterval ends = line.predictor().sdInterval(far);
        final double s1 = Math.sqrt(f.law().proportional());
        final double freedom = line.scatterFreedom(far);
        final double upper = 100 * ends.upper() / response;
        add(
                PROPORTIONAL,
                s1 > 0
                        ? new Answer.Estimate(
                                100 * s1,
                                "%",
                                100 * s1 / Math.sqrt(2 * freedom),
                                freedom,
                                100 * ends.lower() / response,
                                upper,
                                coverage,
                                Answer.Law.ENDS,
                                java.util.Optional.empty())
                        : new Answer.Bound(
                                OptionalDouble.of(0),
                                "%",
                                OptionalDouble.empty(),
                                OptionalDouble.of(upper),
                                coverage,
                                "no-growth-seen",
                                "the scatter at all levels is explained without it"),
                "of the response");
    }

    private void homoscedasticity(UncertainLine line) {
        final double[] x = calibrants.amounts();
        final double[] y = calibrants.means();
        final Outcome<ScatterFit> both =
                line instanceof ScatterLine own && !own.isGiven()
                        ? Outcome.of(own.fit())
                        : ScatterFitter.withDefaults().withMean(line.law()).fit(x, y);
        both.fold(
                f -> {
                    final ScatterGrowth growth =
                            x.length < FEW
                                    ? ScatterGrowth.byBootstrap(
                                            line.law(),
                                            x,
                                            y,
                                            fit.shares().toArray(),
                                            RandomStream.of(
                                                    Seeds.of(calibrants.name(), "growth"), 0),
                                            REPETITIONS)
                                    : ScatterGrowth.byBoundaryLaw(f);
                    add(
                            "homoscedasticity-p",
                            new Answer.Statistic(growth.p(), "1"),
                            growth.repetitions() > 0
                                    ? "restricted likelihood ratio of no growth, by "
                                            + growth.repetitions()
                                            + " imagined repetitions"
                                    : "restricted likelihood ratio of no growth, half chi-square with 1 degree of freedom; it"
                                            + " decides nothing");
                    return true;
                },
                not -> {
                    add("homoscedasticity-p", Answers.not("1", not), "");
                    return false;
                });
    }

    private void add(String quantity, Answer answer, String note) {
        findings.add(
                Finding.of(
                        Key.of(Calibration.ID, calibrants.compound(), quantity, fit.method()),
                        answer,
                        rows,
                        note));
    }
}
