package splitledger.intake;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import com.networknt.schema.path.NodePath;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import splitledger.base.Problem;
import splitledger.study.Tree;

/** The published schema of the protocol: checks a protocol and tells each violation in words. */
final class ProtocolSchema {
    static final String RESOURCE = "/splitledger/protocol.schema.json";
    private static final String WHERE = "#/$defs/where";

    private final JsonNode node;
    private final Schema schema;

    private ProtocolSchema(JsonNode node) {
        this.node = node;
        schema =
                SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                        .getSchema(node);
    }

    /** A schema that is given. */
    static ProtocolSchema of(JsonNode node) {
        return new ProtocolSchema(node);
    }

    /**
     * The schema that the program ships.
     *
     * @throws IllegalStateException if it is missing: the program was not built whole
     */
    static ProtocolSchema shipped() {
        return read(RESOURCE);
    }

    /** The schema of a resource. */
    static ProtocolSchema read(String resource) {
        try (InputStream in = ProtocolSchema.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + resource + " is missing");
            }
            return new ProtocolSchema(new ObjectMapper().readTree(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Options of a characteristic that are conditions on rows, in order of the schema. */
    List<String> wheres(String characteristic) {
        final List<String> names = new ArrayList<>();
        options(characteristic)
                .properties()
                .forEach(
                        option -> {
                            if (option.getValue().path("$ref").asText().equals(WHERE)) {
                                names.add(option.getKey());
                            }
                        });
        return List.copyOf(names);
    }

    private JsonNode options(String characteristic) {
        return node.path("properties")
                .path("characteristics")
                .path("properties")
                .path(characteristic)
                .path("properties");
    }

    /** Checks a protocol; every violation becomes a problem. */
    void check(Tree.Mapping protocol, Reading reading) {
        final List<Error> errors = schema.validate(TreeJson.of(protocol));
        final Set<String> ofWrongType = new LinkedHashSet<>();
        for (Error error : errors) {
            if (error.getKeyword().equals("type") && !isBranch(error)) {
                ofWrongType.add(error.getInstanceLocation().toString());
            }
        }
        for (Error error : errors) {
            final boolean echo =
                    !error.getKeyword().equals("type")
                            && ofWrongType.contains(error.getInstanceLocation().toString());
            final boolean asked =
                    OpenQuestions.isOne(treeAt(protocol, error.getInstanceLocation()));
            if (!echo && !isBranch(error) && !asked) {
                reading.problem(problem(error, protocol));
            }
        }
    }

    /** Whether an error only explains why one branch of a choice was not taken. */
    private static boolean isBranch(Error error) {
        return error.getEvaluationPath().toString().contains("/oneOf/");
    }

    private Problem problem(Error error, Tree.Mapping protocol) {
        return SchemaWords.problem(
                error, treeAt(protocol, error.getInstanceLocation()), rule(error));
    }

    /**
     * The part of the schema in which a violated keyword stands.
     *
     * @param node the part
     * @param description its description; one beside a reference goes before that of the definition
     */
    record Rule(JsonNode node, String description) {}

    private Rule rule(Error error) {
        final NodePath path = error.getEvaluationPath();
        JsonNode at = node;
        String description = "";
        boolean referred = false;
        for (int i = 0; i < path.getNameCount() - 1; i++) {
            final Object element = path.getElement(i);
            final boolean reference = "$ref".equals(element);
            if (reference) {
                at = node.at(JsonPointer.compile(at.path("$ref").asText().substring(1)));
            } else {
                at =
                        element instanceof Integer index
                                ? at.path(index)
                                : at.path(element.toString());
            }
            final String own = at.path("description").asText();
            final boolean keep = reference && referred && !description.isEmpty();
            description = keep ? description : own;
            referred = !own.isEmpty() || keep;
        }
        return new Rule(at, description);
    }

    private static Tree treeAt(Tree root, NodePath path) {
        Tree at = root;
        for (int i = 0; i < path.getNameCount(); i++) {
            final Object element = path.getElement(i);
            if (at instanceof Tree.Mapping mapping) {
                at = mapping.get(String.valueOf(element)).orElse(at);
            } else if (at instanceof Tree.Sequence sequence) {
                at = sequence.items().get(Integer.parseInt(String.valueOf(element)));
            }
        }
        return at;
    }
}
