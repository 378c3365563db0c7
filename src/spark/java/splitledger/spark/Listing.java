package splitledger.spark;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import splitledger.base.CodePoints;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.dossier.DossierWriter;

/**
 * The protocols that arguments name on any file system: files as they are; folders, which stand for
 * every {@code protocol.yaml} below them; and patterns. Copies inside of dossiers are never meant.
 */
final class Listing {
    private static final Set<String> NAMES = Set.of("protocol.yaml", "protocol.yml");

    private final Configuration conf;

    Listing(Configuration conf) {
        this.conf = conf;
    }

    /**
     * The work on all of them, in the order of the arguments, those of one argument in order of
     * name.
     *
     * @param out folder of the dossiers
     * @throws ProblemException if an argument names no protocol, or two dossiers would have the
     *     same name
     */
    List<StudyWork> work(List<String> arguments, Path out) throws ProblemException, IOException {
        final List<Path> protocols = new ArrayList<>();
        for (String argument : arguments) {
            protocols.addAll(named(argument));
        }
        final Set<String> there = there(out);
        final Map<String, Path> taken = new TreeMap<>(CodePoints.ORDER);
        final List<Problem> problems = new ArrayList<>();
        final List<StudyWork> work = new ArrayList<>();
        for (Path protocol : protocols) {
            final String name = protocol.getParent().getName();
            final Path other = taken.putIfAbsent(name.toLowerCase(Locale.ROOT), protocol);
            if (other != null) {
                problems.add(
                        new Problem(
                                protocol.toString(),
                                0,
                                "PROTOCOL",
                                "a second protocol in a folder named "
                                        + name
                                        + "; the first is "
                                        + other,
                                "folders of different names",
                                "evaluate them in two runs, each with its own --out"));
            }
            work.add(
                    new StudyWork(
                            name,
                            name + "/" + protocol.getName(),
                            protocol.toString(),
                            there.contains(name)));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return work;
    }

    private Set<String> there(Path out) throws IOException {
        final Set<String> names = new TreeSet<>(CodePoints.ORDER);
        final FileSystem files = out.getFileSystem(conf);
        if (files.exists(out)) {
            for (FileStatus status : files.listStatus(out)) {
                names.add(status.getPath().getName());
            }
        }
        return names;
    }

    private List<Path> named(String argument) throws ProblemException, IOException {
        final Path path = path(argument);
        final FileSystem files = path.getFileSystem(conf);
        if (files.exists(path) && files.getFileStatus(path).isFile()) {
            return List.of(files.makeQualified(path));
        }
        final boolean pattern = !files.exists(path);
        final List<Path> found = new ArrayList<>();
        final FileStatus[] fit = files.globStatus(path);
        if (fit != null) {
            for (FileStatus status : fit) {
                final String name = status.getPath().getName();
                if (status.isDirectory()) {
                    below(files, status.getPath(), found);
                } else if (pattern && (name.endsWith(".yaml") || name.endsWith(".yml"))) {
                    found.add(status.getPath());
                }
            }
        }
        if (found.isEmpty()) {
            throw new ProblemException(
                    new Problem(
                            argument,
                            0,
                            "PROTOCOL",
                            "no protocol there",
                            "a protocol, a folder with protocol.yaml in it or below it, or a"
                                    + " pattern that fits the name of a protocol",
                            "check the name; * stands for any part of a name"));
        }
        found.sort(Comparator.comparing(Path::toString, CodePoints.ORDER));
        return found;
    }

    private static void below(FileSystem files, Path folder, List<Path> into) throws IOException {
        if (files.exists(new Path(folder, DossierWriter.MANIFEST))) {
            return;
        }
        for (FileStatus status : files.listStatus(folder)) {
            final String name = status.getPath().getName();
            if (status.isDirectory() && !name.startsWith(".")) {
                below(files, status.getPath(), into);
            } else if (status.isFile() && NAMES.contains(name)) {
                into.add(status.getPath());
            }
        }
    }

    /** An address as Hadoop understands it. */
    static Path path(String address) throws ProblemException {
        try {
            return new Path(address);
        } catch (IllegalArgumentException e) {
            throw new ProblemException(
                    new Problem(
                            address,
                            0,
                            "",
                            "no address of a file",
                            "a name such as hdfs:///studies/2026 or studies/2026",
                            "check the name"));
        }
    }
}
