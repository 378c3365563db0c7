package splitledger.spark;

import java.io.PrintWriter;
import java.io.Serializable;
import java.io.StringWriter;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.cli.Exit;
import splitledger.cli.Failures;
import splitledger.fleet.Ended;
import splitledger.fleet.Summary;
import splitledger.study.Verdict;

/**
 * How the work on one study ended, as it is sent back.
 *
 * @param done whether its dossier is there
 * @param kept whether it was left as it stood
 * @param exit as the shell would see it, had it been evaluated alone
 * @param verdicts how many findings of each verdict
 * @param words the first thing that is wrong; empty if done
 * @param said all that is wrong, for the person who runs it; empty if done
 */
record StudyEnd(
        StudyWork work,
        boolean done,
        boolean kept,
        int exit,
        int findings,
        int budgets,
        TreeMap<Verdict, Integer> verdicts,
        String digest,
        String words,
        String said)
        implements Serializable {

    static StudyEnd of(StudyWork work, Ended.Done done, boolean strict) {
        final Summary s = done.summary();
        final Exit exit = s.fallsShort(strict) ? Exit.CRITERION_NOT_MET : Exit.DONE;
        return new StudyEnd(
                work,
                true,
                done.kept(),
                exit.code(),
                s.findings(),
                s.budgets(),
                new TreeMap<>(s.verdicts()),
                s.studyDigest(),
                "",
                "");
    }

    static StudyEnd of(StudyWork work, Ended.Broken broken) {
        final StringWriter said = new StringWriter();
        final PrintWriter print = new PrintWriter(said);
        final Exit exit = Failures.report(broken.problem(), print);
        print.flush();
        return new StudyEnd(
                work,
                false,
                false,
                exit.code(),
                0,
                0,
                new TreeMap<>(),
                "",
                broken.words(),
                said.toString());
    }

    /** What its dossier holds. */
    Summary summary() {
        final SortedMap<Verdict, Integer> counts = verdicts;
        return new Summary(findings, budgets, counts, digest);
    }
}
