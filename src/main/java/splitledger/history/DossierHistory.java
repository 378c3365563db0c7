package splitledger.history;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.base.FolderVault;
import splitledger.base.MemoryVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.base.ZipParts;
import splitledger.dossier.DossierContents;
import splitledger.dossier.DossierReader;
import splitledger.study.Protocol;
import splitledger.study.Study;

/** The past of instruments out of all dossiers below a folder, archives of dossiers too. */
public final class DossierHistory implements HistorySource {
    private static final String MANIFEST = "manifest.json";
    private static final String ARCHIVE = ".zip";

    private final Path root;
    private final List<History.Dated> studies = new ArrayList<>();
    private final List<DatedValue> values = new ArrayList<>();
    private final Set<History.Work> works = new LinkedHashSet<>();
    private final List<History.LeftOut> leftOut = new ArrayList<>();
    private final Map<String, String> seen = new LinkedHashMap<>();

    /**
     * Of a folder.
     *
     * @param root the dossiers lie anywhere below it
     */
    public DossierHistory(Path root) {
        this.root = root;
    }

    @Override
    public History read() throws ProblemException, IOException {
        for (Path place : places()) {
            final String name = name(place);
            try {
                take(name, contents(name, place));
            } catch (ProblemException e) {
                leave(name, e.problems().get(0), e.problems().size());
            }
        }
        if (studies.isEmpty()) {
            throw new ProblemException(nothing());
        }
        return new History(studies, values, List.copyOf(works), leftOut);
    }

    private List<Problem> nothing() {
        final List<Problem> problems = new ArrayList<>();
        problems.add(
                new Problem(
                        root.toString(),
                        0,
                        "",
                        leftOut.isEmpty() ? "no dossier" : "no dossier that can be used",
                        "dossiers of studies with instrument id and time",
                        "name the folder below which 'splitledger evaluate --out' has written"));
        leftOut.forEach(
                l -> problems.add(new Problem(l.what(), 0, "", l.why(), "a dossier to use", "")));
        return problems;
    }

    /** Dossiers and archives, in the order of their names; what lies in a dossier is its own. */
    private List<Path> places() throws IOException {
        final List<Path> found = new ArrayList<>();
        final List<Path> archives = new ArrayList<>();
        collect(root, found, archives);
        found.addAll(archives); // a dossier packed beside its folder is met as a copy
        return found;
    }

    private void collect(Path folder, List<Path> dossiers, List<Path> archives) throws IOException {
        if (DossierReader.isDossier(folder)) {
            dossiers.add(folder);
            return;
        }
        final List<Path> inside;
        try (Stream<Path> entries = Files.list(folder)) {
            inside =
                    entries.sorted(
                                    (a, b) ->
                                            CodePoints.ORDER.compare(
                                                    String.valueOf(a.getFileName()),
                                                    String.valueOf(b.getFileName())))
                            .toList();
        }
        for (Path p : inside) {
            if (Files.isDirectory(p) && !Files.isSymbolicLink(p)) {
                collect(p, dossiers, archives);
            } else if (name(p).toLowerCase(Locale.ROOT).endsWith(ARCHIVE)) {
                archives.add(p);
            }
        }
    }

    private String name(Path place) {
        final String name = root.relativize(place).toString().replace('\\', '/');
        return name.isEmpty() ? "." : name;
    }

    private static DossierContents contents(String name, Path place)
            throws ProblemException, IOException {
        final Vault vault =
                Files.isDirectory(place) ? FolderVault.of(place) : unpacked(name, place);
        try {
            return DossierContents.read(name, vault);
        } catch (IOException e) {
            throw new ProblemException(
                    new Problem(name, 0, "", "a file that cannot be read", "a whole dossier", ""));
        }
    }

    private static Vault unpacked(String name, Path archive) throws ProblemException {
        final SortedMap<String, byte[]> parts;
        try {
            parts = ZipParts.of(Files.readAllBytes(archive));
        } catch (IOException e) {
            throw notPacked(name, "an archive that cannot be opened");
        }
        final Optional<String> manifest =
                parts.keySet().stream()
                        .filter(n -> n.equals(MANIFEST) || n.matches("[^/]+/" + MANIFEST))
                        .findFirst();
        if (manifest.isEmpty()) {
            throw notPacked(name, "an archive without " + MANIFEST);
        }
        final int cut = manifest.get().length() - MANIFEST.length();
        final String folder = manifest.get().substring(0, cut);
        final SortedMap<String, byte[]> files = new TreeMap<>(CodePoints.ORDER);
        parts.forEach(
                (n, bytes) -> {
                    if (n.startsWith(folder)) {
                        files.put(n.substring(cut), bytes);
                    }
                });
        return new MemoryVault(files);
    }

    private static ProblemException notPacked(String name, String found) {
        return new ProblemException(new Problem(name, 0, "", found, "a packed dossier", ""));
    }

    private void leave(String name, Problem first, int problems) {
        final boolean comparison = first.found().matches("\\d+ protocols");
        final String where =
                first.file().equals(name) || first.file().startsWith(name + "/" + MANIFEST)
                        ? ""
                        : first.file().replace(name + "/", "") + ": ";
        leftOut.add(
                new History.LeftOut(
                        name,
                        comparison
                                ? "holds " + first.found() + ", not one study"
                                : where
                                        + "found "
                                        + first.found()
                                        + ", expected "
                                        + first.expected()
                                        + (problems > 1 ? ", and " + (problems - 1) + " more" : ""),
                        !comparison));
    }

    private void take(String name, DossierContents contents) {
        final Study study = contents.study();
        final String id = study.protocol().instrument().getOrDefault("id", "").strip();
        final String twin = seen.getOrDefault(contents.studyDigest(), "");
        final Optional<StudyTime> time = StudyTime.of(study);
        if (!twin.isEmpty()) {
            leftOut.add(new History.LeftOut(name, "the same study as " + twin, false));
        } else if (id.isEmpty()) {
            leftOut.add(new History.LeftOut(name, "its protocol states no instrument id", false));
        } else if (time.isEmpty()) {
            leftOut.add(
                    new History.LeftOut(
                            name,
                            "it tells no time: no column 'acquired', no date in the protocol",
                            false));
        } else {
            seen.put(contents.studyDigest(), name);
            add(name, id, time.get(), contents);
        }
    }

    private void add(String name, String id, StudyTime time, DossierContents contents) {
        studies.add(new History.Dated(name, id, time.text(), time.from()));
        values.addAll(ResultRows.of(contents.results(), id, time.text(), name));
        StandardAreas.of(contents.study())
                .ifPresent(
                        a ->
                                values.addAll(
                                        ResultRows.areas(
                                                a, contents.study(), id, time.text(), name)));
        for (Protocol.Event event : contents.study().protocol().events()) {
            if (StudyTime.days(event.date()).isPresent()) {
                works.add(new History.Work(id, event.date(), event.what()));
            } else {
                leftOut.add(
                        new History.LeftOut(
                                name,
                                "work on the "
                                        + event.what()
                                        + ": its date '"
                                        + event.date()
                                        + "' is no ISO 8601 date",
                                false));
            }
        }
    }
}
