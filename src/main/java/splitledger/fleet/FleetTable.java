package splitledger.fleet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.base.CsvText;
import splitledger.base.Shown;
import splitledger.study.Verdict;

/**
 * The table of a run, {@code fleet.csv}: a row for each study in the order they were named. It says
 * the same whether a dossier was written now or kept from before.
 */
public final class FleetTable {
    /** Its name in the folder of the run. */
    public static final String NAME = "fleet.csv";

    private static final List<Verdict> COUNTED =
            List.of(Verdict.MEETS, Verdict.FAILS, Verdict.NOT_SHOWN, Verdict.UNDECIDED);
    private static final List<String> HEADER =
            List.of(
                    "study",
                    "protocol",
                    "state",
                    "exit",
                    "findings",
                    "budgets",
                    "meets",
                    "fails",
                    "not_shown",
                    "undecided",
                    "study_digest",
                    "message");

    private final CsvText csv = new CsvText(HEADER);
    private final List<Row> rows = new ArrayList<>();

    /**
     * One study.
     *
     * @param exit as the shell would see it, had it been evaluated alone
     * @param summary of its dossier; empty if it has none
     */
    public record Row(Job job, int exit, Optional<Summary> summary, boolean kept) {}

    /** Adds a study that has its dossier. */
    public void done(Ended.Done ended, int exit) {
        final Summary s = ended.summary();
        start(ended.job(), "done", exit);
        csv.cell(s.findings()).cell(s.budgets());
        COUNTED.forEach(verdict -> csv.cell(s.count(verdict)));
        csv.cell(s.studyDigest()).empty().endRow();
        rows.add(new Row(ended.job(), exit, Optional.of(s), ended.kept()));
    }

    /**
     * Adds a study that has none.
     *
     * @param message the first thing that is wrong, in words without a folder of this machine
     */
    public void broken(Job job, int exit, String message) {
        start(job, "failed", exit);
        csv.empty().empty();
        COUNTED.forEach(verdict -> csv.empty());
        csv.empty().cell(Shown.text(message)).endRow();
        rows.add(new Row(job, exit, Optional.empty(), false));
    }

    private void start(Job job, String state, int exit) {
        csv.cell(job.name()).cell(job.shown()).cell(state).cell(exit);
    }

    /** What was added, in order. */
    public List<Row> rows() {
        return List.copyOf(rows);
    }

    /** The file. */
    public byte[] bytes() {
        return csv.bytes();
    }
}
