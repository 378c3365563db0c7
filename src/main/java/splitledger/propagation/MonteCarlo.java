package splitledger.propagation;

import java.util.Arrays;
import java.util.List;
import java.util.Queue;
import java.util.SortedMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.stream.IntStream;
import splitledger.statistics.RandomStream;

/**
 * Propagation of distributions by Monte Carlo (JCGM 101:2008, clause 7) on blocks of trials. Each
 * root is drawn once a trial and shared by all inputs that hold it; all normal roots of one pool of
 * finite degrees of freedom are divided by the square root of one chi-square over its degrees of
 * freedom (multivariate t). A block's numbers depend on the seed and the block's index alone, and
 * the rule that ends the trials looks at whole batches in their order, so that the number of
 * threads changes nothing.
 */
public final class MonteCarlo {
    /** Significant digits of u to which an adaptive run settles. */
    static final int DIGITS = 2;

    private static final int FEW_DEGREES_OF_FREEDOM = 2;
    private static final int NO_FOURTH_MOMENT = 4;
    private static final int LEAST_BATCH = 10_000;
    private static final int LEAST_BATCHES = 10;
    private static final int MOST_TRIALS = 2_000_000;

    private final long seed;
    private final int trials;
    private final double coverage;
    private final boolean adaptive;

    private MonteCarlo(long seed, int trials, double coverage, boolean adaptive) {
        if (trials < 1 || !(coverage > 0 && coverage < 1)) {
            throw new IllegalArgumentException("trials = " + trials + ", coverage = " + coverage);
        }
        this.seed = seed;
        this.trials = (trials + Draw.BLOCK - 1) / Draw.BLOCK * Draw.BLOCK;
        this.coverage = coverage;
        this.adaptive = adaptive;
    }

    /**
     * A run of so many trials.
     *
     * @param seed of this budget
     * @param trials rounded up to whole blocks of 1000
     * @param coverage probability of the intervals, 0 to 1
     */
    public static MonteCarlo of(long seed, int trials, double coverage) {
        return new MonteCarlo(seed, trials, coverage, false);
    }

    /**
     * A run that goes on until mean, standard uncertainty and both ends of the symmetric interval
     * are settled to two significant digits of the standard uncertainty (JCGM 101:2008, 7.9.4):
     * batches of max(10^4, 100/(1 - coverage)) trials, at least ten of them and two million trials
     * at most; twice the standard deviation of each average over batches must not exceed the
     * numerical tolerance. Where a variance estimate has 4 degrees of freedom or fewer, the average
     * of standard deviations never settles in that sense: the ends alone decide.
     *
     * @param seed of this budget
     * @param coverage probability of the intervals, 0 to 1
     */
    public static MonteCarlo adaptive(long seed, double coverage) {
        return new MonteCarlo(seed, MOST_TRIALS, coverage, true);
    }

    /**
     * What the trials say.
     *
     * @param trials number of trials
     * @param mean mean of the finite trials
     * @param standardDeviation their standard deviation; NaN-free: see {@code
     *     standardDeviationExists}
     * @param standardDeviationExists false if a pool has 2 degrees of freedom or fewer, whose t has
     *     no variance
     * @param lower lower end of the probabilistically symmetric interval
     * @param upper its upper end
     * @param shortestLower lower end of the shortest interval
     * @param shortestUpper its upper end
     * @param withoutValue trials in which the equation had no finite value
     * @param median the trial in the middle
     * @param settled whether the numerical tolerance of an adaptive run was reached; false for a
     *     run of a fixed number of trials
     * @param endError standard error of the ends of the symmetric interval, of the less certain one
     * @param histogram the distribution in equal steps
     */
    public record Simulated(
            int trials,
            double mean,
            double standardDeviation,
            boolean standardDeviationExists,
            double lower,
            double upper,
            double shortestLower,
            double shortestUpper,
            int withoutValue,
            double median,
            boolean settled,
            double endError,
            Histogram histogram) {}

