package splitledger.propagation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import splitledger.propagation.MonteCarlo.Histogram;

/** Counts sorted trials in equal steps. */
final class Histograms {
    private static final int STEPS = 60;
    private static final double LEFT_OUT = 0.001;

    private Histograms() {}

    static Histogram of(double[] sorted) {
        final int n = sorted.length;
        final int skipped = (int) (LEFT_OUT * n);
        final double from = sorted[skipped];
        final double step = (sorted[n - 1 - skipped] - from) / STEPS;
        final List<Double> densities = new ArrayList<>();
        if (!(step > 0)) {
            return new Histogram(from, 0, densities);
        }
        int before = skipped;
        for (int i = 1; i <= STEPS; i++) {
            final int upTo = i == STEPS ? n - skipped : firstAtLeast(sorted, from + i * step);
            densities.add((upTo - before) / (n * step));
            before = upTo;
        }
        return new Histogram(from, step, densities);
    }

    private static int firstAtLeast(double[] sorted, double value) {
        int at = Arrays.binarySearch(sorted, value);
        if (at < 0) {
            return -at - 1;
        }
        while (at > 0 && sorted[at - 1] == value) {
            at--;
        }
        return at;
    }
}
