package splitledger.cli;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.dossier.DossierReader;
import splitledger.dossier.Shelf;
import splitledger.fleet.Ended;
import splitledger.fleet.Fleet;
import splitledger.fleet.FleetTable;
import splitledger.fleet.Job;
import splitledger.fleet.Summary;
import splitledger.study.Verdict;

/** A run over many studies as the command line shows it. */
final class FleetRun {
    private final PrintWriter out;
    private final PrintWriter err;
    private final MessageForm form;
    private final Path folder;
    private final boolean strict;
    private final FleetTable table = new FleetTable();
    private Exit worst = Exit.DONE;

    FleetRun(PrintWriter out, PrintWriter err, MessageForm form, Path folder, boolean strict) {
        this.out = out;
        this.err = err;
        this.form = form;
        this.folder = folder;
        this.strict = strict;
    }

    /**
     * What is asked for.
     *
     * @param replace whether what is there may be replaced
     * @param resume whether what is there and still true is left
     * @param pack whether archives are made
     * @param png whether charts are painted in points too
     * @param jobs how many at a time; empty for what the machine has room for
     */
    record Wanted(
            boolean replace, boolean resume, boolean pack, boolean png, Optional<Integer> jobs) {}

    /** Evaluates all protocols. */
    Exit run(Protocols protocols, Optional<Path> root, Wanted wanted)
            throws ProblemException, IOException {
        final List<String> names = protocols.dossiers();
        if (DossierReader.isDossier(folder)) {
            throw new ProblemException(
                    new Problem(
                            folder.toString(),
                            0,
                            "--out",
                            "a dossier",
                            "a folder for the dossiers of several studies",
                            "name another folder with --out; nothing in it was touched"));
        }
        final Path file = folder.resolve(FleetTable.NAME);
        if (Files.exists(file) && !wanted.replace() && !wanted.resume()) {
            throw new ProblemException(
                    new Problem(
                            file.toString(),
                            0,
                            "--out",
                            "the table of an earlier run",
                            "a folder without one",
                            "name another folder with --out, or give --resume to go on with that"
                                    + " run, or --replace to replace it"));
        }
        final List<Job> jobs = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            jobs.add(job(names.get(i), protocols.files().get(i), root));
        }
        final Shelf shelf =
                new Shelf(folder, ProgramVersion.built(), wanted.replace(), wanted.pack())
                        .withPng(wanted.png());
        final Progress progress = Progress.on(err, jobs.size());
        try {
            new Fleet(shelf, wanted.resume())
                    .run(
                            jobs,
                            Math.min(jobs.size(), wanted.jobs().orElseGet(Fleet::workers)),
                            ended -> told(ended, progress),
                            progress::step);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("stopped before all studies were evaluated");
        }
        progress.clear();
        shelf.table(FleetTable.NAME, table.bytes());
        print(file);
        return worst;
    }

    private static Job job(String name, Path protocol, Optional<Path> root) {
        return new Job(
                name,
                name + "/" + protocol.getFileName(),
                () -> {
                    final ProtocolFile file = ProtocolFile.find(protocol, root);
                    return new Job.Located(file.vault(), file.name());
                });
    }

    private void told(Ended ended, Progress progress) {
        if (ended instanceof Ended.Done done) {
            final Exit exit =
                    done.summary().fallsShort(strict) ? Exit.CRITERION_NOT_MET : Exit.DONE;
            table.done(done, exit.code());
            worst = worst.worse(exit);
        } else if (ended instanceof Ended.Broken broken) {
            progress.aside(
                    () -> {
                        if (form == MessageForm.TEXT) {
                            err.println(broken.job().name() + ": not evaluated");
                        }
                        final Exit exit = Failures.report(broken.problem(), err, form);
                        table.broken(broken.job(), exit.code(), broken.words());
                        worst = worst.worse(exit);
                    });
        }
    }

    private void print(Path file) {
        final int width =
                table.rows().stream().mapToInt(r -> r.job().name().length()).max().orElse(0);
        final String form = "%-" + Math.max(width, 5) + "s  %-6s  %4s  %8s  %5s  %5s  %9s  %9s";
        line(
                form,
                "study",
                "state",
                "exit",
                "findings",
                "meets",
                "fails",
                "not shown",
                "undecided");
        int kept = 0;
        int failed = 0;
        for (FleetTable.Row row : table.rows()) {
            final Optional<Summary> s = row.summary();
            kept += row.kept() ? 1 : 0;
            failed += s.isPresent() ? 0 : 1;
            line(
                    form,
                    row.job().name(),
                    s.isEmpty() ? "failed" : row.kept() ? "kept" : "done",
                    row.exit(),
                    s.map(x -> Integer.toString(x.findings())).orElse(""),
                    count(s, Verdict.MEETS),
                    count(s, Verdict.FAILS),
                    count(s, Verdict.NOT_SHOWN),
                    count(s, Verdict.UNDECIDED));
        }
        out.println(
                table.rows().size()
                        + (table.rows().size() == 1 ? " study: " : " studies: ")
                        + (table.rows().size() - failed - kept)
                        + " evaluated, "
                        + kept
                        + " kept from before, "
                        + failed
                        + " failed");
        out.println("  table: " + file);
    }

    private void line(String form, Object... cells) {
        out.println(String.format(Locale.ROOT, form, cells).stripTrailing());
    }

    private static String count(Optional<Summary> summary, Verdict verdict) {
        return summary.map(s -> Integer.toString(s.count(verdict))).orElse("");
    }
}
