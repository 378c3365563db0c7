package splitledger.virtual;

/**
 * An independently made solution.
 *
 * @param label as in the run list
 * @param level what was added; empty if nothing
 * @param oil what was weighed; empty if nothing
 * @param day of preparation
 * @param analyst who made it
 */
public record Flask(String label, String level, String oil, String day, String analyst) {}
