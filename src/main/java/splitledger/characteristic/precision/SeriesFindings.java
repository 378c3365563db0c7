package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.characteristic.Responses;
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
    private static final double JUMP = 5;

    private SeriesFindings() {}

    /** Rows for a compound without any response. */
    static List<Finding> none(String compound, Answer why) {
        final List<Finding> none = new ArrayList<>();
        for (List<String> one :
                List.of(
                        List.of("drift-per-injection", SLOPE),
                        List.of("drift-p", SLOPE),
                        List.of("robust-mean", ROBUST),
                        List.of("robust-sd", ROBUST),
                        List.of("carry-over", CARRIED))) {
            none.add(
                    Finding.of(
                            Key.of(Repeatability.ID, compound, one.get(0), one.get(1)),
                            why,
                            Rows.NONE,
                            ""));
        }
        return none;
    }

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
     * What part of the injection before appears again, over the whole table: in preparations of
     * which one injection followed a response at least {@value #JUMP} times as large and another
     * did not, the difference of the two over the difference of what went before; the mean of these
     * quotients with the scatter that they show.
     *
     * @param rows of the compound in the whole table
     * @param places of all injections in the run
     */
    static Finding carryOver(
            InjectionTable table,
            String compound,
            Rows rows,
            Responses.Picked all,
            Map<String, Integer> places,
            double coverage) {
        final double[] before = new double[places.size()];
        Arrays.fill(before, Double.NaN);
        rows.stream()
                .filter(row -> table.state(row) == State.NOT_DETECTED)
                .forEach(row -> before[places.getOrDefault(table.injection(row), 0)] = 0);
        all.used().forEach(r -> before[places.getOrDefault(r.injection(), 0)] = r.value());
        final List<Double> parts = new ArrayList<>();
        Screening.grouped(all.used(), r -> table.label("series", r.row()) + "\t" + r.preparation())
                .values()
                .forEach(members -> carried(members, before, places).ifPresent(parts::add));
        final Answer answer;
        if (parts.size() < ENOUGH) {
            answer =
                    Answers.not(
                            "%",
                            Reason.TOO_FEW_PREPARATIONS,
                            "needs 3 preparations injected once after a much larger response and once not, found "
                                    + parts.size());
        } else {
            final Moments m = Moments.ofAll(array(parts));
            answer =
                    Answers.student(
                            PERCENT * m.mean(),
                            "%",
                            PERCENT * m.sd() / Math.sqrt(parts.size()),
                            parts.size() - 1.0,
                            coverage);
        }
        return Finding.of(
                Key.of(Repeatability.ID, compound, "carry-over", CARRIED),
                answer,
                all.rows(),
                "of the response of the injection just before, from all preparations of the table that show it"
                        + (table.has("order") ? "" : "; rows are taken to stand in run order"));
    }

    /** The part that one preparation shows. */
    private static OptionalDouble carried(
            List<Responses.Response> members, double[] before, Map<String, Integer> places) {
        double smallest = Double.POSITIVE_INFINITY;
        for (Responses.Response r : members) {
            smallest = Math.min(smallest, Math.abs(r.value()));
        }
        final List<Double> after = new ArrayList<>();
        final List<Double> larger = new ArrayList<>();
        final List<Double> plain = new ArrayList<>();
        final List<Double> alike = new ArrayList<>();
        for (Responses.Response r : members) {
            final int place = places.getOrDefault(r.injection(), 0);
            final double last = place > 0 ? before[place - 1] : Double.NaN;
            if (last > JUMP * smallest) {
                after.add(r.value());
                larger.add(last);
            } else if (!Double.isNaN(last)) {
                plain.add(r.value());
                alike.add(last);
            }
        }
        if (after.isEmpty() || plain.isEmpty()) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(
                (Moments.ofAll(array(after)).mean() - Moments.ofAll(array(plain)).mean())
                        / (Moments.ofAll(array(larger)).mean()
                                - Moments.ofAll(array(alike)).mean()));
    }

    private static double[] array(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }
}
