package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * The amount at a signal-to-noise ratio of 3 and of 10, from peak height H and noise h of the
 * lowest level: amount x wanted ratio / ratio found, mean over preparations. Which ratio (2H/h or
 * H/h) and which noise (peak to peak or root mean square) must be stated: they differ by factors.
 */
final class SignalToNoise {
    private static final String QUANTITY = "signal-to-noise-limit";
    private static final double[] RATIOS = {3, 10};

    private SignalToNoise() {}

    /** Findings; none where the table has no noise and nothing is asked. */
    static List<Finding> of(Study study, String compound, Tree.Mapping options, Rows where) {
        final InjectionTable table = study.table();
        final Optional<String> ratio = options.text("signal-to-noise");
        final Optional<String> kind = options.text("noise-is");
        final boolean there =
                table.numbers("noise").isPresent() && table.numbers("height").isPresent();
        if (!there && ratio.isEmpty()) {
            return List.of();
        }
        final String unit = study.protocol().conventions().amountUnit();
        final String method = ratio.orElse("signal to noise") + kind.map(k -> ", " + k).orElse("");
        if (!there || ratio.isEmpty() || kind.isEmpty()) {
            final Answer none =
                    there
                            ? Answers.not(
                                    unit,
                                    Reason.NO_LIMIT_STATED,
                                    "the protocol must say which ratio and which noise are in the table (signal-to-noise, noise-is)")
                            : Answers.not(
                                    unit,
                                    Reason.NO_ROWS,
                                    "the table has no columns height and noise");
            return both(compound, method, none, none, Rows.NONE);
        }
        final double factor = ratio.get().startsWith("2") ? 2 : 1;
        final Rows usable =
                where.only(
                        row ->
                                table.compound(row).equals(compound)
                                        && table.state(row) == State.MEASURED
                                        && table.number("amount", row) > 0
                                        && table.number("noise", row) > 0
                                        && table.number("height", row) > 0);
        final double lowest =
                usable.stream()
                        .mapToDouble(row -> table.number("amount", row))
                        .min()
                        .orElse(Double.NaN);
        final Rows low = usable.only(row -> table.number("amount", row) == lowest);
        final Map<String, Moments> preparations = new LinkedHashMap<>();
        low.stream()
                .forEach(
                        row ->
                                preparations.merge(
                                        preparation(table, row),
                                        Moments.of(
                                                lowest
                                                        * table.number("noise", row)
                                                        / (factor * table.number("height", row))),
                                        Moments::with));
        final double[] each = preparations.values().stream().mapToDouble(Moments::mean).toArray();
        return both(
                compound,
                method,
                answer(study, each, RATIOS[0]),
                answer(study, each, RATIOS[1]),
                low);
    }

    private static Answer answer(Study study, double[] each, double wanted) {
        final String unit = study.protocol().conventions().amountUnit();
        if (each.length == 0) {
            return Answers.not(
                    unit,
                    Reason.NO_ROWS,
                    "no calibrant with an amount above 0 has a height and a noise");
        }
        final Moments m = Moments.ofAll(each);
        if (m.count() == 1) {
            return new Answer.Statistic(wanted * m.mean(), unit);
        }
        return Answers.student(
                wanted * m.mean(),
                unit,
                wanted * m.sd() / Math.sqrt(m.count()),
                m.count() - 1.0,
                study.protocol().conventions().coverage());
    }

    private static List<Finding> both(
            String compound, String method, Answer three, Answer ten, Rows rows) {
        final Key key = Key.of(Detection.ID, compound, QUANTITY, method);
        final List<Finding> findings = new ArrayList<>();
        findings.add(Finding.of(key.with("ratio", "3"), three, rows, ""));
        findings.add(Finding.of(key.with("ratio", "10"), ten, rows, ""));
        return findings;
    }

    private static String preparation(InjectionTable table, int row) {
        final String label = table.label("preparation", row);
        return label.isEmpty() ? table.injection(row) : label;
    }
}
