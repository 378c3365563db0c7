package splitledger.report;

import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.nio.charset.StandardCharsets;
import java.util.List;
import splitledger.report.templates.JtecautionsGenerated;

/**
 * A page in the style of the report for what is no evaluation: one file that asks for nothing from
 * outside, without a script, every text escaped.
 */
public final class HousePage {
    private final StringBuilder text = new StringBuilder();

    /** A page with its title. */
    public HousePage(String title) {
        text.append("<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n")
                .append(
                        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
                .append("<title>")
                .append(escaped(title))
                .append("</title>\n<style>\n")
                .append(Wording.Resources.text("report.css"))
                .append("\n</style>\n</head>\n<body>\n<header>\n<h1>")
                .append(escaped(title))
                .append("</h1>\n</header>\n<main>\n");
    }

    /** Begins a section. */
    public HousePage heading(String words) {
        return element("h2", words);
    }

    /** Begins a part of a section. */
    public HousePage part(String words) {
        return element("h3", words);
    }

    /** A paragraph. */
    public HousePage paragraph(String words) {
        return element("p", words);
    }

    private HousePage element(String name, String words) {
        text.append('<').append(name).append('>').append(escaped(words));
        text.append("</").append(name).append(">\n");
        return this;
    }

    /**
     * Statements that stand out, each with a mark.
     *
     * @param code one of the marks of verdicts: {@code meets}, {@code fails}, {@code undecided},
     *     {@code not-shown}, {@code information}
     * @param mark what the mark says
     * @param sentences what follows
     */
    public HousePage statement(String title, String code, String mark, List<String> sentences) {
        text.append("<div class=\"statement\"><h3>")
                .append(escaped(title))
                .append(" <span class=\"badge ")
                .append(escaped(code))
                .append("\">")
                .append(escaped(mark))
                .append("</span></h3>\n");
        sentences.forEach(this::paragraph);
        text.append("</div>\n");
        return this;
    }

    /** A list. */
    public HousePage list(List<String> items) {
        text.append("<ul class=\"decisions\">\n");
        items.forEach(i -> text.append("<li>").append(escaped(i)).append("</li>\n"));
        text.append("</ul>\n");
        return this;
    }

    /**
     * A table.
     *
     * @param name for those who cannot see it
     */
    public HousePage table(String name, List<String> header, List<List<String>> rows) {
        text.append("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"")
                .append(escaped(name))
                .append("\">\n<table>\n<caption class=\"unseen\">")
                .append(escaped(name))
                .append("</caption>\n<thead><tr>");
        header.forEach(h -> text.append("<th scope=\"col\">").append(escaped(h)).append("</th>"));
        text.append("</tr></thead>\n<tbody>\n");
        for (List<String> row : rows) {
            text.append("<tr>");
            for (int i = 0; i < row.size(); i++) {
                final String tag = i == 0 ? "th" : "td";
                text.append('<').append(tag).append(i == 0 ? " scope=\"row\">" : ">");
                text.append(escaped(row.get(i))).append("</").append(tag).append('>');
            }
            text.append("</tr>\n");
        }
        text.append("</tbody>\n</table>\n</div>\n");
        return this;
    }

    /**
     * Begins what is folded until a reader opens it; end it with {@link #unfold}.
     *
     * @param open whether it stands open at first
     */
    public HousePage fold(String words, boolean open) {
        text.append(open ? "<details open>" : "<details>").append("\n<summary>");
        text.append(escaped(words)).append("</summary>\n");
        return this;
    }

    /** Ends what {@link #fold} began. */
    public HousePage unfold() {
        text.append("</details>\n");
        return this;
    }

    /**
     * Charts beside each other.
     *
     * @param drawn each as an SVG element
     * @param captions as many
     */
    public HousePage figures(List<byte[]> drawn, List<String> captions) {
        text.append("<div class=\"figures\">\n");
        for (int i = 0; i < drawn.size(); i++) {
            final String name = escaped(captions.get(i));
            text.append("<figure aria-label=\"").append(name);
            text.append("\">\n<div class=\"scroll\" tabindex=\"0\" role=\"region\"")
                    .append(" aria-label=\"Drawing, ")
                    .append(name)
                    .append("\">")
                    .append(new String(drawn.get(i), StandardCharsets.UTF_8))
                    .append("</div>\n<figcaption>")
                    .append(name)
                    .append("</figcaption>\n</figure>\n");
        }
        text.append("</div>\n");
        return this;
    }

    /** The cautions of the house. */
    public HousePage cautions() {
        final StringOutput out = new StringOutput();
        JtecautionsGenerated.render(new OwaspHtmlTemplateOutput(out), null);
        text.append(out);
        return this;
    }

    /** The page as a file. */
    public byte[] bytes() {
        return (text + "</main>\n</body>\n</html>\n").getBytes(StandardCharsets.UTF_8);
    }

    private static String escaped(String plain) {
        return plain.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
