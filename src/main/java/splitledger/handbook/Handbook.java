package splitledger.handbook;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The pages of the handbook by their names. */
public final class Handbook {
    private static final String FOLDER = "/splitledger/handbook/";
    private static final String TOPICS = FOLDER + "topics.txt";
    private static final String GROUP = "# ";

    private final List<Topic> topics;

    private Handbook(List<Topic> topics) {
        this.topics = List.copyOf(topics);
    }

    /**
     * A page's place in the handbook.
     *
     * @param group heading under which it is listed
     * @param id its name
     * @param aliases further names
     */
    public record Topic(String group, String id, List<String> aliases) {
        public Topic {
            aliases = List.copyOf(aliases);
        }

        /** Whether it goes by a name, see {@link #plain}. */
        public boolean isCalled(String name) {
            return plain(id).equals(plain(name))
                    || aliases.stream().anyMatch(a -> plain(a).equals(plain(name)));
        }
    }

    /**
     * Reads the list of topics; pages are read when asked for.
     *
     * @return the handbook of this program
     */
    public static Handbook read() {
        final List<Topic> topics = new ArrayList<>();
        String group = "";
        for (String line : text(TOPICS).lines().toList()) {
            if (line.startsWith(GROUP)) {
                group = line.substring(GROUP.length()).strip();
            } else if (!line.isBlank()) {
                topics.add(topic(group, line));
            }
        }
        return new Handbook(topics);
    }

    private static Topic topic(String group, String line) {
        final int colon = line.indexOf(':');
        if (colon < 0) {
            return new Topic(group, line.strip(), List.of());
        }
        final List<String> aliases =
                Arrays.stream(line.substring(colon + 1).split(",", -1))
                        .map(String::strip)
                        .filter(a -> !a.isEmpty())
                        .toList();
        return new Topic(group, line.substring(0, colon).strip(), aliases);
    }

    /** All topics in the order of the handbook. */
    public List<Topic> topics() {
        return topics;
    }

    /** The topic that goes by a name, case, blanks and underscores aside. */
    public Optional<Topic> topic(String name) {
        return topics.stream().filter(t -> t.isCalled(name)).findFirst();
    }

    /** The page of a topic, by its id; empty if the handbook has none of that id. */
    public Optional<HandbookPage> page(String id) {
        return topics.stream()
                .filter(t -> t.id().equals(id))
                .findFirst()
                .map(t -> HandbookPage.of(t.id(), text(FOLDER + t.id() + ".md")));
    }

    /** The topics whose pages name a quantity or a word of the protocol, set as code. */
    public List<Topic> naming(String word) {
        final String code = "`" + word + "`";
        return topics.stream().filter(t -> text(FOLDER + t.id() + ".md").contains(code)).toList();
    }

    /** A name as names are compared: lower case, {@code -} for blanks and underscores. */
    public static String plain(String name) {
        return name.strip().toLowerCase(Locale.ROOT).replace(' ', '-').replace('_', '-');
    }

    private static String text(String resource) {
        try (InputStream in = Handbook.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + resource + " is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r\n", "\n");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
