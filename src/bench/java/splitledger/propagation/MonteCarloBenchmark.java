package splitledger.propagation;

import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
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

    private long seed = 1;
    private Expression equation = new Expression.Constant(0);
    private SortedMap<String, Uncertain> inputs = new TreeMap<>();

    /** Ten normal inputs of one percent each. */
    @Setup
    public void prepare() throws ExpressionException {
        equation = ExpressionParser.parse("a * b / c * d / e + f * g - h * i / j");
        inputs = new TreeMap<>();
        for (char name = 'a'; name < 'a' + INPUTS; name++) {
            final String id = String.valueOf(name);
            final Pool pool = Pool.known(id, "benchmark");
            final Root root = Root.normal(id, pool, Effect.MODEL, ActsOn.SAMPLE, "benchmark");
            inputs.put(id, Uncertain.of(10, "1", root, 0.1));
        }
    }

    /** The whole run: draws, equation, mean, standard deviation, both intervals. */
    @Benchmark
    public MonteCarlo.Simulated budget() {
        return MonteCarlo.of(seed++, TRIALS, 0.95).run(equation, inputs);
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
