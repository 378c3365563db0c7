package splitledger.intake;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.MemoryVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.study.Choice;
import splitledger.study.Study;

/** The files of a small study in memory, good unless a test replaces one or a part of one. */
final class StudyFiles {
    static final String PROTOCOL = "studies/oil/protocol.yaml";

    static final String GOOD_PROTOCOL =
            """
            splitledger: 1
            title: Two terpenes
            tables:
              - {file: areas.csv}
              - {file: runs.csv, joins-on: injection, columns: {series: Experiment, preparation: Flask}}
            compounds: {targets: [limonene, linalool]}
            characteristics:
              calibration: {where: {series: calibration}}
            """;

    static final String GOOD_AREAS =
            """
            injection,compound,area
            A1,limonene,10.5
            A1,linalool,20
            A2,limonene,-0.5
            A2,linalool,n.a.
            """;

    static final String GOOD_RUNS =
            """
            injection,Experiment,Flask,level
            A1,calibration,F1,L1
            A2,sample,F2,
            """;

    private final SortedMap<String, byte[]> files = new TreeMap<>();
    private JsonNode schema = exampleSchema();

    /** A study without mistakes. */
    static StudyFiles good() {
        return new StudyFiles()
                .with(PROTOCOL, GOOD_PROTOCOL)
                .with("studies/oil/areas.csv", GOOD_AREAS)
                .with("studies/oil/runs.csv", GOOD_RUNS);
    }

    /** The good study with another protocol. */
    static StudyFiles protocol(String text) {
        return good().with(PROTOCOL, text);
    }

    /** The good study with one part of its protocol replaced; the part must be there. */
    static StudyFiles replacing(String part, String by) {
        if (!GOOD_PROTOCOL.contains(part)) {
            throw new IllegalArgumentException("the good protocol does not contain " + part);
        }
        return protocol(GOOD_PROTOCOL.replace(part, by));
    }

    /** The good study with lines added to its protocol. */
    static StudyFiles adding(String lines) {
        return protocol(GOOD_PROTOCOL + lines);
    }

    /** The good study with another table of areas. */
    static StudyFiles areas(String text) {
        return good().with("studies/oil/areas.csv", text);
    }

    StudyFiles with(String name, String text) {
        return with(name, text.getBytes(StandardCharsets.UTF_8));
    }

    StudyFiles with(String name, byte[] bytes) {
        files.put(name, bytes);
        return this;
    }

    StudyFiles without(String name) {
        files.remove(name);
        return this;
    }

    /** Reads the study, which must be good. */
    Study read() {
        try {
            return StudyReader.read(vault(), PROTOCOL, schema);
        } catch (ProblemException e) {
            throw new AssertionError(e.getMessage(), e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Reads the study, which must have problems. */
    List<Problem> problems() {
        try {
            StudyReader.read(vault(), PROTOCOL, schema);
        } catch (ProblemException e) {
            return e.problems();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        throw new AssertionError("the study has no problems");
    }

    /** The messages of all problems. */
    List<String> texts() {
        return problems().stream().map(Problem::text).toList();
    }

    /** The choices of a study but for the form in which each file was read. */
    static List<Choice> decisions(Study study) {
        return study.choices().stream().filter(c -> !c.what().contains(" is read as: ")).toList();
    }

    Vault vault() {
        return new MemoryVault(files);
    }

    /** The frame filled with a few characteristics. */
    static JsonNode exampleSchema() {
        final ObjectMapper mapper = new ObjectMapper();
        try (InputStream in = StudyFiles.class.getResourceAsStream("protocol-frame.schema.json")) {
            final JsonNode frame = mapper.readTree(in);
            final ObjectNode blocks =
                    (ObjectNode) frame.at("/properties/characteristics/properties");
            blocks.set("calibration", mapper.readTree(block("")));
            blocks.set("detection", mapper.readTree(block("")));
            blocks.set(
                    "repeatability",
                    mapper.readTree(block(", 'factors': {'$ref': '#/$defs/texts'}")));
            blocks.set(
                    "split-linearity",
                    mapper.readTree(block(", 'reference-ratio': {'$ref': '#/$defs/number'}")));
            blocks.set(
                    "losses",
                    mapper.readTree(
                            block(
                                    ", 'per': {'$ref': '#/$defs/text'},"
                                            + " 'parent': {'$ref': '#/$defs/text'},"
                                            + " 'products': {'$ref': '#/$defs/texts'}")));
            blocks.set("recovery", mapper.readTree(block(", 'native': {'$ref': '#/$defs/where'}")));
            return frame;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String block(String options) {
        return ("{'type': 'object', 'additionalProperties': false,"
                        + " 'properties': {'where': {'$ref': '#/$defs/where'}"
                        + options
                        + "}}")
                .replace('\'', '"');
    }
}
