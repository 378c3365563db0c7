package splitledger.planning;

import java.util.Arrays;

/** Gathers the trials of one row; trials must come in the order of their studies. */
final class Tally {
    private final String unit;
    private double[] widths = new double[64];
    private int estimates;
    private int bounds;
    private int nothing;
    private int estimatesCovering;
    private int boundsCovering;
    private int errors;
    private double errorSum;
    private int judged;
    private int wrong;
    private int undecided;

    Tally(String unit) {
        this.unit = unit;
    }

    void add(Trial trial) {
        switch (trial.kind()) {
            case ESTIMATE -> {
                if (estimates == widths.length) {
                    widths = Arrays.copyOf(widths, 2 * widths.length);
                }
                widths[estimates++] = trial.width();
                estimatesCovering += trial.covered() ? 1 : 0;
                if (!Double.isNaN(trial.error())) {
                    errors++;
                    errorSum += trial.error();
                }
            }
            case BOUND -> {
                bounds++;
                boundsCovering += trial.covered() ? 1 : 0;
            }
            case NOTHING -> nothing++;
        }
        judged += trial.judged();
        wrong += trial.wrong();
        undecided += trial.undecided();
    }

    CoverageRow row(Estimand estimand) {
        final double[] sorted = Arrays.copyOf(widths, estimates);
        Arrays.sort(sorted);
        return new CoverageRow(
                estimand.characteristic(),
                estimand.compound(),
                estimand.condition(),
                estimand.quantity(),
                estimand.method(),
                unit,
                estimates,
                bounds,
                nothing,
                share(estimatesCovering, estimates),
                share(boundsCovering, bounds),
                errors == 0 ? Double.NaN : errorSum / errors,
                estimates == 0 ? Double.NaN : median(sorted),
                judged,
                share(wrong, judged),
                share(undecided, judged));
    }

    private static double share(int part, int whole) {
        return whole == 0 ? Double.NaN : (double) part / whole;
    }

    private static double median(double[] sorted) {
        final int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
