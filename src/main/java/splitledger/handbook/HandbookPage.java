package splitledger.handbook;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.parser.Parser;

/**
 * One page.
 *
 * @param id its name
 * @param title its first line
 * @param body what follows, in Markdown
 */
public record HandbookPage(String id, String title, String body) {
    private static final String TITLE = "# ";
    private static final String SUFFIX = ".md";

    /**
     * A page from its text.
     *
     * @throws IllegalArgumentException if the first line is no title
     */
    static HandbookPage of(String id, String text) {
        if (!text.startsWith(TITLE)) {
            throw new IllegalArgumentException("the page " + id + " must begin with a title");
        }
        final int end = text.indexOf('\n');
        return new HandbookPage(
                id, text.substring(TITLE.length(), end).strip(), text.substring(end + 1));
    }

    /** Ids of the pages that links on it lead to, each once, in order of the page. */
    public List<String> leadsTo() {
        final Set<String> targets = new LinkedHashSet<>();
        tree().accept(
                        new AbstractVisitor() {
                            @Override
                            public void visit(Link link) {
                                targets.add(target(link));
                            }
                        });
        return List.copyOf(targets);
    }

    /** The body as a tree, a new one at each call. */
    Node tree() {
        return Parser.builder().build().parse(body);
    }

    /** The page that a link leads to. */
    static String target(Link link) {
        final String destination = link.getDestination();
        return destination.endsWith(SUFFIX)
                ? destination.substring(0, destination.length() - SUFFIX.length())
                : destination;
    }
}
