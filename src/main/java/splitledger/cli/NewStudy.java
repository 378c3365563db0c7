package splitledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.planning.ahead.Purpose;

/** The steps of {@code new --for}: a protocol and what lies beside it, all of it or nothing. */
final class NewStudy {
    private NewStudy() {}

    static NewProtocol begin(String name, Path out, boolean replace)
            throws ProblemException, IOException {
        final Purpose purpose = purpose(name);
        final Path file = out.toAbsolutePath().normalize();
        final Path folder = file.getParent();
        final Path protocol = file.getFileName();
        if (folder == null || protocol == null || Files.isDirectory(file)) {
            throw refused(out.toString(), "a folder", "name a file in it, such as protocol.yaml");
        }
        final Map<String, byte[]> files = new LinkedHashMap<>();
        files.put(protocol.toString(), purpose.protocol());
        files.putAll(purpose.beside());
        final List<Problem> there = new ArrayList<>();
        for (String each : files.keySet()) {
            if (!replace && Files.exists(folder.resolve(each), LinkOption.NOFOLLOW_LINKS)) {
                there.add(
                        new Problem(
                                folder.resolve(each).toString(),
                                0,
                                "--out",
                                "a file that is there already",
                                "a new name",
                                "name a file in another folder, or give --replace"));
            }
        }
        if (!there.isEmpty()) {
            throw new ProblemException(there);
        }
        SimulatedFolder.write(files, folder);
        return new NewProtocol(told(out, purpose, files));
    }

    private static Purpose purpose(String name) throws ProblemException {
        final List<String> known = Arrays.stream(Purpose.values()).map(Purpose::id).toList();
        return Purpose.of(name)
                .orElseThrow(
                        () ->
                                refused(
                                        "",
                                        "'" + name + "'",
                                        Nearest.to(name, known)
                                                        .map(w -> "did you mean '" + w + "'? ")
                                                        .orElse("")
                                                + "known are "
                                                + String.join(", ", known)));
    }

    private static List<String> told(Path out, Purpose purpose, Map<String, byte[]> files) {
        final List<String> lines = new ArrayList<>();
        lines.add(out + ": begun; " + purpose.words());
        if (files.size() > 1) {
            lines.add(
                    files.keySet().stream()
                            .skip(1)
                            .collect(Collectors.joining(", ", "  beside it: ", "")));
        }
        lines.add(
                purpose == Purpose.BUDGET
                        ? "next: write your numbers, then"
                        : "next: answer the questions (ASK), inject in the order of run-list.csv,"
                                + " put areas.csv beside it, then");
        lines.add("  splitledger evaluate " + out + " --out dossier");
        return lines;
    }

    private static ProblemException refused(String place, String found, String hint) {
        return new ProblemException(
                new Problem(
                        place, 0, "--for", found, "a purpose and a name for the protocol", hint));
    }
}
