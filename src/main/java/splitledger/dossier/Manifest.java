package splitledger.dossier;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.base.Digests;
import splitledger.base.JsonText;
import splitledger.study.Choice;
import splitledger.study.Evaluation;
import splitledger.study.InputFile;
import splitledger.study.Protocol.Exclusion;

/**
 * What a dossier holds, with digests. The study digest is the SHA-256 over lines {@code
 * role<TAB>name<TAB>digest}, sorted, of all inputs, of {@code results.json} and of the CSV files.
 * What may differ between machines (Java version, pictures) stands in the block {@code
 * environment}.
 */
final class Manifest {
    private Manifest() {}

    /**
     * The file.
     *
     * @param written digests of all files of the dossier by name, without the copies of inputs
     */
    static byte[] of(
            Evaluation evaluation, ProgramVersion version, SortedMap<String, String> written) {
        final SortedMap<String, String> results = new TreeMap<>(CodePoints.ORDER);
        final SortedMap<String, String> pictures = new TreeMap<>(CodePoints.ORDER);
        written.forEach((name, digest) -> (isResult(name) ? results : pictures).put(name, digest));
        final JsonText json = new JsonText().beginObject();
        json.key("program").value("splitledger");
        json.key("version").value(version.program());
        json.key("sourceRevision").value(version.revision());
        json.key("seed").value(Long.toString(evaluation.seed()));
        json.key("studyDigest").value(studyDigest(evaluation, results));
        json.key("inputs").beginArray();
        for (InputFile input : evaluation.study().inputs()) {
            json.beginObject().key("role").value(input.role()).key("name").value(input.name());
            json.key("written").value(input.written()).key("sha256").value(input.digest()).end();
        }
        json.end();
        files(json.key("outputs"), results);
        json.key("exclusions").beginArray();
        for (Exclusion e : evaluation.study().protocol().exclusions()) {
            json.beginObject()
                    .key("injection")
                    .value(e.injection())
                    .key("compound")
                    .value(e.compound());
            json.key("reason").value(e.reason()).key("who").value(e.who()).end();
        }
        json.end().key("choices").beginArray();
        for (Choice c : evaluation.choices()) {
            json.beginObject()
                    .key("characteristic")
                    .value(c.characteristic())
                    .key("compound")
                    .value(c.compound());
            json.key("what")
                    .value(c.what())
                    .key("why")
                    .value(c.why())
                    .key("source")
                    .value(c.source())
                    .end();
        }
        json.end().key("environment").beginObject();
        json.key("java").value(System.getProperty("java.version", "unknown"));
        files(json.key("files"), pictures);
        return json.end().end().bytes();
    }

    /** Whether a file's digest is part of the study digest. */
    private static boolean isResult(String name) {
        return name.endsWith(".csv") || name.endsWith(".json");
    }

    /**
     * The study digest as 64 hexadecimal digits.
     *
     * @param written digests of files by name; those that are no results do not count
     */
    static String studyDigest(Evaluation evaluation, SortedMap<String, String> written) {
        final SortedMap<String, String> results = new TreeMap<>(CodePoints.ORDER);
        written.forEach(
                (name, digest) -> {
                    if (isResult(name)) {
                        results.put(name, digest);
                    }
                });
        return studyDigest(evaluation.study().inputs(), results);
    }

    /** The study digest of some inputs and the digests of results by name. */
    static String studyDigest(List<InputFile> read, SortedMap<String, String> results) {
        final Stream<String> inputs =
                read.stream().map(i -> i.role() + "\t" + i.name() + "\t" + i.digest());
        final Stream<String> outputs =
                results.entrySet().stream().map(e -> "output\t" + e.getKey() + "\t" + e.getValue());
        final String lines =
                Stream.concat(inputs, outputs)
                        .sorted(CodePoints.ORDER)
                        .collect(Collectors.joining("\n", "", "\n"));
        return Digests.sha256(lines.getBytes(StandardCharsets.UTF_8));
    }

    private static void files(JsonText json, SortedMap<String, String> digests) {
        json.beginArray();
        digests.forEach(
                (name, digest) ->
                        json.beginObject()
                                .key("name")
                                .value(name)
                                .key("sha256")
                                .value(digest)
                                .end());
        json.end();
    }
}
