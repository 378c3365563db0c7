package splitledger.report;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * The rendered template as a tree, with what paper needs beside it: an outline made of the headings
 * and numbers whose decimal points stand in line.
 */
final class PaperDocument {
    private static final String FIGURE_SPACE = "\u2007";
    private static final String POINT_SPACE = "\u2008";

    private PaperDocument() {}

    /**
     * The tree.
     *
     * @param rendered well-formed, without a document type
     * @throws IOException if it is not well-formed
     */
    static Document of(String rendered) throws IOException {
        final Document document = parsed(allowed(rendered));
        align(document);
        outline(document);
        return document;
    }

    private static Document parsed(String text) throws IOException {
        try {
            final DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            return factory.newDocumentBuilder().parse(new InputSource(new StringReader(text)));
        } catch (ParserConfigurationException | SAXException e) {
            throw new IOException("the page cannot be set on paper: " + e.getMessage(), e);
        }
    }

    /** What XML 1.0 cannot hold becomes the replacement character. */
    private static String allowed(String text) {
        final StringBuilder b = new StringBuilder(text.length());
        text.codePoints()
                .map(
                        c ->
                                c == '\n'
                                                || c == '\r'
                                                || c == '\t'
                                                || (c >= ' ' && c <= 0xD7FF)
                                                || (c >= 0xE000 && c <= 0xFFFD)
                                                || c >= 0x10000
                                        ? c
                                        : 0xFFFD)
                .forEach(b::appendCodePoint);
        return b.toString();
    }

    /** What follows a decimal point is filled up with spaces as wide as digits. */
    private static void align(Document document) {
        for (Element span : elements(document, "span")) {
            final String style = span.getAttribute("style");
            if (span.getAttribute("class").equals("t") && style.matches("min-width:\\d+ch")) {
                final String tail = span.getTextContent();
                final int width = Integer.parseInt(style.replaceAll("\\D", ""));
                final int missing = width - tail.codePointCount(0, tail.length());
                if (missing > 0) {
                    final String point = tail.isEmpty() ? POINT_SPACE : "";
                    span.setTextContent(
                            tail + point + FIGURE_SPACE.repeat(missing - point.length()));
                }
                span.removeAttribute("style");
            }
        }
    }

    /** Bookmarks: chapters, and below each its parts. */
    private static void outline(Document document) {
        final Element bookmarks = document.createElement("bookmarks");
        Optional<Element> chapter = Optional.empty();
        int count = 0;
        for (Element heading : headings(document)) {
            count++;
            if (heading.getAttribute("id").isEmpty()) {
                heading.setAttribute("id", "heading-" + count);
            }
            final Element bookmark = document.createElement("bookmark");
            bookmark.setAttribute("name", heading.getTextContent().strip().replaceAll("\\s+", " "));
            bookmark.setAttribute("href", "#" + heading.getAttribute("id"));
            if (heading.getTagName().equals("h2")) {
                bookmarks.appendChild(bookmark);
                chapter = Optional.of(bookmark);
            } else {
                chapter.orElse(bookmarks).appendChild(bookmark);
            }
        }
        elements(document, "head").get(0).appendChild(bookmarks);
    }

    private static List<Element> headings(Document document) {
        return elements(document, "*").stream()
                .filter(e -> e.getTagName().equals("h2") || e.getTagName().equals("h3"))
                .toList();
    }

    private static List<Element> elements(Document document, String name) {
        final NodeList found = document.getElementsByTagName(name);
        final List<Element> elements = new ArrayList<>();
        for (int i = 0; i < found.getLength(); i++) {
            if (found.item(i) instanceof Element e) {
                elements.add(e);
            }
        }
        return elements;
    }
}