    /**
     * Trials counted in equal steps, all but the outermost thousandth on either side.
     *
     * @param from lower end of the first step
     * @param step width of a step; 0 if all trials are alike
     * @param densities share of all trials in each step, divided by its width
     */
    public record Histogram(double from, double step, List<Double> densities) {
        public Histogram {
            densities = List.copyOf(densities);
        }
    }

    /**
     * Runs the trials.
     *
     * @param equation the full equation
     * @param inputs every symbol of the equation
     * @return the summary
     * @throws ArithmeticException if fewer than half of the trials have a finite value
     */
    public Simulated run(Expression equation, SortedMap<String, Uncertain> inputs) {
        final double freedom = new Draw(equation, inputs).fewestDegreesOfFreedom();
        final int batch =
                adaptive
                        ? Math.max(LEAST_BATCH, Draw.BLOCK * (int) Math.ceil(0.1 / (1 - coverage)))
                        : Draw.BLOCK;
        final Batches batches = new Batches(equation, inputs, batch);
        final int most = Math.max(1, trials / batch);
        int wanted = adaptive ? Math.min(most, LEAST_BATCHES) : most;
        int settled = 0;
        while (settled == 0 && batches.size() < wanted) {
            final int before = batches.size();
            batches.extend(wanted);
            if (adaptive) {
                final Settling rule = new Settling(coverage, freedom > NO_FOURTH_MOMENT);
                settled = rule.settledAt(batches.parts, Math.max(LEAST_BATCHES, before + 1));
                wanted = Math.min(most, Math.max(wanted, rule.expected(batches.parts)));
            }
        }
        batches.keep(settled == 0 ? batches.size() : settled);
        return summary(batches, freedom > FEW_DEGREES_OF_FREEDOM, settled > 0);
    }

    private Simulated summary(Batches batches, boolean exists, boolean settled) {
        final int all = batches.size() * batches.batch;
        final double endError = Settling.errorOfEnds(batches.parts);
        final double[] sorted = batches.sorted();
        final int n = sorted.length;
        if (n < all / 2 || n < 2) {
            throw new ArithmeticException("the equation has no finite value in most of the trials");
        }
        final Part whole = batches.whole();
        final int inside = inside(coverage, n);
        final int below = (n - inside) / 2;
        final int shortest = shortest(sorted, inside);
        return new Simulated(
                all,
                whole.mean(),
                exists ? Math.sqrt(whole.squares() / (n - 1)) : 0,
                exists,
                sorted[below],
                sorted[Math.min(n - 1, below + inside)],
                sorted[shortest],
                sorted[Math.min(n - 1, shortest + inside)],
                all - n,
                (sorted[(n - 1) / 2] + sorted[n / 2]) / 2,
                settled,
                endError,
                Histograms.of(sorted));
    }

    private static int inside(double coverage, int n) {
        return (int) Math.rint(coverage * n);
    }

    /**
     * Index of the lower end of the shortest interval over {@code inside} steps (JCGM 101:2008,
     * 7.7.4).
     */
    private static int shortest(double[] sorted, int inside) {
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i + inside < sorted.length; i++) {
            final double width = sorted[i + inside] - sorted[i];
            if (width < least) {
                least = width;
                best = i;
            }
        }
        return best;
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

    /** The trials so far: each batch sorted in its own place. */
    private final class Batches {
        private final Expression equation;
        private final SortedMap<String, Uncertain> inputs;
        private final int batch;
        private double[] values = new double[0];
        private final Queue<Draw> idle = new ConcurrentLinkedQueue<>();
        private Part[] parts = new Part[0];

        Batches(Expression equation, SortedMap<String, Uncertain> inputs, int batch) {
            this.equation = equation;
            this.inputs = inputs;
            this.batch = batch;
        }

        int size() {
            return parts.length;
        }

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
    }
}
