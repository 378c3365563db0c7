package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Flag;
import splitledger.study.Rows;

/**
 * Recovery by standard addition to one sample: the slope of the amounts found against the amounts
 * added, which is the slope of the responses over that of the calibration. Preparations without
 * addition belong to it. What the sample holds is in proportion to its test portion where one is
 * named, else the same in all. Ordinary least squares; the scatter about the line is taken to be
 * alike at all amounts.
 */
final class AdditionRecovery {
    private static final int AMOUNTS = 3;

    private AdditionRecovery() {}

    /** Of the rows that the option {@code standard-addition} asks for. */
    static RecoveryResult of(RecoveryContext context, Rows rows) {
        return context.offTheLine(RecoveryKind.ADDITION, line -> of(context, line, rows));
    }

    private static RecoveryResult of(RecoveryContext context, UncertainLine line, Rows rows) {
        final RecoveryPreparation.Found all =
                context.preparations(rows, context.added(), context.text("added-u"));
        final List<RecoveryPreparation> used = new ArrayList<>();
        final List<Uncertain> found = new ArrayList<>();
        for (RecoveryPreparation p : all.preparations()) {
            if (p.added() >= 0) {
                context.found(line, p)
                        .fold(
                                f -> {
                                    used.add(p);
                                    return found.add(f);
                                },
                                n -> false);
            }
        }
        final long amounts =
                used.stream().mapToDouble(RecoveryPreparation::added).distinct().count();
        if (amounts < AMOUNTS || used.size() <= AMOUNTS) {
            return not(
                    context,
                    Reason.TOO_FEW_LEVELS,
                    "standard addition needs 3 different amounts, 0 among them, and more than 3 preparations, found "
                            + amounts
                            + " and "
                            + used.size(),
                    all.leftOut());
        }
        return fitted(context, used, found, all.leftOut());
    }

    private static RecoveryResult fitted(
            RecoveryContext context,
            List<RecoveryPreparation> used,
            List<Uncertain> found,
            List<Flag> flags) {
        final int n = used.size();
        final double[] portions = new double[n];
        final double[] added = new double[n];
        final double[] y = new double[n];
        for (int i = 0; i < n; i++) {
            portions[i] = used.get(i).portion();
            added[i] = used.get(i).added();
            y[i] = found.get(i).value();
        }
        final double pp = dot(portions, portions);
        final double pa = dot(portions, added);
        final double aa = dot(added, added);
        final double determinant = pp * aa - pa * pa;
        if (!(determinant > 1e-12 * pp * aa)) {
            return not(
                    context,
                    Reason.NO_SPREAD_IN_X,
                    "amounts added go with the test portions: neither can be told from the other",
                    flags);
        }
        final double[] weights = new double[n];
        for (int i = 0; i < n; i++) {
            weights[i] = (pp * added[i] - pa * portions[i]) / determinant;
        }
        final double slope = dot(weights, y);
        final double content = (dot(portions, y) - slope * pa) / pp;
        double squares = 0;
        for (int i = 0; i < n; i++) {
            final double rest = y[i] - content * portions[i] - slope * added[i];
            squares += rest * rest;
        }
        final double freedom = n - 2.0;
        // what is left of an exact line is rounding
        if (!(squares > 1e-26 * dot(y, y))) {
            return not(context, Reason.NO_SCATTER, "the points lie exactly on the line", flags);
        }
        return told(
                context,
                used,
                found,
                weights,
                slope,
                new VarianceEstimate(squares / freedom, freedom),
                flags);
    }

    private static RecoveryResult told(
            RecoveryContext context,
            List<RecoveryPreparation> used,
            List<Uncertain> found,
            double[] weights,
            double slope,
            VarianceEstimate about,
            List<Flag> flags) {
        final AddedAmount added = new AddedAmount(context);
        final String id = "recovery/addition/" + context.compound();
        final Pool pool =
                new Pool(id, about.degreesOfFreedom(), "scatter about the line of additions");
        final Root root =
                Root.normal(id, pool, Effect.PREPARATION, ActsOn.REFERENCE, pool.origin());
        final Uncertain shared = Uncertain.combine(slope, "1", weights, found);
        final Uncertain own =
                Uncertain.of(0, "1", root, about.sd() * Math.sqrt(dot(weights, weights)));
        final Uncertain relative =
                added.relative(
                        used.stream().filter(p -> p.added() > 0).findFirst().orElse(used.get(0)));
        final Uncertain value =
                Uncertain.combine(
                        slope, "1", new double[] {1, 1, -slope}, List.of(shared, own, relative));
        final Rows rows =
                Rows.of(used.stream().flatMapToInt(p -> p.rows().stream()).distinct().toArray());
        return new RecoveryResult(
                RecoveryKind.ADDITION,
                context.compound(),
                List.of(),
                List.of(),
                new RecoveryEstimate(
                        "",
                        Double.NaN,
                        Outcome.of(value),
                        Optional.empty(),
                        used.size(),
                        rows,
                        List.of()),
                Outcome.not(
                        Reason.NOT_DEFINED,
                        "a line through all additions has no levels to compare"),
                added.choices(),
                flags);
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    private static RecoveryResult not(
            RecoveryContext context, Reason reason, String detail, List<Flag> flags) {
        return RecoveryResult.not(RecoveryKind.ADDITION, context.compound(), reason, detail, flags);
    }
}
