package splitledger.characteristic;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.RobustSpread;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.WithinSlope;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.State;

/** Drift, carry-over, and mean and standard deviation that a few outliers move little. */
final class SeriesFindings {
    private static final String SLOPE = "within-conditions";
    private static final String CARRIED = "within-preparations";
    private static final String ROBUST = "algorithm-A";
    private static final double PERCENT = 100;
    private static final int ENOUGH = 3;

    private SeriesFindings() {}

    /**
     * Drift and robust estimates of the repeated rows.
     *
     * @param items in order of the table
     */
    static List<Finding> of(
            String compound,
            Rows rows,
            List<ScreenedRows.Item> items,
            ScreenedRows screened,
            String unit,
            double coverage) {
        final List<Finding> findings =
                new ArrayList<>(drift(compound, rows, items, screened, coverage));
        final double[] results =
                screened.results().stream().mapToDouble(ScreenedRows.Group::mean).toArray();
        final Outcome<RobustSpread> robust = RobustSpread.of(results);
        findings.add(
                Finding.of(
                        Key.of(Repeatability.ID, compound, "robust-mean", ROBUST),
                        robust.<Answer>fold(
                                r -> new Answer.Statistic(r.mean(), unit),
                                not -> Answers.not(unit, not)),
                        rows,
                        RobustSpread.SOURCE.work()));
        findings.add(
                Finding.of(
                        Key.of(Repeatability.ID, compound, "robust-sd", ROBUST),
                        robust.<Answer>fold(
                                r -> new Answer.Statistic(r.sd(), unit),
                                not -> Answers.not(unit, not)),
                        rows,
                        robust.fold(
                                r ->
                                        "of "
                                                + results.length
                                                + " results under all conditions together; "
                                                + r.pulledIn()
                                                + " of them lie outside 1.5 standard deviations",
                                not -> "")));
        return findings;
    }

    /**
     * A slope on the place in the run that all sets of conditions share, each with its own level,
     * from the means of preparations; without several preparations from injections within them.
     */
    private static List<Finding> drift(
            String compound,
            Rows rows,
            List<ScreenedRows.Item> items,
            ScreenedRows screened,
            double coverage) {
        final double mean =
                Moments.ofAll(items.stream().mapToDouble(ScreenedRows.Item::y).toArray()).mean();
        final Key slope = Key.of(Repeatability.ID, compound, "drift-per-injection", SLOPE);
        final Key p = Key.of(Repeatability.ID, compound, "drift-p", SLOPE);
        final Outcome<WithinSlope> found =
                mean == 0
                        ? Outcome.not(Reason.MEAN_NEAR_ZERO, "the mean is 0")
                        : slope(items, screened, PERCENT / Math.abs(mean));
        return List.of(
                Finding.of(
                        slope,
                        found.fold(
                                s ->
                                        Answers.student(
                                                s.slope(),
                                                "%",
                                                s.standardUncertainty(),
                                                s.degreesOfFreedom(),
                                                coverage),
                                not -> Answers.not("%", not)),
                        rows,
                        "percent of the mean per injection, within the same conditions"),
                Finding.of(
                        p,
                        found.<Answer>fold(
                                s -> new Answer.Statistic(s.p(), "1"),
                                not -> Answers.not("1", not)),
                        rows,
                        "of no drift; read it with the size of the drift beside it"));
    }

    private static Outcome<WithinSlope> slope(
            List<ScreenedRows.Item> items, ScreenedRows screened, double scale) {
        final List<ScreenedRows.Group> results = screened.results();
        if (results.size() - screened.conditions().size() - 1 >= ENOUGH) {
            return WithinSlope.of(
                    results.stream().mapToDouble(r -> scale * r.mean()).toArray(),
                    results.stream().mapToDouble(ScreenedRows.Group::position).toArray(),
                    ScatterFactor.of(
                            "cell", results.stream().map(ScreenedRows.Group::cell).toList()));
        }
        return WithinSlope.of(
                items.stream().mapToDouble(i -> scale * i.y()).toArray(),
                items.stream().mapToDouble(ScreenedRows.Item::position).toArray(),
                ScatterFactor.of(
                        "preparation",
                        items.stream().map(i -> i.cell() + "\t" + i.preparation()).toList()));
    }

    /**
     * What part of the injection before appears again: the response relative to its preparation's
     * mean, on that of the injection just before relative to the same mean, each preparation with
     * its own level, over the whole table.
     *
     * @param places of all injections in the run
     */
    static Finding carryOver(
            InjectionTable table,
            String compound,
            Responses.Picked all,
            Map<String, Integer> places,
            double coverage) {
        final double[] before = new double[places.size()];
        java.util.Arrays.fill(before, Double.NaN);
        final List<Responses.Response> used = all.used();
        for (int row = 0; row < table.size(); row++) {
            if (table.compound(row).equals(compound) && table.state(row) == State.NOT_DETECTED) {
                before[places.getOrDefault(table.injection(row), 0)] = 0;
            }
        }
        used.forEach(r -> before[places.getOrDefault(r.injection(), 0)] = r.value());
        final List<Double> y = new ArrayList<>();
        final List<Double> x = new ArrayList<>();
        final List<String> groups = new ArrayList<>();
        Screening.grouped(used, r -> table.label("series", r.row()) + "\t" + r.preparation())
                .forEach(
                        (label, members) -> {
                            final double mean =
                                    members.stream().mapToDouble(Responses.Response::value).sum()
                                            / members.size();
                            for (Responses.Response r : members) {
                                final int place = places.getOrDefault(r.injection(), 0);
                                final boolean known = place > 0 && !Double.isNaN(before[place - 1]);
                                if (mean > 0 && members.size() > 1 && known) {
                                    y.add(PERCENT * r.value() / mean);
                                    x.add(before[place - 1] / mean);
                                    groups.add(label);
                                }
                            }
                        });
        final Outcome<WithinSlope> found =
                y.isEmpty()
                        ? Outcome.not(
                                Reason.TOO_FEW_INJECTIONS,
                                "needs preparations that were injected twice, found none")
                        : WithinSlope.of(
                                array(y), array(x), ScatterFactor.of("preparation", groups));
        return Finding.of(
                Key.of(Repeatability.ID, compound, "carry-over", CARRIED),
                found.fold(
                        s ->
                                Answers.student(
                                        s.slope(),
                                        "%",
                                        s.standardUncertainty(),
                                        s.degreesOfFreedom(),
                                        coverage),
                        not -> Answers.not("%", not)),
                all.rows(),
                "of the response of the injection just before, from all preparations of the table that were injected twice"
                        + (table.has("order") || table.has("acquired")
                                ? ""
                                : "; rows are taken to stand in run order"));
    }

    private static double[] array(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }
}
