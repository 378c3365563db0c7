package splitledger.dossier;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import splitledger.base.CsvRows;
import splitledger.base.Digests;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.study.Evaluation;
import splitledger.study.InputFile;

/** A folder of dossiers by name, as a run over many studies leaves it. */
public final class Shelf implements Dossiers {
    private final Path root;
    private final ProgramVersion version;
    private final boolean replace;
    private final boolean pack;
    private final boolean png;

    /**
     * A shelf.
     *
     * @param root the folder; made when the first dossier is written
     * @param version this program
     * @param replace whether dossiers and archives that are there may be replaced
     * @param pack whether every dossier is packed into an archive as well
     */
    public Shelf(Path root, ProgramVersion version, boolean replace, boolean pack) {
        this(root, version, replace, pack, false);
    }

    private Shelf(Path root, ProgramVersion version, boolean replace, boolean pack, boolean png) {
        this.root = root;
        this.version = version;
        this.replace = replace;
        this.pack = pack;
        this.png = png;
    }

    /**
     * A shelf whose dossiers hold their charts in points too.
     *
     * @param wanted whether {@code figures/*.png} are written; a dossier without them is not kept
     */
    public Shelf withPng(boolean wanted) {
        return new Shelf(root, version, replace, pack, wanted);
    }

    @Override
    public void check(String name) throws ProblemException, IOException {
        DossierWriter.check(root.resolve(name), replace);
        if (pack) {
            DossierPack.check(root.resolve(name), replace);
        }
    }

    /**
     * {@inheritDoc}
     *
     * <p>Its archive too, if asked for.
     */
    @Override
    public String write(Evaluation evaluation, Vault inputs, String name)
            throws IOException, ProblemException {
        final Path folder = root.resolve(name);
        new DossierWriter(version).withPng(png).write(evaluation, inputs, folder);
        if (pack) {
            DossierPack.write(folder);
        }
        return stated(folder).studyDigest();
    }

    /**
     * {@inheritDoc}
     *
     * <p>Nothing has changed if it was written by this program, from this protocol, from files that
     * have the same digests now.
     */
    @Override
    public Optional<Kept> kept(Vault inputs, String protocol, String name) throws IOException {
        final Path folder = root.resolve(name);
        if (!DossierReader.isDossier(folder)) {
            return Optional.empty();
        }
        if (png && !isPainted(folder)) {
            return Optional.empty();
        }
        final Optional<Kept> kept = kept(version, FolderVault.of(folder), inputs, protocol);
        if (kept.isPresent() && pack && !Files.isRegularFile(DossierPack.of(folder))) {
            DossierPack.write(folder);
        }
        return kept;
    }

    /**
     * What is known of a dossier, if it is whole and was written by this version of the program
     * from what can be read now.
     *
     * @param dossier its files
     * @param inputs where the study's files are read from
     * @param protocol its protocol in there
     */
    public static Optional<Kept> kept(
            ProgramVersion version, Vault dossier, Vault inputs, String protocol)
            throws IOException {
        final Stated stated;
        try {
            stated = Stated.read(DossierWriter.MANIFEST, dossier);
        } catch (ProblemException notReadable) {
            return Optional.empty();
        }
        final boolean same =
                stated.version().equals(version)
                        && stated.protocols().equals(List.of(protocol))
                        && stated.inputs().stream().allMatch(i -> unchanged(inputs, i))
                        && stated.changedInputs("", dossier).isEmpty()
                        && stated.changedOutputs("", dossier).isEmpty();
        if (!same) {
            return Optional.empty();
        }
        return Optional.of(
                new Kept(
                        stated.studyDigest(),
                        rows(dossier, "results.csv"),
                        rows(dossier, "budget.csv")));
    }

    /**
     * What is known of a dossier that was kept.
     *
     * @param studyDigest of its manifest
     * @param results rows of results.csv, the header first
     * @param budgets rows of budget.csv, the header first
     */
    public record Kept(String studyDigest, List<List<String>> results, List<List<String>> budgets) {
        public Kept {
            results = List.copyOf(results);
            budgets = List.copyOf(budgets);
        }
    }

    /** Whether every chart is there in points. */
    private boolean isPainted(Path folder) throws IOException {
        final Set<String> names;
        try {
            names = stated(folder).pictures().keySet();
        } catch (ProblemException notReadable) {
            return false;
        }
        return names.stream()
                .filter(name -> name.endsWith(".svg"))
                .map(name -> name.substring(0, name.length() - ".svg".length()) + ".png")
                .allMatch(names::contains);
    }

    private Stated stated(Path folder) throws ProblemException, IOException {
        return Stated.read(
                folder.resolve(DossierWriter.MANIFEST).toString(), FolderVault.of(folder));
    }

    private static boolean unchanged(Vault inputs, InputFile input) {
        try {
            return Digests.sha256(inputs.read(input.name())).equals(input.digest());
        } catch (IOException gone) {
            return false;
        }
    }

    private static List<List<String>> rows(Vault dossier, String name) throws IOException {
        return CsvRows.of(new String(dossier.read(name), StandardCharsets.UTF_8));
    }

    /**
     * Writes a table of the whole run into the folder, all of it or nothing.
     *
     * @throws IOException if the disk or the folder does not take it
     */
    public void table(String name, byte[] bytes) throws IOException {
        Files.createDirectories(root);
        try (Aside aside = Aside.file(root)) {
            Files.write(aside.path(), bytes);
            Files.move(aside.path(), root.resolve(name), StandardCopyOption.REPLACE_EXISTING);
        }
    }
}
