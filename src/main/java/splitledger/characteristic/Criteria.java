package splitledger.characteristic;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** The limits that others set, with their sources; read once from a resource of the program. */
public final class Criteria {
    private static final String RESOURCE = "criteria.yaml";
    private static final Map<String, Criterion> ALL = read();

    private Criteria() {}

    /**
     * One limit.
     *
     * @param id name in the resource
     * @param what what it limits or predicts
     * @param limit the rule, in words and symbols
     * @param source where it stands
     * @param edition which edition, or that it was written from memory
     * @param basis what it is compared with
     */
    public record Criterion(
            String id, String what, String limit, String source, String edition, String basis) {
        /** Source and edition in one line. */
        public String cited() {
            return source + " (" + edition + ")";
        }
    }

    /** All of them, in order of the resource. */
    static List<Criterion> all() {
        return List.copyOf(ALL.values());
    }

    /**
     * One of them.
     *
     * @throws IllegalStateException if the resource does not hold it
     */
    public static Criterion of(String id) {
        final Criterion found = ALL.get(id);
        if (found == null) {
            throw new IllegalStateException("the resource " + RESOURCE + " holds no " + id);
        }
        return found;
    }

    private static Map<String, Criterion> read() {
        try (InputStream in = Criteria.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + RESOURCE + " is missing");
            }
            final Object tree =
                    new Load(LoadSettings.builder().setLabel(RESOURCE).build())
                            .loadFromInputStream(in);
            final Map<String, Criterion> all = new LinkedHashMap<>();
            for (Object entry : (List<?>) tree) {
                final Map<?, ?> cells = (Map<?, ?>) entry;
                final Criterion one =
                        new Criterion(
                                text(cells, "id"),
                                text(cells, "what"),
                                text(cells, "limit"),
                                text(cells, "source"),
                                text(cells, "edition"),
                                text(cells, "basis"));
                all.put(one.id(), one);
            }
            return Collections.unmodifiableMap(all);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String text(Map<?, ?> cells, String name) {
        if (cells.get(name) instanceof String text && !text.isBlank()) {
            return text;
        }
        throw new IllegalStateException(
                "the resource " + RESOURCE + " has an entry without " + name);
    }
}
