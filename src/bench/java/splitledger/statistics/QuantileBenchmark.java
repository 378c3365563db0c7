package splitledger.statistics;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Quantiles that budgets and intervals ask for thousands of times. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(2)
public class QuantileBenchmark {
    private double degreesOfFreedom = 7.3;
    private double probability = 0.975;

    /** Student's t of broken degrees of freedom. */
    @Benchmark
    public double t() {
        return Quantiles.t(probability, degreesOfFreedom);
    }

    /** Chi-square. */
    @Benchmark
    public double chiSquare() {
        return Quantiles.chiSquare(probability, degreesOfFreedom);
    }

    /** Fisher's F. */
    @Benchmark
    public double f() {
        return Quantiles.f(probability, degreesOfFreedom, 3);
    }
}
