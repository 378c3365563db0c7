import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/**
 * Writes the list of the libraries in a release with their licences, and gathers the texts: those
 * that a library brings, and the common ones. Fails if a library is not in the bill of materials,
 * has no licence there, or if the text of its licence is nowhere. Run by the build from its source.
 *
 * <p>Arguments: folder of libraries, bill of materials (JSON), folder of common texts, folder to
 * write into.
 */
public final class ThirdParties {
    private static final String LEAD =
            """
            Libraries that splitledger brings in lib/, with the licences their authors name.
            "Text" is a folder or file in licences/ beside this list. Where several licences are
            named, the authors leave the choice.

            """;

    /** Said where a library is under a licence that reaches the whole; its name goes in. */
    private static final String WHOLE =
            """
            Since %s is under the GNU General Public License, version 3
            (GPL-3.0), this archive as a whole is passed on under the terms of GPL-3.0, while the
            program's own sources stay under Apache-2.0.

            """;

    private static final String STRICT = "GPL-3.0.txt";

    private ThirdParties() {}

    public static void main(String[] args) throws Exception {
        final Path lib = Path.of(args[0]);
        final Path common = Path.of(args[2]);
        final Path texts = Path.of(args[3]).resolve("licences");
        final JsonNode bill = new ObjectMapper().readTree(Path.of(args[1]).toFile());
        final TreeMap<String, JsonNode> parts = new TreeMap<>();
        for (JsonNode part : bill.path("components")) {
            for (JsonNode hash : part.path("hashes")) {
                if (hash.path("alg").asText().equals("SHA-256")) {
                    parts.put(hash.path("content").asText(), part);
                }
            }
        }
        final StringBuilder list = new StringBuilder();
        final List<String> strict = new ArrayList<>();
        final List<String> faults = new ArrayList<>();
        for (Path jar : sorted(lib)) {
            final JsonNode part = parts.get(digest(jar));
            final String name = jar.getFileName().toString();
            if (part == null) {
                faults.add(name + " is not in the bill of materials");
                continue;
            }
            final String licence = licence(part);
            final String text = text(jar, licence, common, texts);
            if (licence.isEmpty() || text.isEmpty()) {
                faults.add(name + ": licence \"" + licence + "\", text \"" + text + '"');
            }
            if (common(licence).equals(STRICT)) {
                strict.add(name);
            }
            list.append(name + "\n  " + licence + "\n  Text: " + text + "\n");
        }
        if (!faults.isEmpty()) {
            throw new IllegalStateException(String.join("\n", faults));
        }
        final String whole = strict.isEmpty() ? "" : WHOLE.formatted(String.join(", ", strict));
        Files.writeString(texts.resolveSibling("THIRD-PARTY.txt"), LEAD + whole + list);
    }

    private static List<Path> sorted(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(f -> f.toString().endsWith(".jar")).sorted().toList();
        }
    }

    private static String digest(Path file) throws Exception {
        final MessageDigest sha = MessageDigest.getInstance("SHA-256");
        return HexFormat.of().formatHex(sha.digest(Files.readAllBytes(file)));
    }

    /** Identifiers where there are some, else names. */
    private static String licence(JsonNode part) {
        final List<String> names = new ArrayList<>();
        for (JsonNode choice : part.path("licenses")) {
            final JsonNode licence = choice.path("license");
            names.add(
                    choice.path("expression")
                            .asText(licence.path("id").asText(licence.path("name").asText(""))));
        }
        return names.stream().filter(n -> !n.isBlank()).collect(Collectors.joining(" or "));
    }

    /** Copies the texts that the library brings; else names the common one. */
    private static String text(Path jar, String licence, Path common, Path texts)
            throws IOException {
        final String name = jar.getFileName().toString().replaceFirst("\\.jar$", "");
        boolean brought = false;
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            for (ZipEntry entry : zip.stream().map(e -> (ZipEntry) e).toList()) {
                final String file = entry.getName().replaceFirst(".*/", "");
                final String lower = file.toLowerCase(Locale.ROOT);
                if (lower.matches("(licen[cs]e|notice)([-.].*)?") && !lower.endsWith(".class")) {
                    Files.createDirectories(texts.resolve(name));
                    Files.write(
                            texts.resolve(name).resolve(file),
                            zip.getInputStream(entry).readAllBytes());
                    brought |= lower.startsWith("licen");
                }
            }
        }
        if (brought) {
            return name;
        }
        final String file = common(licence);
        if (!file.isEmpty()) {
            Files.createDirectories(texts);
            Files.write(texts.resolve(file), Files.readAllBytes(common.resolve(file)));
        }
        return file;
    }

    /** The common text of a licence; where one may choose, the one that asks least. */
    private static String common(String licence) {
        final String lower = licence.toLowerCase(Locale.ROOT);
        if (lower.contains("apache")) {
            return "Apache-2.0.txt";
        }
        if (lower.contains("lgpl") || lower.contains("lesser")) {
            return "LGPL-2.1.txt";
        }
        return lower.contains("gpl") || lower.contains("gnu general public") ? STRICT : "";
    }
}
