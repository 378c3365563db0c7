package splitledger.propagation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import splitledger.statistics.RandomStream;

/** A million trials of a budget with ten inputs, beside the cost of its random numbers alone. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(2)
public class MonteCarloBenchmark {
    private static final int TRIALS = 1_000_000;
    private static final int INPUTS = 10;
    private static final int CORRELATED = 4;

    /** Threads that share the batches. */
    @Param({"1", "2"})
    private int threads = 1;

    private ForkJoinPool pool = new ForkJoinPool(1);

    private long seed = 1;
    private Expression equation = new Expression.Constant(0);
    private SortedMap<String, Uncertain> inputs = new TreeMap<>();

    /** Ten normal inputs of one percent each; the first four correlated by 0.5 with each other. */
    @Setup
    public void prepare() throws ExpressionException {
        pool.shutdown();
        pool = new ForkJoinPool(threads);
        equation = ExpressionParser.parse("a * b / c * d / e + f * g - h * i / j");
        inputs = new TreeMap<>();
        final List<Root> roots = new ArrayList<>();
        for (char name = 'a'; name < 'a' + INPUTS; name++) {
            final String id = String.valueOf(name);
            final Pool pool = Pool.known(id, "benchmark");
            final Root root = Root.normal(id, pool, Effect.MODEL, ActsOn.SAMPLE, "benchmark");
            inputs.put(id, Uncertain.of(10, "1", root, 0.1));
            roots.add(root);
        }
        final double[][] r = new double[CORRELATED][CORRELATED];
        for (int i = 0; i < CORRELATED; i++) {
            Arrays.fill(r[i], 0.5);
            r[i][i] = 1;
        }
        final List<String> first = List.of("a", "b", "c", "d");
        final List<Uncertain> values = first.stream().map(name -> inputs.get(name)).toList();
        final List<Uncertain> joined =
                CorrelatedRoots.joined(values, CorrelatedRoots.factor(r).orElseThrow(), roots);
        for (int i = 0; i < CORRELATED; i++) {
            inputs.put(first.get(i), joined.get(i));
        }
    }

    /** Ends the threads. */
    @TearDown
    public void end() {
        pool.shutdown();
    }

    /** The whole run: draws, equation, mean, standard deviation, both intervals. */
    @Benchmark
    public MonteCarlo.Simulated budget() {
        final MonteCarlo run = MonteCarlo.of(seed++, TRIALS, 0.95);
        return pool.submit(() -> run.run(equation, inputs)).join();
    }

    /** The random numbers alone. */
    @Benchmark
    public double randomNumbers() {
        final RandomStream random = RandomStream.of(seed++, 0);
        double sum = 0;
        for (int i = 0; i < TRIALS * INPUTS; i++) {
            sum += random.nextNormal();
        }
        return sum;
    }
}
