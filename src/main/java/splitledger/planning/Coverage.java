package splitledger.planning;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntConsumer;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.virtual.Design;
import splitledger.virtual.Simulation;
import splitledger.virtual.Truth;

/**
 * Runs many simulated studies of a laboratory through intake and evaluation and counts how often
 * the intervals hold the truth.
 */
public final class Coverage {
    private static final int BLOCK = 32;

    private Coverage() {}

    /**
     * What came out.
     *
     * @param rows one for each quantity with a truth, in order
     * @param withoutTruth names of quantities that gave intervals without a truth to compare
     */
    public record Result(List<CoverageRow> rows, SortedSet<String> withoutTruth) {
        public Result {
            rows = List.copyOf(rows);
        }
    }

    /** What one study says. */
    private record Told(List<Trial> trials, List<Estimand> withoutTruth) {}

    /**
     * Simulates and counts. The same numbers for any number of threads.
     *
     * @param design of the laboratory
     * @param seed of the first study; each study has its own
     * @param studies how many
     * @param extent of each evaluation
     * @param threads how many work at once
     * @param progress told after each block how many studies are done
     */
    public static Result run(
            Design design,
            long seed,
            int studies,
            Extent extent,
            int threads,
            IntConsumer progress) {
        final SortedMap<Estimand, Tally> tallies = new TreeMap<>();
        final SortedSet<String> withoutTruth = new TreeSet<>();
        final ExecutorService workers = Executors.newFixedThreadPool(threads);
        try {
            for (int first = 0; first < studies; first += BLOCK * threads) {
                final int last = Math.min(studies, first + BLOCK * threads);
                final List<Future<Told>> block = new ArrayList<>();
                for (int i = first; i < last; i++) {
                    final long own = seed + i;
                    block.add(workers.submit(() -> one(design.seeded(own), extent)));
                }
                for (Future<Told> study : block) {
                    final Told told = study.get();
                    told.trials()
                            .forEach(
                                    t ->
                                            tallies.computeIfAbsent(
                                                            t.estimand(), e -> new Tally(t.unit()))
                                                    .add(t));
                    told.withoutTruth().forEach(e -> withoutTruth.add(e.words()));
                }
                progress.accept(last);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted", e);
        } catch (ExecutionException e) {
            throw new IllegalStateException("a simulated study could not be evaluated", e);
        } finally {
            workers.shutdownNow();
        }
        return new Result(
                tallies.entrySet().stream().map(e -> e.getValue().row(e.getKey())).toList(),
                withoutTruth);
    }

    /** A simulated study through the house. */
    public static Evaluation evaluated(Design design, Extent extent) {
        try {
            return Evaluator.evaluate(
                    StudyReader.read(new MemoryVault(Simulation.tables(design)), "protocol.yaml"),
                    extent);
        } catch (ProblemException e) {
            throw new IllegalStateException("the simulated tables are refused", e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Told one(Design design, Extent extent) {
        final List<Estimand> withoutTruth = new ArrayList<>();
        final List<Trial> trials =
                Trial.of(evaluated(design, extent), Truth.of(design), withoutTruth);
        return new Told(trials, withoutTruth);
    }
}
