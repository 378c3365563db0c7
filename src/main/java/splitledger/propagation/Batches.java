package splitledger.propagation;

import java.util.Arrays;
import java.util.Queue;
import java.util.SortedMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.stream.IntStream;
import splitledger.statistics.RandomStream;

/**
 * The trials of a Monte Carlo run so far, in batches; each batch is sorted in its own place. A
 * batch depends on the seed and its index alone.
 */
final class Batches {
    private final long seed;
    private final double coverage;
    private final Expression equation;
    private final SortedMap<String, Uncertain> inputs;
    private final int batch;
    private double[] values = new double[0];
    private final Queue<Draw> idle = new ConcurrentLinkedQueue<>();
    private Part[] parts = new Part[0];

    Batches(
            long seed,
            double coverage,
            Expression equation,
            SortedMap<String, Uncertain> inputs,
            int batch) {
        this.seed = seed;
        this.coverage = coverage;
        this.equation = equation;
        this.inputs = inputs;
        this.batch = batch;
    }

    /** What settles a run: each batch in short, in order. */
    Part[] parts() {
        return parts.clone();
    }

    int size() {
        return parts.length;
    }

    /** All trials, also those without a finite value. */
    int trials() {
        return parts.length * batch;
    }

    /** Leaves out all but the first n. */
    void keep(int n) {
        parts = Arrays.copyOf(parts, n);
    }

    /** Adds batches up to so many, on as many threads as there are. */
    void extend(int wanted) {
        final int before = parts.length;
        values = Arrays.copyOf(values, wanted * batch);
        parts = Arrays.copyOf(parts, wanted);
        IntStream.range(before, wanted).parallel().forEach(i -> parts[i] = drawn(i));
    }

    private Part drawn(int index) {
        final Draw spare = idle.poll();
        final Draw draw = spare == null ? new Draw(equation, inputs) : spare;
        final int from = index * batch;
        final int blocks = batch / Draw.BLOCK;
        int n = 0;
        for (int b = 0; b < blocks; b++) {
            final double[] block = draw.block(RandomStream.of(seed, (long) index * blocks + b));
            for (int i = 0; i < Draw.BLOCK; i++) {
                values[from + n] = block[i];
                n += Double.isFinite(block[i]) ? 1 : 0;
            }
        }
        idle.add(draw);
        Arrays.sort(values, from, from + n);
        return part(from, n);
    }

    private Part part(int from, int n) {
        if (n == 0) {
            return new Part(0, 0, 0, 0, 0);
        }
        final double near = values[from + n / 2];
        double sum = 0;
        for (int i = from; i < from + n; i++) {
            sum += values[i] - near;
        }
        final double mean = near + sum / n;
        double squares = 0;
        for (int i = from; i < from + n; i++) {
            final double d = values[i] - mean;
            squares += d * d;
        }
        final int inside = inside(coverage, n);
        final int below = (n - inside) / 2;
        return new Part(
                n,
                mean,
                squares,
                values[from + below],
                values[from + Math.min(n - 1, below + inside)]);
    }

    /** All finite trials in order of size. */
    double[] sorted() {
        int n = 0;
        for (int i = 0; i < parts.length; i++) {
            System.arraycopy(values, i * batch, values, n, parts[i].n());
            n += parts[i].n();
        }
        final double[] all = values;
        final int count = n;
        final int half = n / 2;
        IntStream.range(0, 2)
                .parallel()
                .forEach(i -> Arrays.sort(all, i * half, i == 0 ? half : count));
        values = new double[0];
        return merged(all, half, count);
    }

    /** Mean and squares of all batches, put together in their order. */
    Part whole() {
        Part sum = new Part(0, 0, 0, 0, 0);
        for (Part p : parts) {
            final int n = sum.n() + p.n();
            if (n > 0) {
                final double d = p.mean() - sum.mean();
                sum =
                        new Part(
                                n,
                                sum.mean() + d * p.n() / n,
                                sum.squares() + p.squares() + d * d * sum.n() * p.n() / n,
                                0,
                                0);
            }
        }
        return sum;
    }

    /** Steps of an interval that holds a share of n trials. */
    static int inside(double coverage, int n) {
        return (int) Math.rint(coverage * n);
    }

    /**
     * One batch in short.
     *
     * @param n finite trials
     * @param squares sum of squared deviations from the mean
     */
    record Part(int n, double mean, double squares, double lower, double upper) {
        double deviation() {
            return n > 1 ? Math.sqrt(squares / (n - 1)) : 0;
        }
    }

    /** Two sorted parts of an array as one. */
    private static double[] merged(double[] all, int half, int n) {
        final double[] merged = new double[n];
        int i = 0;
        int j = half;
        for (int k = 0; k < n; k++) {
            final boolean first = j == n || (i < half && all[i] <= all[j]);
            merged[k] = first ? all[i++] : all[j++];
        }
        return merged;
    }
}
