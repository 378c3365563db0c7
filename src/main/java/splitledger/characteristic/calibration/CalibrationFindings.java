package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import splitledger.base.Numbers;
import splitledger.characteristic.Digits;
import splitledger.propagation.ScatterLine;
import splitledger.propagation.UncertainLine;
import splitledger.propagation.WeightedLine;
import splitledger.statistics.FitChecks;
import splitledger.statistics.LackOfFit;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;

/** The findings of one calibration, or the same keys with the reason why there is none. */
final class CalibrationFindings {
    private static final List<String> OF_THE_LINE =
            List.of(
                    "intercept",
                    "slope",
                    "intercept-slope-covariance",
                    "relative-standard-error",
                    "lack-of-fit-F",
                    "lack-of-fit-p",
                    "curvature-p",
                    "r-squared");

    private final Calibrants calibrants;
    private final CalibrationFit fit;
    private final OptionalDouble allowed;
    private final double coverage;
    private final Rows rows;
    private final List<Finding> findings = new ArrayList<>();

    /**
     * For one compound.
     *
     * @param allowed deviation of an amount read back that the laboratory allows within its working
     *     range, percent; empty if it states none
     */
    CalibrationFindings(
            Study study, Calibrants calibrants, CalibrationFit fit, OptionalDouble allowed) {
        this.calibrants = calibrants;
        this.fit = fit;
        this.allowed = allowed;
        this.coverage = study.protocol().conventions().coverage();
        this.rows = calibrants.rows();
    }

    List<Finding> all() {
        fit.outcome()
                .fold(
                        line -> {
                            coefficients(line);
                            relativeStandardError(line);
                            rSquared(line);
                            lackOfFit(line);
                            curvature(line);
                            return true;
                        },
                        not -> {
                            OF_THE_LINE.forEach(q -> add(q, Answers.not("1", not), ""));
                            return false;
                        });
        findings.addAll(new ReadBackFindings(calibrants, fit, allowed, coverage).all());
        findings.addAll(new ScatterFindings(calibrants, fit, coverage).all());
        return List.copyOf(findings);
    }

    private void coefficients(UncertainLine line) {
        final boolean origin = line.law() == MeanLaw.THROUGH_ORIGIN;
        add(
                "intercept",
                origin
                        ? notInModel(line.responseUnit(), "the line goes through the origin")
                        : Answers.student(line.intercept(), coverage),
                "");
        add(
                "slope",
                Answers.student(line.slope(), coverage),
                line.law() == MeanLaw.QUADRATIC ? "of the curve at amount 0" : "");
        final String square =
                "1".equals(line.responseUnit()) ? "1" : "(" + line.responseUnit() + ")^2";
        final String product = square + "/(" + line.amountUnit() + ")";
        add(
                "intercept-slope-covariance",
                origin
                        ? notInModel(product, "the line goes through the origin")
                        : new Answer.Statistic(line.intercept().covariance(line.slope()), product),
                "");
        if (line.law() == MeanLaw.QUADRATIC && line instanceof ScatterLine curve) {
            add("quadratic", Answers.student(curve.coefficient(2), coverage), "");
        }
    }

    private static Answer notInModel(String unit, String why) {
        return Answers.not(unit, Outcome.Reason.NOT_IN_MODEL, why);
    }

    /** Why nothing can be read off a level line. */
    static Answer level(String unit) {
        return Answers.not(
                unit, Outcome.Reason.NO_FINITE_VALUE, "the slope is 0: no amount can be read back");
    }

    /** 100 sqrt(sum((x found - x)/x)^2 / (n - p)), percent. */
    private void relativeStandardError(UncertainLine line) {
        double sum = 0;
        for (Calibrants.Preparation p : calibrants.preparations()) {
            if (line.slopeAt(p.amount()) == 0) {
                add("relative-standard-error", level("%"), "");
                return;
            }
            if (!(p.amount() > 0)) {
                add(
                        "relative-standard-error",
                        Answers.not(
                                "%",
                                Outcome.Reason.ZERO_AMOUNT,
                                "a calibrant of amount 0 has no relative deviation"),
                        "");
                return;
            }
            final double d =
                    (p.responses().mean() - line.mean(p.amount()))
                            / line.slopeAt(p.amount())
                            / p.amount();
            sum += d * d;
        }
        final double freedom = (double) calibrants.preparations().size() - line.law().parameters();
        add(
                "relative-standard-error",
                new Answer.Statistic(100 * Math.sqrt(sum / freedom), "%"),
                "");
    }

    /** 1 - weighted residual squares over weighted squares about the weighted mean. */
    private void rSquared(UncertainLine line) {
        final double[] x = calibrants.amounts();
        final double[] y = calibrants.means();
        final double[] w = new double[x.length];
        double sum = 0;
        double mean = 0;
        for (int i = 0; i < x.length; i++) {
            final double scatter = line.scatter(x[i]);
            w[i] = scatter > 0 ? 1 / (fit.shares().at(i) * scatter) : 1;
            sum += w[i];
            mean += w[i] * y[i];
        }
        mean /= sum;
        double about = 0;
        double total = 0;
        for (int i = 0; i < x.length; i++) {
            final double residual = y[i] - line.mean(x[i]);
            about += w[i] * residual * residual;
            total += w[i] * (y[i] - mean) * (y[i] - mean);
        }
        add(
                "r-squared",
                new Answer.Statistic(total > 0 ? 1 - about / total : 1, "1"),
                "says how much of the spread the line takes up; it proves nothing about linearity");
    }

    private void lackOfFit(UncertainLine line) {
        final Outcome<LackOfFit> outcome =
                line instanceof WeightedLine weighted
                        ? LackOfFit.of(weighted.line(), calibrants.amounts(), calibrants.means())
                        : checks((ScatterLine) line).lackOfFit();
        outcome.fold(
                test -> {
                    add(
                            "lack-of-fit-F",
                            new Answer.Statistic(test.f(), "1"),
                            "F with "
                                    + Numbers.text(test.numerator())
                                    + " and "
                                    + Numbers.text(test.denominator())
                                    + " degrees of freedom, against preparations within levels");
                    add("lack-of-fit-p", new Answer.Statistic(test.p(), "1"), "");
                    return true;
                },
                not -> {
                    add("lack-of-fit-F", Answers.not("1", not), "");
                    add("lack-of-fit-p", Answers.not("1", not), "");
                    return false;
                });
    }

    private void curvature(UncertainLine line) {
        final Outcome<LackOfFit> outcome =
                line instanceof ScatterLine scatter && line.law() == MeanLaw.LINE
                        ? checks(scatter).curvature()
                        : Outcome.not(
                                Outcome.Reason.NOT_IN_MODEL,
                                "curvature is tested against a line with an intercept whose scatter is seen");
        add(
                "curvature-p",
                outcome.fold(
                        test -> new Answer.Statistic(test.p(), "1"), not -> Answers.not("1", not)),
                outcome.fold(
                        test ->
                                "F = "
                                        + Digits.three(test.f())
                                        + " of a square term with 1 and "
                                        + Numbers.text(test.denominator())
                                        + " degrees of freedom",
                        not -> ""));
    }

    private FitChecks checks(ScatterLine line) {
        return FitChecks.of(
                line.fit(), calibrants.amounts(), calibrants.means(), fit.shares().toArray());
    }

    private Key key(String quantity) {
        return Key.of(Calibration.ID, calibrants.compound(), quantity, fit.method());
    }

    private void add(String quantity, Answer answer, String note) {
        findings.add(Finding.of(key(quantity), answer, rows, note));
    }
}
