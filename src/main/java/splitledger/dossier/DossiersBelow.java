package splitledger.dossier;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.base.Problem;
import splitledger.base.ProblemException;

/** Dossiers and archives of dossiers that lie anywhere below a folder, by their names in there. */
public final class DossiersBelow {
    private final Path root;

    /**
     * Of a folder.
     *
     * @param root may itself be a dossier
     */
    public DossiersBelow(Path root) {
        this.root = root;
    }

    /** The folder, for messages. */
    public String folder() {
        return root.toString();
    }

    /**
     * Names of dossiers and then of archives, each in their order; links to folders are not
     * followed, and what lies in a dossier is its own.
     */
    public List<String> names() throws IOException {
        final List<String> found = new ArrayList<>();
        final List<String> archives = new ArrayList<>();
        collect(root, found, archives);
        found.addAll(archives); // a dossier packed beside its folder is met as a copy
        return found;
    }

    /**
     * What a dossier says, see {@link DossierContents#read}.
     *
     * @throws ProblemException if it is no whole dossier of one study
     */
    public DossierContents contents(String name) throws ProblemException {
        final Path place = root.resolve(name);
        try (OpenDossier dossier = OpenDossier.of(place)) {
            return DossierContents.read(name, dossier.files());
        } catch (ProblemException e) {
            throw new ProblemException(
                    e.problems().stream().map(p -> renamed(p, place.toString(), name)).toList());
        } catch (IOException e) {
            throw new ProblemException(
                    new Problem(name, 0, "", "a file that cannot be read", "a whole dossier", ""));
        }
    }

    private static Problem renamed(Problem p, String place, String name) {
        return p.file().equals(place)
                ? new Problem(name, p.row(), p.column(), p.found(), p.expected(), p.hint())
                : p;
    }

    private void collect(Path folder, List<String> dossiers, List<String> archives)
            throws IOException {
        if (DossierReader.isDossier(folder)) {
            dossiers.add(name(folder));
            return;
        }
        final List<Path> inside;
        try (Stream<Path> entries = Files.list(folder)) {
            inside = entries.sorted((a, b) -> CodePoints.ORDER.compare(name(a), name(b))).toList();
        }
        for (Path p : inside) {
            if (Files.isDirectory(p) && !Files.isSymbolicLink(p)) {
                collect(p, dossiers, archives);
            } else if (name(p).toLowerCase(Locale.ROOT).endsWith(DossierPack.ENDING)) {
                archives.add(name(p));
            }
        }
    }

    private String name(Path place) {
        final String name = root.relativize(place).toString().replace('\\', '/');
        return name.isEmpty() ? "." : name;
    }
}
