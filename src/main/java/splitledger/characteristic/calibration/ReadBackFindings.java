package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import splitledger.base.Numbers;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/**
 * The amounts of the calibrants read back off their own line, and the range in which they agree.
 */
final class ReadBackFindings {
    private static final String READ_BACK = "back-calculated-deviation";
    private static final List<String> RANGE = List.of("working-range-low", "working-range-high");

    private final Calibrants calibrants;
    private final CalibrationFit fit;
    private final OptionalDouble allowed;
    private final double coverage;
    private final Rows rows;
    private final List<Finding> findings = new ArrayList<>();

    /**
     * For one compound.
     *
     * @param allowed deviation that the laboratory allows within its working range, percent; empty
     *     if it states none
     * @param coverage of intervals
     */
    ReadBackFindings(
            Calibrants calibrants, CalibrationFit fit, OptionalDouble allowed, double coverage) {
        this.calibrants = calibrants;
        this.fit = fit;
        this.allowed = allowed;
        this.coverage = coverage;
        this.rows = calibrants.rows();
    }

    /** Deviations of the levels, then the range; the same keys with the reason without a line. */
    List<Finding> all() {
        fit.outcome()
                .fold(
                        line -> {
                            range(line, deviations(line));
                            return true;
                        },
                        not -> {
                            withoutLine(not);
                            return false;
                        });
        return List.copyOf(findings);
    }

    /** Levels cannot be read back without a line. */
    private void withoutLine(Outcome.NotComputed<?> not) {
        RANGE.forEach(q -> add(q, Answers.not("1", not), ""));
        final List<String> levels = new ArrayList<>(calibrants.byLevel().keySet());
        if (levels.isEmpty()) {
            add(READ_BACK, Answers.not("%", not), "");
        }
        for (String level : levels) {
            findings.add(
                    Finding.of(
                            key(READ_BACK).with("level", level), Answers.not("%", not), rows, ""));
        }
    }

    /** What a level's amount read back deviates. */
    private record Deviation(double amount, double percent) {}

    /**
     * Mean amount found of each level against its own amount; the residual of a level mean has the
     * variance of the mean less that of the fit.
     */
    private List<Deviation> deviations(UncertainLine line) {
        final List<Deviation> deviations = new ArrayList<>();
        calibrants
                .byLevel()
                .forEach(
                        (label, members) -> {
                            final double x = members.get(0).amount();
                            final double mean =
                                    members.stream().mapToDouble(p -> p.responses().mean()).sum()
                                            / members.size();
                            final double slope = line.slopeAt(x);
                            final double own = line.scatter(x) / members.size();
                            final double u =
                                    Math.sqrt(Math.max(0, own - line.fitVariance(x)))
                                            / Math.abs(slope);
                            final double percent = 100 * (mean - line.mean(x)) / slope / x;
                            if (x > 0 && slope != 0) {
                                deviations.add(new Deviation(x, percent));
                            }
                            final Answer answer =
                                    slope == 0
                                            ? CalibrationFindings.level("%")
                                            : x > 0
                                                    ? Answers.student(
                                                            percent,
                                                            "%",
                                                            100 * u / x,
                                                            line.scatterFreedom(x),
                                                            coverage)
                                                    : Answers.not(
                                                            "%",
                                                            Outcome.Reason.ZERO_AMOUNT,
                                                            "amount 0 has no relative deviation");
                            findings.add(
                                    Finding.of(
                                            key(READ_BACK).with("level", label), answer, rows, ""));
                        });
        deviations.sort(Comparator.comparingDouble(Deviation::amount));
        return deviations;
    }

    /**
     * The longest run of neighbouring levels that are read back within the allowed deviation; the
     * higher one of two. Without an allowed deviation all calibrated amounts above 0.
     */
    private void range(UncertainLine line, List<Deviation> deviations) {
        int first = -1;
        int last = -1;
        int begin = 0;
        for (int i = 0; i < deviations.size(); i++) {
            if (Math.abs(deviations.get(i).percent()) > allowed.orElse(Double.POSITIVE_INFINITY)) {
                begin = i + 1;
            } else if (first < 0 || i - begin >= last - first) {
                first = begin;
                last = i;
            }
        }
        final String note =
                allowed.isPresent()
                        ? "levels read back within " + Numbers.text(allowed.getAsDouble()) + " %"
                        : "the calibrated amounts: the protocol states no allowed deviation (deviation-allowed)";
        for (String name : RANGE) {
            final int which = name.endsWith("low") ? first : last;
            add(
                    name,
                    which < 0
                            ? Answers.not(
                                    line.amountUnit(),
                                    Outcome.Reason.NO_FINITE_VALUE,
                                    "no level is read back within the allowed deviation")
                            : new Answer.Statistic(
                                    deviations.get(which).amount(), line.amountUnit()),
                    note);
        }
    }

    private Key key(String quantity) {
        return Key.of(Calibration.ID, calibrants.compound(), quantity, fit.method());
    }

    private void add(String quantity, Answer answer, String note) {
        findings.add(Finding.of(key(quantity), answer, rows, note));
    }
}
