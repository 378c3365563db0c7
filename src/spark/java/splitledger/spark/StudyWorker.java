package splitledger.spark;

import java.io.IOException;
import java.io.Serializable;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.spark.TaskContext;
import org.apache.spark.util.SerializableConfiguration;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.cli.ProgramVersion;
import splitledger.fleet.Ended;
import splitledger.fleet.Fleet;
import splitledger.fleet.Job;

/**
 * Evaluates one study where Spark sends it. Every fault of one study is an answer, never an
 * exception, so that no study stops another; only the loss of a machine makes Spark try again.
 *
 * @param conf how file systems are reached
 * @param out folder of the dossiers
 * @param root folder that protocols and their tables must lie below; empty for the folder of each
 *     protocol
 * @param run name of this run, unique
 */
record StudyWorker(
        SerializableConfiguration conf, String out, String root, String run, Wanted wanted)
        implements Serializable {

    /**
     * What is asked for.
     *
     * @param replace whether dossiers that are there may be replaced
     * @param resume whether dossiers that are there and still true are left
     * @param pdf whether reports are set on paper
     * @param strict whether an undecided requirement counts as not met
     */
    record Wanted(boolean replace, boolean resume, boolean pdf, boolean strict)
            implements Serializable {}

    /** Evaluates. */
    StudyEnd end(StudyWork work) {
        final Job job = new Job(work.name(), work.shown(), () -> located(work));
        try {
            final Path folder = new Path(out);
            final HadoopDossiers dossiers =
                    new HadoopDossiers(
                            folder.getFileSystem(conf.value()),
                            folder,
                            ProgramVersion.built(),
                            new HadoopDossiers.Rules(
                                    wanted.replace(), wanted.pdf(), work.wasThere()),
                            run + "-" + TaskContext.get().taskAttemptId());
            return StudyEnd.of(
                    work, new Fleet(dossiers, wanted.resume()).one(job), wanted.strict());
        } catch (ProblemException | IOException | RuntimeException | LinkageError problem) {
            return StudyEnd.of(work, new Ended.Broken(job, problem));
        } catch (OutOfMemoryError | StackOverflowError problem) {
            return StudyEnd.of(work, new Ended.Broken(job, problem));
        }
    }

    /** Finds a study's files. */
    Job.Located located(StudyWork work) throws ProblemException, IOException {
        final Configuration known = conf.value();
        final Path typed = new Path(work.protocol());
        final FileSystem files = typed.getFileSystem(known);
        final Path protocol = files.makeQualified(typed);
        if (!files.exists(protocol) || !files.getFileStatus(protocol).isFile()) {
            throw problem(work, "", "no such file", "a protocol file", "check the name");
        }
        final Path base =
                root.isEmpty() ? protocol.getParent() : files.makeQualified(new Path(root));
        final String above = base.isRoot() ? base.toString() : base + "/";
        if (!protocol.toString().startsWith(above)) {
            throw problem(
                    work,
                    "--root",
                    "a protocol outside " + base,
                    "one below it",
                    "name a folder above both");
        }
        return new Job.Located(
                new HadoopVault(files, base), protocol.toString().substring(above.length()));
    }

    private static ProblemException problem(
            StudyWork work, String column, String found, String expected, String hint) {
        return new ProblemException(new Problem(work.protocol(), 0, column, found, expected, hint));
    }
}
