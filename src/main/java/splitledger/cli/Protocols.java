package splitledger.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.PatternSyntaxException;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.dossier.DossierReader;

/**
 * The protocols that the arguments of {@code evaluate} name: files as they are; folders, which
 * stand for every {@code protocol.yaml} below them; and patterns, which shells of some systems
 * leave to the program. Copies inside of dossiers are never meant.
 *
 * @param files in the order of the arguments, those of one folder or pattern in order of name
 * @param several whether each dossier gets a folder of its own
 */
record Protocols(List<Path> files, boolean several) {
    private static final Set<String> NAMES = Set.of("protocol.yaml", "protocol.yml");
    private static final String SPECIAL = ".*[*?\\[{].*";

    Protocols {
        files = List.copyOf(files);
    }

    /**
     * Finds them.
     *
     * @throws ProblemException if a folder or pattern names no protocol
     */
    static Protocols named(List<String> arguments) throws ProblemException, IOException {
        final List<Path> files = new ArrayList<>();
        boolean several = arguments.size() > 1;
        for (String argument : arguments) {
            final boolean pattern = argument.matches(SPECIAL) && !exists(argument);
            if (pattern) {
                several = true;
                files.addAll(some(argument, matching(argument)));
            } else if (Files.isDirectory(path(argument))) {
                several = true;
                files.addAll(some(argument, below(path(argument))));
            } else {
                files.add(path(argument));
            }
        }
        return new Protocols(files, several);
    }

    /**
     * A name for the dossier of every protocol: that of its folder.
     *
     * @throws ProblemException if two would have the same, also on a system that takes capital and
     *     small letters for the same
     */
    List<String> dossiers() throws ProblemException {
        final List<String> names = new ArrayList<>();
        final Map<String, Path> taken = new TreeMap<>(CodePoints.ORDER);
        final List<Problem> problems = new ArrayList<>();
        for (Path file : files) {
            final Path folder = file.toAbsolutePath().normalize().getParent();
            final Path last = folder == null ? null : folder.getFileName();
            final String name = last == null ? "protocol" : last.toString();
            names.add(name);
            final Path other = taken.putIfAbsent(name.toLowerCase(Locale.ROOT), file);
            if (other != null) {
                problems.add(
                        new Problem(
                                file.toString(),
                                0,
                                "PROTOCOL",
                                "a second protocol in a folder named "
                                        + name
                                        + "; the first is "
                                        + other,
                                "folders of different names",
                                "evaluate them one by one, each with its own --out"));
            }
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return names;
    }

    private static List<Path> some(String argument, List<Path> found) throws ProblemException {
        if (found.isEmpty()) {
            throw new ProblemException(
                    new Problem(
                            argument,
                            0,
                            "PROTOCOL",
                            "no protocol there",
                            "a folder with protocol.yaml in it or below it, or a pattern that fits"
                                    + " the name of a protocol",
                            "check the name; * stands for any part of a name, ** for any folders"));
        }
        return found;
    }

    private static boolean exists(String argument) {
        try {
            return Files.exists(Path.of(argument));
        } catch (InvalidPathException e) {
            return false;
        }
    }

    private static Path path(String argument) throws ProblemException {
        try {
            return Path.of(argument);
        } catch (InvalidPathException e) {
            throw new ProblemException(
                    new Problem(
                            argument,
                            0,
                            "PROTOCOL",
                            "no name of a file here",
                            "a protocol file",
                            "check the name"));
        }
    }

    /** Every protocol in a folder or below it. */
    private static List<Path> below(Path folder) throws IOException {
        return found(
                folder,
                Integer.MAX_VALUE,
                relative -> NAMES.contains(String.valueOf(relative.getFileName())));
    }

    private static List<Path> matching(String argument) throws ProblemException, IOException {
        final String pattern = File.separatorChar == '\\' ? argument.replace('\\', '/') : argument;
        final String plain = pattern.replaceFirst("[*?\\[{].*", "");
        final int cut = plain.lastIndexOf('/') + 1;
        final Path base = path(cut == 0 ? "" : plain.substring(0, cut));
        final String rest = pattern.substring(cut);
        if (!Files.isDirectory(base)) {
            return List.of();
        }
        final PathMatcher matcher;
        try {
            matcher = FileSystems.getDefault().getPathMatcher("glob:" + rest);
        } catch (PatternSyntaxException e) {
            return List.of();
        }
        final boolean deep = rest.contains("**");
        final int depth = deep ? Integer.MAX_VALUE : rest.split("/", -1).length;
        final List<Path> files =
                new ArrayList<>(found(base, depth, p -> matcher.matches(p) && isYaml(p)));
        if (!deep) {
            for (Path folder : folders(base, depth, matcher)) {
                files.addAll(below(folder));
            }
        }
        return files;
    }

    private static boolean isYaml(Path file) {
        final String name = String.valueOf(file.getFileName());
        return name.endsWith(".yaml") || name.endsWith(".yml");
    }

    private static List<Path> folders(Path base, int depth, PathMatcher matcher)
            throws IOException {
        try (Stream<Path> all = Files.walk(base, depth)) {
            return all.filter(Files::isDirectory)
                    .filter(p -> !p.equals(base) && matcher.matches(base.relativize(p)))
                    .filter(p -> !DossierReader.isDossier(p))
                    .sorted(byName())
                    .toList();
        }
    }

    private static List<Path> found(Path base, int depth, Predicate<Path> wanted)
            throws IOException {
        final List<Path> files = new ArrayList<>();
        Files.walkFileTree(
                base,
                Set.of(),
                depth,
                new SimpleFileVisitor<>() {
                    @Override
                    public FileVisitResult preVisitDirectory(Path dir, BasicFileAttributes a) {
                        final boolean other =
                                DossierReader.isDossier(dir)
                                        || (!dir.equals(base)
                                                && String.valueOf(dir.getFileName())
                                                        .startsWith("."));
                        return other ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
                    }

                    @Override
                    public FileVisitResult visitFile(Path file, BasicFileAttributes a) {
                        if (!a.isDirectory() && wanted.test(base.relativize(file))) {
                            files.add(file);
                        }
                        return FileVisitResult.CONTINUE;
                    }
                });
        files.sort(byName());
        return files;
    }

    private static Comparator<Path> byName() {
        return Comparator.comparing(ProtocolFile::slashed, CodePoints.ORDER);
    }
}
