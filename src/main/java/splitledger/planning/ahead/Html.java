package splitledger.planning.ahead;

import java.nio.charset.StandardCharsets;
import java.util.List;

/** A page that stands alone: no script, nothing from elsewhere, every text escaped. */
final class Html {
    private static final String STYLE =
            """
            body{font:16px/1.5 "DejaVu Sans",Verdana,sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem;color:#1b1f24}
            table{border-collapse:collapse;width:100%;margin:1rem 0;font-size:.9rem}
            th,td{border-bottom:1px solid #9aa3ad;padding:.3rem .5rem;text-align:left;vertical-align:top}
            .scroll{overflow-x:auto}
            .unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
            thead{display:table-header-group}
            tr{break-inside:avoid}
            td.box{width:1.2rem;border:1px solid #1b1f24}
            .cautions{border:2px solid #1b1f24;padding:.2rem 1rem .2rem 2rem}
            svg{max-width:100%;height:auto}
            @media print{.scroll{overflow:visible}body{margin:0;max-width:none;font-size:10pt}}
            """;

    private static final String HEAD =
            """
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <title>TITLE</title>
            <meta name="viewport" content="width=device-width">
            <style>
            STYLE</style>
            </head>
            <body>
            <h1>TITLE</h1>
            """;

    private final StringBuilder text = new StringBuilder();

    /** The last heading: what follows is named by it for those who cannot see it. */
    private String name;

    Html(String title) {
        text.append(HEAD.replace("STYLE", STYLE).replace("TITLE", escaped(title)));
        name = title;
    }

    Html heading(String words) {
        name = words;
        text.append("<h2>").append(escaped(words)).append("</h2>\n");
        return this;
    }

    Html paragraph(String words) {
        text.append("<p>").append(escaped(words)).append("</p>\n");
        return this;
    }

    Html list(List<String> items, String kind) {
        text.append("<ul class=\"").append(kind).append("\">\n");
        items.forEach(i -> text.append("<li>").append(escaped(i)).append("</li>\n"));
        text.append("</ul>\n");
        return this;
    }

    /** An element that is markup already. */
    Html figure(byte[] svg, String caption) {
        text.append("<figure aria-label=\"")
                .append(escaped(caption))
                .append("\">\n")
                .append(new String(svg, StandardCharsets.UTF_8))
                .append("<figcaption>")
                .append(escaped(caption))
                .append("</figcaption>\n</figure>\n");
        return this;
    }

    /** A table; a cell that is a single blank is a box to be ticked. */
    Html table(List<String> header, List<List<String>> rows) {
        text.append("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"")
                .append(escaped(name))
                .append("\">\n<table>\n<caption class=\"unseen\">")
                .append(escaped(name))
                .append("</caption>\n<thead><tr>");
        header.forEach(h -> text.append("<th scope=\"col\">").append(escaped(h)).append("</th>"));
        text.append("</tr></thead>\n<tbody>\n");
        for (List<String> row : rows) {
            text.append("<tr>");
            for (String cell : row) {
                text.append(cell.equals(" ") ? "<td class=\"box\">" : "<td>")
                        .append(escaped(cell))
                        .append("</td>");
            }
            text.append("</tr>\n");
        }
        text.append("</tbody>\n</table>\n</div>\n");
        return this;
    }

    byte[] bytes() {
        return (text + "</body>\n</html>\n").getBytes(StandardCharsets.UTF_8);
    }

    static String escaped(String plain) {
        return plain.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
