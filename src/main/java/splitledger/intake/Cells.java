package splitledger.intake;

import java.util.Locale;

/** The strict reading of cells: one way to write a number, four ways to write nothing. */
final class Cells {
    private Cells() {}

    /** Whether a stripped cell says that there is nothing: empty, {@code n.a.}, {@code nd}, -. */
    static boolean isNothing(String cell) {
        return switch (cell.length()) {
            case 0 -> true;
            case 1 -> cell.equals("-");
            case 2 -> cell.equalsIgnoreCase("nd");
            case 4 -> cell.toLowerCase(Locale.ROOT).equals("n.a.");
            default -> false;
        };
    }

    /** The same of the characters between two positions. */
    static boolean isNothing(char[] text, int from, int to) {
        final int length = to - from;
        if (length == 0) {
            return true;
        }
        final boolean digit = text[from] >= '0' && text[from] <= '9';
        return !digit && length <= 4 && isNothing(new String(text, from, length));
    }

    /**
     * The number of a stripped cell: sign, digits, a dot, digits, an exponent, and nothing else.
     *
     * @return the number; NaN if it is not one of this form, or too large for a double
     */
    static double number(String cell) {
        if (!isNumber(cell)) {
            return Double.NaN;
        }
        final double value = Double.parseDouble(cell);
        return Double.isInfinite(value) ? Double.NaN : value;
    }

    /** Whether a text has the form of a number. */
    static boolean isNumber(String text) {
        if (text.length() > Limits.NUMBER_CHARS) {
            return false;
        }
        int at = sign(text, 0);
        final int whole = digits(text, at);
        int count = whole - at;
        at = whole;
        if (at < text.length() && text.charAt(at) == '.') {
            final int after = digits(text, at + 1);
            count += after - at - 1;
            at = after;
        }
        if (count == 0) {
            return false;
        }
        if (at < text.length() && (text.charAt(at) == 'e' || text.charAt(at) == 'E')) {
            final int from = sign(text, at + 1);
            final int to = digits(text, from);
            return to > from && to == text.length();
        }
        return at == text.length();
    }

    /** What to do about a cell that is no number. */
    static String hint(String cell) {
        final String lower = cell.toLowerCase(Locale.ROOT);
        if (lower.contains("nan") || lower.contains("inf")) {
            return "leave the cell empty where there is no number";
        }
        if (isNumber(cell)) {
            return "the number is too large: check it";
        }
        if (cell.indexOf(',') >= 0 && isNumber(cell.replaceFirst(",", "."))) {
            return "write a dot as decimal mark and no thousands marks";
        }
        if (isNumber(cell.replaceAll("[,' \u00a0\u202f]", ""))) {
            return "take the thousands marks out";
        }
        if (!cell.isEmpty() && isNumber(cell.substring(0, 1))) {
            return "write the number alone; a unit belongs into the heading";
        }
        return "write a number, or leave the cell empty";
    }

    private static int sign(String text, int at) {
        final boolean signed =
                at < text.length() && (text.charAt(at) == '-' || text.charAt(at) == '+');
        return signed ? at + 1 : at;
    }

    private static int digits(String text, int from) {
        int at = from;
        while (at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9') {
            at++;
        }
        return at;
    }
}
