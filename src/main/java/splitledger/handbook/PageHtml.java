package splitledger.handbook;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.Emphasis;
import org.commonmark.node.Heading;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.Text;
import org.commonmark.renderer.html.HtmlRenderer;

/** A page as markup that stands inside another page. */
public final class PageHtml {
    /** A formula that is too wide scrolls by itself, with a keyboard too. */
    private static final List<String> FORMULA =
            List.of("class=scroll", "tabindex=0", "role=region", "aria-label=Formula");

    private static final HtmlRenderer RENDERER =
            HtmlRenderer.builder()
                    .escapeHtml(true)
                    .attributeProviderFactory(context -> PageHtml::attributes)
                    .build();

    private PageHtml() {}

    /**
     * The body of a page, without its title. Markup within the Markdown is escaped.
     *
     * @param levels how much deeper the headings stand than on the page itself
     * @param names what stands in place of a word set as code; empty to leave it
     * @param anchors where the page around it tells of other topics, by their ids; links to topics
     *     without a place become plain text
     */
    public static String of(
            HandbookPage page,
            int levels,
            Function<String, Optional<String>> names,
            Map<String, String> anchors) {
        final Node tree = page.tree();
        final List<Link> links = new ArrayList<>();
        final List<Code> codes = new ArrayList<>();
        tree.accept(
                new AbstractVisitor() {
                    @Override
                    public void visit(Heading heading) {
                        heading.setLevel(heading.getLevel() + levels);
                        visitChildren(heading);
                    }

                    @Override
                    public void visit(Link link) {
                        links.add(link);
                    }

                    @Override
                    public void visit(Code code) {
                        codes.add(code);
                    }
                });
        codes.forEach(code -> names.apply(code.getLiteral()).ifPresent(w -> name(code, w)));
        for (Link link : links) {
            final String anchor = anchors.get(HandbookPage.target(link));
            if (anchor == null) {
                unwrap(link);
            } else {
                link.setDestination("#" + anchor);
            }
        }
        return RENDERER.render(tree);
    }

    private static void attributes(Node node, String tag, Map<String, String> attributes) {
        if (tag.equals("pre")) {
            for (String pair : FORMULA) {
                final int at = pair.indexOf('=');
                attributes.put(pair.substring(0, at), pair.substring(at + 1));
            }
        }
    }

    private static void name(Code code, String words) {
        final Emphasis stressed = new Emphasis();
        stressed.appendChild(new Text(words));
        code.insertBefore(stressed);
        code.unlink();
    }

    private static void unwrap(Link link) {
        Node child = link.getFirstChild();
        while (child != null) {
            final Node next = child.getNext();
            link.insertBefore(child);
            child = next;
        }
        link.unlink();
    }
}
