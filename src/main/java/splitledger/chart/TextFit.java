package splitledger.chart;

import java.awt.Font;
import java.awt.font.FontRenderContext;
import java.util.ArrayList;
import java.util.List;

/** Measures, wraps and shortens words to the room there is. */
final class TextFit {
    private static final String MORE = "…";
    private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);

    private TextFit() {}

    /** Width of a text in pixels of the chart. */
    static double width(String text, Font font) {
        return text.isEmpty() ? 0 : font.getStringBounds(text, CONTEXT).getWidth();
    }

    /**
     * The text in lines no wider than {@code room}, broken at spaces; a word that is too wide, and
     * what does not fit into {@code lines} lines, is shortened with an ellipsis.
     */
    static List<String> wrapped(String text, Font font, double room, int lines) {
        final List<String> done = new ArrayList<>();
        String line = "";
        for (String word : text.strip().split("\\s+", -1)) {
            final String longer = line.isEmpty() ? word : line + " " + word;
            final boolean last = done.size() == lines - 1;
            if (last || line.isEmpty() || width(longer, font) <= room) {
                line = longer;
            } else {
                done.add(shortened(line, font, room));
                line = word;
            }
        }
        done.add(shortened(line, font, room));
        return List.copyOf(done);
    }

    /** The text, or its beginning with an ellipsis, no wider than {@code room}. */
    static String shortened(String text, Font font, double room) {
        if (width(text, font) <= room) {
            return text;
        }
        int end = text.length();
        while (end > 0) {
            end = text.offsetByCodePoints(end, -1);
            final String shorter = text.substring(0, end).stripTrailing() + MORE;
            if (width(shorter, font) <= room) {
                return shorter;
            }
        }
        return MORE;
    }
}
