package splitledger.fleet;

import java.io.IOException;
import splitledger.base.Problem;
import splitledger.base.ProblemException;

/** How the work on one study ended. */
public sealed interface Ended {

    /** The study. */
    Job job();

    /**
     * Its dossier is there.
     *
     * @param summary of what it holds
     * @param kept whether it was there before and nothing had changed
     */
    record Done(Job job, Summary summary, boolean kept) implements Ended {}

    /**
     * There is no dossier.
     *
     * @param problem what stopped it: a mistake in its input, a disk that is full, a fault
     */
    record Broken(Job job, Throwable problem) implements Ended {

        /** The first thing that is wrong, without the folder it is in. */
        public String words() {
            if (problem instanceof ProblemException input) {
                final Problem first = input.problems().get(0);
                final String name = first.file().replaceFirst(".*[/\\\\]", "");
                final Problem there =
                        new Problem(
                                name,
                                first.row(),
                                first.column(),
                                first.found(),
                                first.expected(),
                                "");
                final int more = input.problems().size() - 1;
                return there.text() + (more > 0 ? "; and " + more + " more" : "");
            }
            return problem instanceof IOException
                    ? "a file could not be read or written"
                    : "not evaluated; see the messages of the run";
        }
    }
}
