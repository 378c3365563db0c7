package splitledger.propagation;

import java.util.List;
import java.util.SortedMap;

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
        final Batches batches = new Batches(seed, coverage, equation, inputs, batch);
        final int most = Math.max(1, trials / batch);
        int wanted = adaptive ? Math.min(most, LEAST_BATCHES) : most;
        int settled = 0;
        while (settled == 0 && batches.size() < wanted) {
            final int before = batches.size();
            batches.extend(wanted);
            if (adaptive) {
                final Settling rule = new Settling(coverage, freedom > NO_FOURTH_MOMENT);
                settled = rule.settledAt(batches.parts(), Math.max(LEAST_BATCHES, before + 1));
                wanted = Math.min(most, Math.max(wanted, rule.expected(batches.parts())));
            }
        }
        batches.keep(settled == 0 ? batches.size() : settled);
        return summary(batches, freedom > FEW_DEGREES_OF_FREEDOM, settled > 0);
    }

    private Simulated summary(Batches batches, boolean exists, boolean settled) {
        final int all = batches.trials();
        final double endError = Settling.errorOfEnds(batches.parts());
        final double[] sorted = batches.sorted();
        final int n = sorted.length;
        if (n < all / 2 || n < 2) {
            throw new ArithmeticException("the equation has no finite value in most of the trials");
        }
        final Batches.Part whole = batches.whole();
        final int inside = Batches.inside(coverage, n);
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
}
