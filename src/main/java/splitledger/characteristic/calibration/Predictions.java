package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;
import splitledger.characteristic.Responses;
import splitledger.propagation.UncertainLine;
import splitledger.propagation.UncertainLine.Predicted;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;

/** The amounts of one compound in the preparations that want results, read off its line. */
final class Predictions {
    static final String QUANTITY = "predicted-amount";
    static final String EXACT = "fieller";
    static final String FIRST_ORDER = "first-order";

    private final Study study;
    private final Responses responses;
    private final CalibrationFit fit;
    private final Calibrants calibrants;
    private final String compound;
    private final List<Flag> leftOut = new ArrayList<>();

    Predictions(Study study, Responses responses, CalibrationFit fit, Calibrants calibrants) {
        this.study = study;
        this.responses = responses;
        this.fit = fit;
        this.calibrants = calibrants;
        this.compound = calibrants.compound();
    }

    /** Rows that gave no response. */
    List<Flag> leftOut() {
        return List.copyOf(leftOut);
    }

    List<Finding> findings(Rows unknowns) {
        final Responses.Picked picked = responses.pick(unknowns, compound, false);
        leftOut.addAll(picked.leftOut());
        final Map<String, List<Responses.Response>> byPreparation = new LinkedHashMap<>();
        unknowns.stream()
                .filter(row -> study.table().compound(row).equals(compound))
                .forEach(row -> byPreparation.computeIfAbsent(label(row), l -> new ArrayList<>()));
        picked.used()
                .forEach(
                        r ->
                                byPreparation
                                        .computeIfAbsent(label(r.row()), l -> new ArrayList<>())
                                        .add(r));
        final List<Finding> findings = new ArrayList<>();
        byPreparation.forEach((label, members) -> findings.addAll(one(label, members)));
        return findings;
    }

    private List<Finding> one(String label, List<Responses.Response> members) {
        final Rows rows = Rows.of(members.stream().mapToInt(Responses.Response::row).toArray());
        final String name = label.substring(0, label.indexOf('='));
        final Key key = key(EXACT).with(name, label.substring(name.length() + 1));
        final Key first = key(FIRST_ORDER).with(name, label.substring(name.length() + 1));
        final String unit = study.protocol().conventions().amountUnit();
        if (members.isEmpty()) {
            final Answer none =
                    Answers.not(
                            unit,
                            Outcome.Reason.NOT_DETECTED,
                            "no injection of it has a response for this compound");
            return List.of(Finding.of(key, none, rows, ""), Finding.of(first, none, rows, ""));
        }
        final Moments mean =
                Moments.ofAll(members.stream().mapToDouble(Responses.Response::value).toArray());
        return fit.outcome()
                .fold(
                        line -> predicted(line, mean, key, first, rows),
                        not -> {
                            final Answer none =
                                    Answers.not(
                                            unit,
                                            Outcome.Reason.NO_CALIBRATION,
                                            "no calibration: " + not.detail());
                            return List.of(
                                    Finding.of(key, none, rows, ""),
                                    Finding.of(first, none, rows, ""));
                        });
    }

    private List<Finding> predicted(
            UncertainLine line, Moments mean, Key key, Key first, Rows rows) {
        final double coverage = study.protocol().conventions().coverage();
        return line.predict(mean.mean(), mean.count(), key.conditionText(), coverage)
                .fold(
                        p ->
                                List.of(
                                        Finding.of(key, exact(p, coverage), rows, note(line, p))
                                                .with(trail(line, mean, p)),
                                        Finding.of(
                                                first,
                                                Answers.student(p.amount(), coverage),
                                                rows,
                                                "")),
                        not -> {
                            final Answer none = Answers.not(line.amountUnit(), not);
                            return List.of(
                                    Finding.of(key, none, rows, ""),
                                    Finding.of(first, none, rows, ""));
                        });
    }

    private static Answer exact(Predicted p, double coverage) {
        return Answers.ends(p.amount(), p.exact().lower(), p.exact().upper(), coverage);
    }

    private String note(UncertainLine line, Predicted p) {
        final double low = Arrays.stream(calibrants.amounts()).min().orElse(Double.NaN);
        final double high = Arrays.stream(calibrants.amounts()).max().orElse(Double.NaN);
        final double x = p.amount().value();
        if (x >= low && x <= high) {
            return "";
        }
        return "outside the calibrated range "
                + Numbers.text(low)
                + " to "
                + Numbers.text(high)
                + " "
                + line.amountUnit()
                + ": extrapolated";
    }

    private static Trail trail(UncertainLine line, Moments mean, Predicted p) {
        final String numbers =
                "("
                        + Trail.digits(mean.mean())
                        + " - "
                        + Trail.signed(line.intercept().value())
                        + ") / "
                        + Trail.signed(line.slope().value());
        return new Trail(
                List.of(
                        new Trail.Step(
                                "mean response of "
                                        + mean.count()
                                        + (mean.count() == 1 ? " injection" : " injections"),
                                "response",
                                Trail.digits(mean.mean()),
                                mean.mean(),
                                line.responseUnit()),
                        new Trail.Step(
                                "amount found by the line",
                                "(response - intercept) / slope",
                                numbers,
                                p.amount().value(),
                                line.amountUnit())));
    }

    private String label(int row) {
        final String preparation = study.table().label("preparation", row);
        return preparation.isEmpty()
                ? "injection=" + study.table().injection(row)
                : "preparation=" + preparation;
    }

    private Key key(String method) {
        return Key.of(Calibration.ID, compound, QUANTITY, method);
    }
}
