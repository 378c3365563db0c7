package splitledger.fleet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import splitledger.base.ProblemException;
import splitledger.dossier.Dossiers;
import splitledger.dossier.Shelf;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Evaluation;

/**
 * Evaluates many studies side by side. A worker holds one study at a time and keeps only its
 * summary, so that memory does not grow with the number of studies.
 */
public final class Fleet {
    /** Room that a worker should have: what one study of the demonstration needs, with reserve. */
    private static final long ROOM = 384L << 20;

    private final Dossiers shelf;
    private final boolean resume;

    /**
     * A run.
     *
     * @param shelf where the dossiers go
     * @param resume whether a dossier that is there and still true is left as it is
     */
    public Fleet(Dossiers shelf, boolean resume) {
        this.shelf = shelf;
        this.resume = resume;
    }

    /** Workers that this machine has processors and memory for. */
    public static int workers() {
        final long room = Math.max(1, Runtime.getRuntime().maxMemory() / ROOM);
        return (int) Math.min(room, Runtime.getRuntime().availableProcessors());
    }

    /**
     * Evaluates them all.
     *
     * @param jobs the studies; their names are unique
     * @param workers how many at a time, 1 or more
     * @param inOrder told of every study in the order of the jobs, as soon as it and all before it
     *     have ended
     * @param asTheyEnd told how many have ended; called by the workers
     * @throws InterruptedException if the caller is interrupted; then no further study is begun
     */
    public void run(List<Job> jobs, int workers, Consumer<Ended> inOrder, Runnable asTheyEnd)
            throws InterruptedException {
        final ExecutorService pool = Executors.newFixedThreadPool(workers);
        try {
            final List<Future<Ended>> ends = new ArrayList<>();
            for (Job job : jobs) {
                final Callable<Ended> work =
                        () -> {
                            try {
                                return one(job);
                            } finally {
                                asTheyEnd.run();
                            }
                        };
                ends.add(pool.submit(work));
            }
            for (int i = 0; i < ends.size(); i++) {
                inOrder.accept(ended(jobs.get(i), ends.get(i)));
            }
        } finally {
            pool.shutdownNow();
        }
    }

    private static Ended ended(Job job, Future<Ended> end) throws InterruptedException {
        try {
            return end.get();
        } catch (ExecutionException e) {
            final Throwable cause = e.getCause();
            return new Ended.Broken(job, cause == null ? e : cause);
        }
    }

    /**
     * Evaluates one study in this thread.
     *
     * @throws ProblemException if its input is wrong
     * @throws IOException if a file cannot be read or written
     */
    public Ended.Done one(Job job) throws ProblemException, IOException {
        final Job.Located files = job.source().find();
        if (resume) {
            final Optional<Shelf.Kept> kept =
                    shelf.kept(files.inputs(), files.protocol(), job.name());
            if (kept.isPresent()) {
                return new Ended.Done(job, Summary.of(kept.get()), true);
            }
        }
        shelf.check(job.name());
        final Evaluation evaluation =
                Evaluator.evaluate(StudyReader.read(files.inputs(), files.protocol()));
        final String digest = shelf.write(evaluation, files.inputs(), job.name());
        return new Ended.Done(job, Summary.of(evaluation, digest), false);
    }
}
