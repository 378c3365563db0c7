package splitledger.dossier;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.CodePoints;
import splitledger.base.Digests;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.YamlReader;
import splitledger.study.InputFile;
import splitledger.study.Tree;

/**
 * What a manifest states.
 *
 * @param version program that wrote the dossier
 * @param studyDigest over inputs and results
 * @param inputs every file that was read
 * @param results digests of the CSV and JSON files by name
 * @param pictures digests of what may differ between machines, by name
 */
record Stated(
        ProgramVersion version,
        String studyDigest,
        List<InputFile> inputs,
        SortedMap<String, String> results,
        SortedMap<String, String> pictures) {
    private static final String HINT =
            "the dossier is not what the evaluation left: bring the file back, or evaluate the study"
                    + " again and name the new dossier";

    Stated {
        inputs = List.copyOf(inputs);
        results = sorted(results);
        pictures = sorted(pictures);
    }

    private static SortedMap<String, String> sorted(SortedMap<String, String> digests) {
        return Collections.unmodifiableSortedMap(new TreeMap<>(digests));
    }

    /**
     * Reads the manifest of a dossier.
     *
     * @param where the manifest's name for messages
     * @param vault the dossier
     * @throws ProblemException if it cannot be understood
     */
    static Stated read(String where, Vault vault) throws ProblemException, IOException {
        final Tree.Mapping manifest = YamlReader.read(where, vault.read(DossierWriter.MANIFEST));
        final List<InputFile> inputs = new ArrayList<>();
        for (Tree.Mapping input : items(manifest, "inputs")) {
            inputs.add(
                    new InputFile(
                            text(input, "role"),
                            text(input, "name"),
                            text(input, "written"),
                            text(input, "sha256")));
        }
        return new Stated(
                new ProgramVersion(text(manifest, "version"), text(manifest, "sourceRevision")),
                text(manifest, "studyDigest"),
                inputs,
                digests(manifest, "outputs"),
                digests(manifest.mapping("environment"), "files"));
    }

    /** Names of the protocols among the inputs. */
    List<String> protocols() {
        return inputs.stream()
                .filter(i -> i.role().equals("protocol"))
                .map(InputFile::name)
                .toList();
    }

    /** How many files the manifest names. */
    int files() {
        return inputs.size() + results.size() + pictures.size();
    }

    /** Inputs that are no longer in the dossier as they were. */
    List<Problem> changedInputs(String folder, Vault vault) {
        final List<Problem> changed = new ArrayList<>();
        for (InputFile input : inputs) {
            compare(folder, vault, DossierWriter.INPUTS + input.name(), input.digest(), changed);
        }
        return changed;
    }

    /**
     * Whether one file of results is no longer as it was, and whether the study digest is wrong.
     */
    List<Problem> changed(String folder, Vault vault, String name) {
        final List<Problem> changed = new ArrayList<>();
        compare(folder, vault, name, results.getOrDefault(name, "none"), changed);
        compareStudy(folder, changed);
        return changed;
    }

    /** Files of results and pictures that are no longer as they were; the study digest too. */
    List<Problem> changedOutputs(String folder, Vault vault) {
        final List<Problem> changed = new ArrayList<>();
        results.forEach((name, digest) -> compare(folder, vault, name, digest, changed));
        pictures.forEach((name, digest) -> compare(folder, vault, name, digest, changed));
        compareStudy(folder, changed);
        return changed;
    }

    private void compareStudy(String folder, List<Problem> changed) {
        final String digest = Manifest.studyDigest(inputs, results);
        if (!digest.equals(studyDigest)) {
            changed.add(
                    problem(
                            folder + "/" + DossierWriter.MANIFEST,
                            "studyDigest",
                            studyDigest,
                            digest + ", the digest of the inputs and results it names"));
        }
    }

    private static void compare(
            String folder, Vault vault, String name, String told, List<Problem> changed) {
        String found;
        try {
            found = "SHA-256 " + Digests.sha256(vault.read(name));
        } catch (IOException e) {
            found = "no such file in the dossier";
        }
        if (!found.equals("SHA-256 " + told)) {
            changed.add(
                    problem(
                            folder + "/" + name,
                            "sha256",
                            found,
                            "SHA-256 " + told + ", as the manifest says"));
        }
    }

    private static Problem problem(String file, String column, String found, String expected) {
        return new Problem(file, 0, column, found, expected, HINT);
    }

    private static SortedMap<String, String> digests(Tree.Mapping of, String key) {
        final SortedMap<String, String> digests = new TreeMap<>(CodePoints.ORDER);
        items(of, key).forEach(item -> digests.put(text(item, "name"), text(item, "sha256")));
        return digests;
    }

    private static String text(Tree.Mapping of, String key) {
        return of.text(key).orElse("");
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
