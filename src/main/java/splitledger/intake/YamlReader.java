package splitledger.intake;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Shown;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * Reads a YAML 1.2 file into a {@link Tree} in which every part knows its line. No tags, few
 * aliases, no repeated keys: a protocol that needs them is refused with the place.
 */
public final class YamlReader {
    private static final int MOST_ALIASES = 20;
    private static final int DEEPEST = 40;

    /** What plain values, lists and mappings are, without any tag written. */
    private static final Set<String> TAGS =
            Set.of(
                    "tag:yaml.org,2002:str",
                    "tag:yaml.org,2002:int",
                    "tag:yaml.org,2002:float",
                    "tag:yaml.org,2002:bool",
                    "tag:yaml.org,2002:null",
                    "tag:yaml.org,2002:seq",
                    "tag:yaml.org,2002:map");

    private final List<Problem> problems = new ArrayList<>();

    private YamlReader() {}

    /**
     * Reads one document.
     *
     * @param file name for messages
     * @param bytes the file, UTF-8
     * @return its outermost mapping
     * @throws ProblemException if it is not YAML, not a mapping, repeats a key or uses tags
     */
    public static Tree.Mapping read(String file, byte[] bytes) throws ProblemException {
        final YamlReader reader = new YamlReader();
        final LoadSettings settings =
                LoadSettings.builder()
                        .setLabel(file)
                        .setUseMarks(true)
                        .setAllowDuplicateKeys(true)
                        .setMaxAliasesForCollections(MOST_ALIASES)
                        .build();
        final Optional<Node> node;
        try {
            YamlGuard.check(file, bytes, settings);
            node = new Compose(settings).composeString(new String(bytes, StandardCharsets.UTF_8));
        } catch (MarkedYamlEngineException e) {
            final int row = e.getProblemMark().map(m -> m.getLine() + 1).orElse(0);
            throw new ProblemException(
                    new Problem(
                            file,
                            row,
                            "",
                            e.getProblem(),
                            "YAML 1.2",
                            "check indentation, quotes and brackets"));
        } catch (YamlEngineException e) {
            throw new ProblemException(
                    new Problem(
                            file,
                            0,
                            "",
                            String.valueOf(e.getMessage()),
                            "YAML 1.2",
                            "check the file"));
        }
        if (node.isEmpty() || !(node.get() instanceof MappingNode)) {
            throw new ProblemException(
                    new Problem(
                            file,
                            1,
                            "",
                            node.isEmpty() ? "an empty file" : "no mapping",
                            "keys with values",
                            "begin with 'splitledger: 1'"));
        }
        final Tree tree = reader.tree(node.get(), new Place(file, 1, ""), 0);
        if (!reader.problems.isEmpty()) {
            throw new ProblemException(reader.problems);
        }
        return (Tree.Mapping) tree;
    }

    private Tree tree(Node node, Place place, int depth) {
        if (depth > DEEPEST) {
            problems.add(
                    place.problem(
                            "nesting deeper than " + DEEPEST, "a flat file", "take levels out"));
            return new Tree.Scalar(place, "", true);
        }
        final String tag = node.getTag().getValue();
        if (!TAGS.contains(tag)) {
            problems.add(place.problem("the tag " + tag, "a plain value", "take the tag out"));
        }
        if (node instanceof ScalarNode scalar) {
            refuseControls(place, scalar.getValue());
            return new Tree.Scalar(
                    place, scalar.getValue(), scalar.getScalarStyle() != ScalarStyle.PLAIN);
        }
        if (node instanceof SequenceNode sequence) {
            final List<Tree> items = new ArrayList<>();
            for (Node item : sequence.getValue()) {
                items.add(
                        tree(
                                item,
                                place.in(Integer.toString(items.size() + 1), row(item)),
                                depth + 1));
            }
            return new Tree.Sequence(place, items);
        }
        return mapping((MappingNode) node, place, depth);
    }

    private Tree.Mapping mapping(MappingNode node, Place place, int depth) {
        final Map<String, Tree> entries = new LinkedHashMap<>();
        final Map<String, Integer> rows = new LinkedHashMap<>();
        for (NodeTuple tuple : node.getValue()) {
            if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
                problems.add(
                        place.problem(
                                "a key that is no word",
                                "a word",
                                "write the key as a plain word"));
                continue;
            }
            final Place at = place.in(key.getValue(), row(key));
            refuseControls(at, key.getValue());
            final Integer before = rows.putIfAbsent(key.getValue(), row(key));
            if (before != null) {
                problems.add(
                        at.problem(
                                "the key '" + key.getValue() + "' a second time",
                                "each key once",
                                "it stands in line " + before + " already: keep one of them"));
                continue;
            }
            entries.put(key.getValue(), tree(tuple.getValueNode(), at, depth + 1));
        }
        return new Tree.Mapping(place, entries);
    }

    private void refuseControls(Place place, String text) {
        if (!Shown.isHarmless(text)) {
            problems.add(
                    place.problem(
                            "a control character in '" + text + "'", "plain text", "take it out"));
        }
    }

    private static int row(Node node) {
        return node.getStartMark().map(Mark::getLine).map(line -> line + 1).orElse(0);
    }
}
