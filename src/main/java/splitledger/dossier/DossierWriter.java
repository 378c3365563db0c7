package splitledger.dossier;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.stream.Stream;
import splitledger.base.Digests;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.report.PaperStamp;
import splitledger.report.ReportWriter;
import splitledger.study.Evaluation;
import splitledger.study.InputFile;

/** Writes a dossier: all of it, or nothing. */
public final class DossierWriter {
    /** The file that makes a folder a dossier. */
    public static final String MANIFEST = "manifest.json";

    /** Where the copies of what was read stand. */
    public static final String INPUTS = "inputs/";

    private final ProgramVersion version;
    private final boolean pdf;
    private final boolean png;

    /** A writer that names this program version in what it writes, without PDF and PNG. */
    public DossierWriter(ProgramVersion version) {
        this(version, false, false);
    }

    private DossierWriter(ProgramVersion version, boolean pdf, boolean png) {
        this.version = version;
        this.pdf = pdf;
        this.png = png;
    }

    /**
     * A writer that also sets the report on paper.
     *
     * @param wanted whether {@code report.pdf} is written
     */
    public DossierWriter withPdf(boolean wanted) {
        return new DossierWriter(version, wanted, png);
    }

    /**
     * A writer that also paints the charts in points.
     *
     * @param wanted whether {@code figures/*.png} are written
     */
    public DossierWriter withPng(boolean wanted) {
        return new DossierWriter(version, pdf, wanted);
    }

    /**
     * Says whether a folder may be written to, before any work is done.
     *
     * @param target the dossier's folder
     * @param replace whether a dossier that is there may be replaced
     * @throws ProblemException if something is there that must stay
     */
    public static void check(Path target, boolean replace) throws ProblemException, IOException {
        check(target.toString(), standing(target), replace);
    }

    private static Standing standing(Path target) throws IOException {
        if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            return Standing.FREE;
        }
        if (!Files.isDirectory(target)) {
            return Standing.FILE;
        }
        if (isEmpty(target)) {
            return Standing.FREE;
        }
        return Files.isRegularFile(target.resolve(MANIFEST)) ? Standing.DOSSIER : Standing.OTHER;
    }

    /** What stands where a dossier is to be written. */
    public enum Standing {
        /** Nothing, or an empty folder. */
        FREE,
        /** A file. */
        FILE,
        /** A folder with other files. */
        OTHER,
        /** A dossier. */
        DOSSIER
    }

    /**
     * Says whether a place may be written to, on whatever file system it lies.
     *
     * @param target the place, for messages
     * @param standing what is there
     * @param replace whether a dossier that is there may be replaced
     * @throws ProblemException if it must stay
     */
    public static void check(String target, Standing standing, boolean replace)
            throws ProblemException {
        if (standing == Standing.FILE) {
            throw new ProblemException(
                    problem(
                            target,
                            "a file",
                            "a new name for the dossier's folder",
                            "name another folder with --out"));
        }
        if (standing == Standing.OTHER) {
            throw new ProblemException(
                    problem(
                            target,
                            "a folder with other files",
                            "an empty or new folder",
                            "name another folder with --out; nothing in it was touched"));
        }
        if (standing == Standing.DOSSIER && !replace) {
            throw new ProblemException(
                    problem(
                            target,
                            "a dossier of an earlier evaluation",
                            "an empty or new folder",
                            "name another folder with --out, or give --replace to replace that dossier"));
        }
    }

    /**
     * Writes.
     *
     * @param evaluation what is written
     * @param inputs where its input files are read from
     * @param target the dossier's folder; see {@link #check}
     * @throws IOException if the disk or the folder does not take it; then nothing is left behind
     */
    public void write(Evaluation evaluation, Vault inputs, Path target) throws IOException {
        final Path absolute = target.toAbsolutePath().normalize();
        final Path parent = absolute.getParent();
        if (parent == null) {
            throw new IOException("a dossier cannot be the root of a file system");
        }
        final Path existing = firstExisting(parent);
        Files.createDirectories(parent);
        try (Aside aside = Aside.folder(parent, existing)) {
            fill(evaluation, inputs, FolderVault.of(aside.path()));
            moveInto(aside.path(), absolute);
        }
    }

    /**
     * Writes all files into a vault, the manifest last: without it there is no dossier.
     *
     * @param evaluation what is written
     * @param inputs where its input files are read from
     * @param empty a vault with nothing in it
     * @return the study digest
     * @throws IOException if the vault does not take it, or an input changed meanwhile
     */
    public String fill(Evaluation evaluation, Vault inputs, Vault empty) throws IOException {
        final NotingVault out = new NotingVault(empty);
        ReportWriter.tables(evaluation, out, version.program());
        final String digest = Manifest.studyDigest(evaluation, out.written());
        final PaperStamp stamp = new PaperStamp(version.program(), version.revision(), digest);
        ReportWriter.pages(evaluation, out, stamp);
        for (InputFile input : evaluation.study().inputs()) {
            final byte[] bytes = inputs.read(input.name());
            if (!Digests.sha256(bytes).equals(input.digest())) {
                throw new IOException(
                        "'" + input.name() + "' changed while it was evaluated; run again");
            }
            empty.write(INPUTS + input.name(), bytes);
        }
        if (png) {
            ReportWriter.writePngs(evaluation, out);
        }
        if (pdf) {
            ReportWriter.writePdf(evaluation, out, stamp);
        }
        empty.write(MANIFEST, Manifest.of(evaluation, version, out.written()));
        return digest;
    }

    /** Puts a folder that was made aside into its place, instead of what may be there. */
    static void moveInto(Path aside, Path target) throws IOException {
        if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            move(aside, target);
            return;
        }
        final Path old = target.resolveSibling(aside.getFileName() + "-old");
        move(target, old);
        try {
            move(aside, target);
        } catch (IOException e) {
            move(old, target);
            throw e;
        }
        Aside.delete(old);
    }

    /** Moves at once where the file system can. */
    static void move(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to);
        }
    }

    static boolean isEmpty(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.findAny().isEmpty();
        }
    }

    /** The folder itself, or the nearest above it that is there. */
    static Path firstExisting(Path folder) {
        Path p = folder;
        while (!Files.exists(p) && p.getParent() != null) {
            p = p.getParent();
        }
        return p;
    }

    private static Problem problem(String target, String found, String expected, String hint) {
        return new Problem(target, 0, "--out", found, expected, hint);
    }
}
