package splitledger.intake;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionEndEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import splitledger.base.Problem;
import splitledger.base.ProblemException;

/**
 * Runs through the events of a YAML file before a tree is made of it: how deep it nests, how many
 * nodes it has once every alias is written out, and that no alias stands inside what it names.
 */
final class YamlGuard {
    private static final int DEEPEST = 40;
    private static final long MOST_NODES = 100_000;

    private final String file;
    private final Map<String, Long> sizes = new LinkedHashMap<>();
    private final Map<String, Long> open = new LinkedHashMap<>();
    private final String[] anchors = new String[DEEPEST + 2];
    private long nodes;
    private int depth;

    private YamlGuard(String file) {
        this.file = file;
    }

    /**
     * Checks a file.
     *
     * @throws ProblemException if it is larger, deeper or more entangled than a protocol is
     */
    static void check(String file, byte[] bytes, LoadSettings settings) throws ProblemException {
        if (bytes.length > Limits.PROTOCOL_BYTES) {
            throw refusal(file, 0, "a file of " + bytes.length + " bytes", "split off tables");
        }
        final YamlGuard guard = new YamlGuard(file);
        final String text = new String(bytes, StandardCharsets.UTF_8);
        for (Event event : new Parse(settings).parseString(text)) {
            guard.take(event);
        }
    }

    private void take(Event event) throws ProblemException {
        final int row = event.getStartMark().map(m -> m.getLine() + 1).orElse(0);
        if (event instanceof AliasEvent alias) {
            final String name = alias.getAlias().getValue();
            if (open.containsKey(name)) {
                throw refusal(file, row, "the alias '" + name + "' inside what it names", "");
            }
            nodes += sizes.getOrDefault(name, 1L);
        } else if (event instanceof CollectionStartEvent start) {
            depth++;
            if (depth > DEEPEST) {
                throw refusal(file, row, "nesting deeper than " + DEEPEST, "take levels out");
            }
            anchors[depth] = anchor(start);
            nodes++;
            open.put(anchors[depth], nodes);
        } else if (event instanceof CollectionEndEvent) {
            final Long before = open.remove(anchors[depth]);
            sizes.put(anchors[depth], before == null ? 1 : nodes - before + 1);
            depth--;
        } else if (event instanceof ScalarEvent) {
            nodes++;
        }
        if (nodes > MOST_NODES) {
            throw refusal(
                    file,
                    row,
                    "more than " + MOST_NODES + " values, aliases written out",
                    "take aliases out");
        }
    }

    /** The anchor of a collection; a name that no alias can have where there is none. */
    private String anchor(NodeEvent event) {
        return event.getAnchor().map(a -> a.getValue()).orElse(" " + depth);
    }

    private static ProblemException refusal(String file, int row, String found, String hint) {
        return new ProblemException(new Problem(file, row, "", found, "a protocol", hint));
    }
}
