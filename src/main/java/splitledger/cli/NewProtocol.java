package splitledger.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.evaluation.Readiness;
import splitledger.intake.Sheet;
import splitledger.intake.SheetReader;
import splitledger.intake.drafting.Draft;
import splitledger.intake.drafting.Drafter;
import splitledger.intake.drafting.Trial;

/**
 * The steps of {@code new}: reads the tables, drafts, tries the draft, writes it down.
 *
 * @param lines what to tell
 */
record NewProtocol(List<String> lines) {
    private static final String SCHEMA = "protocol.schema.json";
    private static final String RESOURCE = "/splitledger/protocol.schema.json";
    private static final List<String> EVERY =
            List.of(
                    "calibration",
                    "repeatability",
                    "detection",
                    "split-linearity",
                    "discrimination",
                    "losses",
                    "recovery");

    static NewProtocol draft(List<Path> tables, Path out, Optional<Path> root, boolean replace)
            throws ProblemException, IOException {
        final ProtocolFile target = ProtocolFile.at(out, root);
        refuseExisting(out, replace);
        final List<Sheet> sheets =
                SheetReader.read(target.vault(), target.name(), names(tables, out));
        final Draft draft = Drafter.draft(sheets, SCHEMA);
        final Trial trial = Trial.of(draft, target.vault(), target.name());
        final List<Readiness> ready = trial.study().map(Readiness::of).orElse(List.of());
        final byte[] text =
                draft.text(remarks(ready, trial, target.name())).getBytes(StandardCharsets.UTF_8);
        final Path beside = folderOf(out).resolve(SCHEMA);
        final boolean fresh = !Files.exists(beside, LinkOption.NOFOLLOW_LINKS);
        final String schema = writeSchema(beside, replace);
        try {
            write(out, text, replace);
        } catch (IOException e) {
            if (fresh) {
                Files.deleteIfExists(beside);
            }
            throw e;
        }
        return new NewProtocol(told(out, target.name(), draft, ready, trial, schema));
    }

    private static void refuseExisting(Path out, boolean replace) throws ProblemException {
        if (!replace && Files.exists(out, LinkOption.NOFOLLOW_LINKS)) {
            throw new ProblemException(
                    new Problem(
                            out.toString(),
                            0,
                            "--out",
                            "a file that is there already",
                            "a new name",
                            "name another file, or give --replace to replace this one"));
        }
    }

    /** Names relative to the protocol; each table once. */
    private static List<String> names(List<Path> tables, Path out)
            throws ProblemException, IOException {
        final Path folder = folderOf(out).toRealPath();
        final Set<String> names = new LinkedHashSet<>();
        final List<Problem> problems = new ArrayList<>();
        for (Path table : tables) {
            if (!Files.isRegularFile(table)) {
                problems.add(
                        new Problem(
                                table.toString(),
                                0,
                                "--from",
                                Files.isDirectory(table) ? "a folder" : "no such file",
                                "a table",
                                "check the name"));
                continue;
            }
            final Path real = table.toRealPath();
            if (!java.util.Objects.equals(real.getRoot(), folder.getRoot())) {
                problems.add(
                        new Problem(
                                table.toString(),
                                0,
                                "--from",
                                "a table on another drive than the protocol",
                                "a table below a folder that holds both",
                                "copy the table beside the protocol"));
                continue;
            }
            names.add(ProtocolFile.slashed(folder.relativize(real)));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return List.copyOf(names);
    }

    private static Path folderOf(Path out) {
        final Path folder = out.toAbsolutePath().normalize().getParent();
        return folder == null ? Path.of("").toAbsolutePath() : folder;
    }

    private static Map<String, List<String>> remarks(
            List<Readiness> ready, Trial trial, String protocol) {
        final Map<String, List<String>> remarks = new LinkedHashMap<>();
        for (Readiness one : ready) {
            final List<String> lines = new ArrayList<>();
            lines.add("The tables have " + one.holds() + ".");
            one.lacks().forEach(lack -> lines.add("Lacks: " + lack));
            remarks.put(one.id(), lines);
        }
        for (String id : EVERY) {
            if (!remarks.containsKey(id)) {
                Readiness.needs(id)
                        .ifPresent(needs -> remarks.put(id, List.of("It needs " + needs + ".")));
            }
        }
        if (!trial.problems().isEmpty()) {
            final List<String> lines = new ArrayList<>();
            lines.add("The tables cannot be read like this yet:");
            trial.problems().stream().limit(10).forEach(p -> lines.add("- " + words(p, protocol)));
            remarks.put("tables", lines);
        }
        return remarks;
    }

    /** A problem of the trial; lines of a protocol that is not written are no help. */
    private static String words(Problem problem, String protocol) {
        return (!problem.file().equals(protocol)
                        ? problem
                        : new Problem(
                                "",
                                0,
                                problem.column(),
                                problem.found(),
                                problem.expected(),
                                problem.hint()))
                .text()
                .replace("\n  what to do:", "; what to do:");
    }

    /** Puts the schema beside the protocol, for editors; a file that is there stays. */
    private static String writeSchema(Path schema, boolean replace) throws IOException {
        try (InputStream in = NewProtocol.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + RESOURCE + " is missing");
            }
            final byte[] bytes = in.readAllBytes();
            if (!Files.exists(schema, LinkOption.NOFOLLOW_LINKS)) {
                write(schema, bytes, false);
                return "with it, an editor can complete and check the protocol as you type";
            }
            if (java.util.Arrays.equals(Files.readAllBytes(schema), bytes)) {
                return "is there already";
            }
            if (replace) {
                write(schema, bytes, true);
                return "was renewed";
            }
            return "is there already and was kept; it is not that of this version";
        }
    }

    /** Writes a file whole or not at all. */
    private static void write(Path file, byte[] bytes, boolean replace) throws IOException {
        final Path part = folderOf(file).resolve(".splitledger-" + file.getFileName() + ".part");
        try {
            Files.write(part, bytes);
            if (replace) {
                Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
            } else {
                Files.move(part, file);
            }
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private static List<String> told(
            Path out,
            String protocol,
            Draft draft,
            List<Readiness> ready,
            Trial trial,
            String schema) {
        final List<String> lines = new ArrayList<>();
        final int questions = draft.questions();
        lines.add(
                out
                        + ": drafted; "
                        + (questions == 1 ? "1 question waits" : questions + " questions wait")
                        + " for you (look for ASK)");
        trial.study()
                .ifPresent(s -> lines.add("  compounds: " + shortened(s.compounds().targets())));
        for (Readiness one : ready) {
            lines.add("  " + one.id() + ": " + one.holds());
            one.lacks().forEach(lack -> lines.add("    lacks: " + lack));
        }
        if (trial.study().isEmpty()) {
            lines.add(
                    trial.problems().isEmpty()
                            ? "  the tables need a column with a different label for each injection"
                            : "  the tables cannot be read like this yet:");
            trial.problems().stream().limit(3).forEach(p -> lines.add("    " + words(p, protocol)));
        }
        lines.add("  " + SCHEMA + " " + schema);
        lines.add("next: answer the questions, then");
        lines.add("  splitledger evaluate " + out + " --out dossier");
        return lines;
    }

    private static String shortened(List<String> names) {
        final int shown = Math.min(8, names.size());
        return String.join(", ", names.subList(0, shown))
                + (names.size() > shown ? " and " + (names.size() - shown) + " more" : "");
    }
}
