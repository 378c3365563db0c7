package splitledger.propagation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.statistics.RandomStream;

/**
 * Propagation of distributions by Monte Carlo (JCGM 101:2008, clause 7) on blocks of trials. Each
 * root is drawn once a trial and shared by all inputs that hold it; all normal roots of one pool of
 * finite degrees of freedom are divided by the square root of one chi-square over its degrees of
 * freedom (multivariate t). A block's numbers depend on the seed and the block's index alone.
 */
public final class MonteCarlo {
    private static final int BLOCK = 1000;
    private static final int FEW_DEGREES_OF_FREEDOM = 2;

    private final long seed;
    private final int trials;
    private final double coverage;

    private MonteCarlo(long seed, int trials, double coverage) {
        this.seed = seed;
        this.trials = trials;
        this.coverage = coverage;
    }

    /**
     * A run of so many trials.
     *
     * @param seed of this budget
     * @param trials rounded up to whole blocks of 1000
     * @param coverage probability of the intervals, 0 to 1
     */
    public static MonteCarlo of(long seed, int trials, double coverage) {
        if (trials < 1 || !(coverage > 0 && coverage < 1)) {
            throw new IllegalArgumentException("trials = " + trials + ", coverage = " + coverage);
        }
        return new MonteCarlo(seed, (trials + BLOCK - 1) / BLOCK * BLOCK, coverage);
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
            int withoutValue) {}

    /**
     * Runs the trials.
     *
     * @param equation the full equation
     * @param inputs every symbol of the equation
     * @return the summary
     * @throws ArithmeticException if fewer than half of the trials have a finite value
     */
    public Simulated run(Expression equation, SortedMap<String, Uncertain> inputs) {
        final Draw draw = new Draw(equation, inputs);
        final double[] values = new double[trials];
        for (int block = 0; block * BLOCK < trials; block++) {
            System.arraycopy(
                    draw.block(RandomStream.of(seed, block)), 0, values, block * BLOCK, BLOCK);
        }
        return summary(values, draw.fewestDegreesOfFreedom() > FEW_DEGREES_OF_FREEDOM);
    }

    private Simulated summary(double[] values, boolean exists) {
        int n = 0;
        double mean = 0;
        double squares = 0;
        for (double v : values) {
            if (!Double.isNaN(v) && !Double.isInfinite(v)) {
                values[n++] = v;
                final double d = v - mean;
                mean += d / n;
                squares += d * (v - mean);
            }
        }
        if (n < values.length / 2 || n < 2) {
            throw new ArithmeticException("the equation has no finite value in most of the trials");
        }
        final double[] sorted = n == values.length ? values : Arrays.copyOf(values, n);
        Arrays.sort(sorted);
        final int inside = (int) Math.rint(coverage * n);
        final int below = (n - inside) / 2;
        final int shortest = shortest(sorted, inside);
        return new Simulated(
                trials,
                mean,
                exists ? Math.sqrt(squares / (n - 1)) : 0,
                exists,
                sorted[below],
                sorted[Math.min(n - 1, below + inside)],
                sorted[shortest],
                sorted[Math.min(n - 1, shortest + inside)],
                trials - n);
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

    /** Draws one block: roots, pools, inputs, equation, all on reused arrays. */
    private static final class Draw {
        private final List<Uncertain> inputs = new ArrayList<>();
        private final SortedMap<Pool, double[]> pools = new TreeMap<>();
        private final SortedSet<Root> roots = new TreeSet<>();
        private final double[][] columns;
        private final double[] root = new double[BLOCK];
        private final BlockProgram program;

        Draw(Expression equation, SortedMap<String, Uncertain> given) {
            final List<String> symbols = new ArrayList<>(equation.symbols());
            symbols.forEach(s -> inputs.add(given.get(s)));
            columns = new double[symbols.size()][BLOCK];
            program = new BlockProgram(equation, symbols, BLOCK);
            inputs.forEach(x -> roots.addAll(x.roots()));
            for (Root r : roots) {
                if (!Double.isInfinite(r.pool().degreesOfFreedom())) {
                    pools.putIfAbsent(r.pool(), new double[BLOCK]);
                }
            }
        }

        double fewestDegreesOfFreedom() {
            return pools.keySet().stream()
                    .mapToDouble(Pool::degreesOfFreedom)
                    .min()
                    .orElse(Double.POSITIVE_INFINITY);
        }

        double[] block(RandomStream random) {
            for (int i = 0; i < columns.length; i++) {
                Arrays.fill(columns[i], inputs.get(i).value());
            }
            for (var e : pools.entrySet()) {
                final double nu = e.getKey().degreesOfFreedom();
                final double[] factor = e.getValue();
                for (int t = 0; t < BLOCK; t++) {
                    factor[t] = Math.sqrt(nu / random.nextChiSquare(nu));
                }
            }
            for (Root r : roots) {
                r.shape().fill(root, BLOCK, random);
                final double[] factor = pools.get(r.pool());
                if (factor != null && r.shape() instanceof Shape.Normal) {
                    for (int t = 0; t < BLOCK; t++) {
                        root[t] *= factor[t];
                    }
                }
                add(r);
            }
            return program.run(columns, BLOCK);
        }

        private void add(Root r) {
            for (int i = 0; i < columns.length; i++) {
                final double part = inputs.get(i).part(r);
                if (part != 0) {
                    final double[] column = columns[i];
                    for (int t = 0; t < BLOCK; t++) {
                        column[t] += part * root[t];
                    }
                }
            }
        }
    }
}
