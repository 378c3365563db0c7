package splitledger.report;

import java.util.Comparator;
import splitledger.base.CodePoints;

/** Order in which people read labels: runs of digits by their number, so that L2 precedes L10. */
final class NaturalOrder {
    static final Comparator<String> ORDER = NaturalOrder::compare;

    private NaturalOrder() {}

    private static int compare(String a, String b) {
        int i = 0;
        int j = 0;
        while (i < a.length() && j < b.length()) {
            final int endA = pieceEnd(a, i);
            final int endB = pieceEnd(b, j);
            final int byPiece = piece(a.substring(i, endA), b.substring(j, endB));
            if (byPiece != 0) {
                return byPiece;
            }
            i = endA;
            j = endB;
        }
        if (i < a.length() || j < b.length()) {
            return i < a.length() ? 1 : -1;
        }
        return CodePoints.ORDER.compare(a, b);
    }

    /** Where the run of digits, or of other characters, that begins here ends. */
    private static int pieceEnd(String text, int from) {
        final boolean digits = isDigit(text.charAt(from));
        int end = from + 1;
        while (end < text.length() && isDigit(text.charAt(end)) == digits) {
            end++;
        }
        return end;
    }

    private static int piece(String a, String b) {
        final boolean numbers = isDigit(a.charAt(0)) && isDigit(b.charAt(0));
        return numbers ? byNumber(a, b) : CodePoints.ORDER.compare(a, b);
    }

    /** Of two runs of digits, however long. */
    private static int byNumber(String a, String b) {
        final String left = withoutZeros(a);
        final String right = withoutZeros(b);
        return left.length() == right.length()
                ? left.compareTo(right)
                : Integer.compare(left.length(), right.length());
    }

    private static String withoutZeros(String digits) {
        int from = 0;
        while (from < digits.length() && digits.charAt(from) == '0') {
            from++;
        }
        return digits.substring(from);
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }
}
