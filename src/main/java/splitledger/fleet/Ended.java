package splitledger.fleet;

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
    record Broken(Job job, Throwable problem) implements Ended {}
}
