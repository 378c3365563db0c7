package splitledger.chart;

/** Text from outside inside XML. */
final class XmlText {
    private static final int REPLACEMENT = 0xFFFD;

    private XmlText() {}

    /**
     * The text with every character that XML 1.0 cannot hold replaced, and line ends and tabs as
     * spaces.
     */
    static String clean(String text) {
        final StringBuilder b = new StringBuilder(text.length());
        text.codePoints()
                .map(c -> c == '\n' || c == '\r' || c == '\t' ? ' ' : c)
                .map(c -> allowed(c) ? c : REPLACEMENT)
                .forEach(b::appendCodePoint);
        return b.toString();
    }

    /** The text as it stands inside an element or a quoted attribute. */
    static String escaped(String text) {
        return clean(text)
                .replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }

    private static boolean allowed(int c) {
        return (c >= ' ' && c <= 0xD7FF)
                || (c >= 0xE000 && c <= 0xFFFD)
                || (c >= 0x10000 && c <= 0x10FFFF);
    }
}
