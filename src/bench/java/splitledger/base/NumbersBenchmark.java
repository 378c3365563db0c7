package splitledger.base;

import java.util.SplittableRandom;
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

/** A thousand results as text, beside the platform's own longer text of them. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(2)
public class NumbersBenchmark {
    private final double[] values = new double[1000];

    /** Numbers between 0.001 and 1000. */
    @Setup
    public void prepare() {
        final SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < values.length; i++) {
            values[i] = StrictMath.pow(10, random.nextDouble(-3, 3));
        }
    }

    /** The number writer. */
    @Benchmark
    public long shortest() {
        long length = 0;
        for (double value : values) {
            length += Numbers.text(value).length();
        }
        return length;
    }

    /** Double.toString. */
    @Benchmark
    public long platform() {
        long length = 0;
        for (double value : values) {
            length += Double.toString(value).length();
        }
        return length;
    }
}
