package splitledger.dossier;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import splitledger.base.Digests;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;

/** Opens a dossier that an evaluation left, if it is still what it was. */
public final class DossierReader {
    private static final String INPUTS = "inputs";

    private DossierReader() {}

    /** Whether a folder holds a dossier. */
    public static boolean isDossier(Path folder) {
        return Files.isRegularFile(folder.resolve(DossierWriter.MANIFEST));
    }

    /**
     * The protocol in a dossier, after its digests were compared: every input and every file of
     * results must be there and unchanged.
     *
     * @param folder the dossier
     * @return the protocol's copy; its tables lie beside it as they did
     * @throws ProblemException if something is missing or was changed, naming each file, or if the
     *     dossier holds no protocol or several (that of a comparison)
     */
    public static Path protocol(Path folder) throws ProblemException, IOException {
        final Vault vault = FolderVault.of(folder);
        final String where = folder.resolve(DossierWriter.MANIFEST).toString();
        final Tree.Mapping manifest = YamlReader.read(where, vault.read(DossierWriter.MANIFEST));
        final List<Problem> problems = new ArrayList<>();
        final List<String> protocols = new ArrayList<>();
        for (Tree.Mapping input : items(manifest, INPUTS)) {
            final String name = INPUTS + "/" + input.text("name").orElse("");
            compare(folder, vault, name, input, problems);
            if (input.text("role").orElse("").equals("protocol")) {
                protocols.add(name);
            }
        }
        for (Tree.Mapping output : items(manifest, "outputs")) {
            compare(folder, vault, output.text("name").orElse(""), output, problems);
        }
        for (Tree.Mapping picture : items(manifest.mapping("environment"), "files")) {
            compare(folder, vault, picture.text("name").orElse(""), picture, problems);
        }
        if (protocols.size() != 1) {
            problems.add(
                    new Problem(
                            where,
                            0,
                            INPUTS,
                            protocols.size() + " protocols",
                            "the dossier of one evaluation, with one protocol",
                            "name a folder that 'splitledger evaluate' has written"));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return folder.resolve(protocols.get(0));
    }

    private static void compare(
            Path folder, Vault vault, String name, Tree.Mapping entry, List<Problem> problems) {
        final String told = entry.text("sha256").orElse("");
        String found;
        try {
            found = "SHA-256 " + Digests.sha256(vault.read(name));
        } catch (IOException e) {
            found = "no such file in the dossier";
        }
        if (!found.equals("SHA-256 " + told)) {
            problems.add(
                    new Problem(
                            folder.resolve(name).toString(),
                            0,
                            "sha256",
                            found,
                            "SHA-256 " + told + ", as the manifest says",
                            "the dossier is not what the evaluation left: bring the file back, or evaluate"
                                    + " the study again and name the new dossier"));
        }
    }

    private static List<Tree.Mapping> items(Tree.Mapping of, String key) {
        final List<Tree.Mapping> items = new ArrayList<>();
        if (of.get(key).orElse(Tree.Mapping.EMPTY) instanceof Tree.Sequence list) {
            for (Tree item : list.items()) {
                if (item instanceof Tree.Mapping mapping) {
                    items.add(mapping);
                }
            }
        }
        return items;
    }
}
