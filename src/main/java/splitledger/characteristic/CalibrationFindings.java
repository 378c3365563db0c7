package splitledger.characteristic;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.LackOfFit;
import splitledger.statistics.LineFit;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.VarianceEstimate;
import splitledger.statistics.Weighting;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;

/** The findings of one calibration line, or the same keys with the reason why there is none. */
final class CalibrationFindings {
    private static final List<String> OF_THE_LINE =
            List.of(
                    "intercept",
                    "slope",
                    "intercept-slope-covariance",
                    "residual-sd",
                    "relative-standard-error",
                    "lack-of-fit-F",
                    "lack-of-fit-p",
                    "r-squared");

    private final Calibrants calibrants;
    private final CalibrationFit fit;
    private final double coverage;
    private final Rows rows;
    private final List<Finding> findings = new ArrayList<>();

    CalibrationFindings(Study study, Calibrants calibrants, CalibrationFit fit) {
        this.calibrants = calibrants;
        this.fit = fit;
        this.coverage = study.protocol().conventions().coverage();
        this.rows = calibrants.rows();
    }

    List<Finding> all() {
        fit.outcome()
                .fold(
                        line -> {
                            estimates(line);
                            lackOfFit(line.line());
                            deviations(line);
                            return true;
                        },
                        not -> {
                            OF_THE_LINE.forEach(q -> add(q, Answers.not("1", not), ""));
                            return false;
                        });
        return List.copyOf(findings);
    }

    private void estimates(UncertainLine line) {
        final LineFit f = line.line();
        add("intercept", Answers.student(line.intercept(), coverage), "");
        add("slope", Answers.student(line.slope(), coverage), "");
        final String square =
                "1".equals(line.responseUnit()) ? "1" : "(" + line.responseUnit() + ")^2";
        final String product = square + "/(" + line.amountUnit() + ")";
        add(
                "intercept-slope-covariance",
                new Answer.Statistic(line.intercept().covariance(line.slope()), product),
                "");
        final boolean plain = f.weighting() == Weighting.NONE;
        final String unit =
                plain ? line.responseUnit() : line.responseUnit() + "/(" + line.amountUnit() + ")";
        add(
                "residual-sd",
                Answers.sd(
                        new VarianceEstimate(f.residualSd() * f.residualSd(), f.degreesOfFreedom()),
                        1,
                        unit,
                        coverage),
                plain
                        ? "standard deviation of a preparation's mean response about the line"
                        : "standard deviation of a preparation's mean response about the line at amount 1; it grows in"
                                + " proportion to the amount");
        relativeStandardError(f);
        add(
                "r-squared",
                new Answer.Statistic(f.rSquared(), "1"),
                "says how much of the spread the line takes up; it proves nothing about linearity");
    }

    /** 100 sqrt(sum((x found - x)/x)^2 / (n - 2)), percent. */
    private void relativeStandardError(LineFit line) {
        double sum = 0;
        for (Calibrants.Preparation p : calibrants.preparations()) {
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
                    (p.responses().mean() - line.at(p.amount())) / line.slope() / p.amount();
            sum += d * d;
        }
        final double value = 100 * Math.sqrt(sum / line.degreesOfFreedom());
        add("relative-standard-error", new Answer.Statistic(value, "%"), "");
    }

    private void lackOfFit(LineFit line) {
        LackOfFit.of(line, calibrants.amounts(), calibrants.means())
                .fold(
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

    /**
     * Mean amount found of each level against its own amount; the residual of a level mean has
     * variance s^2 (v/n - h).
     */
    private void deviations(UncertainLine line) {
        final LineFit f = line.line();
        final Map<String, List<Calibrants.Preparation>> levels = new LinkedHashMap<>();
        for (Calibrants.Preparation p : calibrants.preparations()) {
            final String label = p.level().isEmpty() ? Numbers.text(p.amount()) : p.level();
            levels.computeIfAbsent(label, l -> new ArrayList<>()).add(p);
        }
        levels.forEach(
                (label, members) -> {
                    final double x = members.get(0).amount();
                    final Moments mean =
                            Moments.ofAll(
                                    members.stream()
                                            .mapToDouble(p -> p.responses().mean())
                                            .toArray());
                    final double own =
                            f.residualSd()
                                    * f.residualSd()
                                    * f.weighting().variance(x)
                                    / members.size();
                    final double u =
                            Math.sqrt(Math.max(0, own - f.lineVariance(x))) / Math.abs(f.slope());
                    final double deviation = (mean.mean() - f.at(x)) / f.slope();
                    final Answer answer =
                            x > 0
                                    ? Answers.student(
                                            100 * deviation / x,
                                            "%",
                                            100 * u / x,
                                            f.degreesOfFreedom(),
                                            coverage)
                                    : Answers.not(
                                            "%",
                                            Outcome.Reason.ZERO_AMOUNT,
                                            "amount 0 has no relative deviation");
                    findings.add(
                            Finding.of(
                                    key("back-calculated-deviation").with("level", label),
                                    answer,
                                    rows,
                                    ""));
                });
    }

    private Key key(String quantity) {
        return Key.of(Calibration.ID, calibrants.compound(), quantity, fit.method());
    }

    private void add(String quantity, Answer answer, String note) {
        findings.add(Finding.of(key(quantity), answer, rows, note));
    }
}
