package splitledger.dossier;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.StableZip;

/**
 * A dossier as one zip archive beside its folder: the files in order of their names, none with a
 * time, so that the same dossier gives the same archive.
 */
public final class DossierPack {
    static final String ENDING = ".zip";

    private DossierPack() {}

    /** The archive's name beside a dossier's folder. */
    public static Path of(Path folder) {
        final Path absolute = folder.toAbsolutePath().normalize();
        final Path name = absolute.getFileName();
        return folder.resolveSibling((name == null ? "dossier" : name) + ENDING);
    }

    /**
     * Says whether the archive may be written, before any work is done.
     *
     * @throws ProblemException if something is there that must stay
     */
    public static void check(Path folder, boolean replace) throws ProblemException {
        final Path archive = of(folder);
        if (Files.isDirectory(archive)
                || (!replace && Files.exists(archive, LinkOption.NOFOLLOW_LINKS))) {
            throw new ProblemException(
                    new Problem(
                            archive.toString(),
                            0,
                            "--pack",
                            Files.isDirectory(archive) ? "a folder" : "an archive that is there",
                            "a name that is free",
                            "name another folder with --out, or give --replace to replace that"
                                    + " archive"));
        }
    }

    /**
     * Packs a dossier that is there.
     *
     * @return the archive
     * @throws IOException if the disk or the folder does not take it; then nothing is left behind
     */
    public static Path write(Path folder) throws IOException {
        final Path archive = of(folder);
        final Path name = folder.toAbsolutePath().normalize().getFileName();
        final String prefix = name == null ? "" : name + "/";
        final Path parent = archive.toAbsolutePath().getParent();
        if (parent == null) {
            throw new IOException("an archive needs a folder to stand in");
        }
        try (Aside aside = Aside.file(parent)) {
            try (StableZip zip =
                    new StableZip(new BufferedOutputStream(Files.newOutputStream(aside.path())))) {
                for (String file : names(folder)) {
                    try (InputStream in = Files.newInputStream(folder.resolve(file))) {
                        zip.add(prefix + file, in);
                    }
                }
            }
            Files.move(aside.path(), archive, StandardCopyOption.REPLACE_EXISTING);
        }
        return archive;
    }

    private static List<String> names(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile)
                    .map(p -> folder.relativize(p).toString().replace('\\', '/'))
                    .sorted(CodePoints.ORDER)
                    .toList();
        }
    }
}
