package splitledger.report;

import java.math.BigInteger;
import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import splitledger.base.CodePoints;

/** Order in which people read labels: runs of digits by their number, so that L2 precedes L10. */
final class NaturalOrder {
    static final Comparator<String> ORDER = NaturalOrder::compare;

    private static final Pattern PIECES = Pattern.compile("[0-9]+|[^0-9]+");

    private NaturalOrder() {}

    private static int compare(String a, String b) {
        final Matcher left = PIECES.matcher(a);
        final Matcher right = PIECES.matcher(b);
        while (true) {
            final boolean more = left.find();
            if (!right.find()) {
                return more ? 1 : CodePoints.ORDER.compare(a, b);
            }
            if (!more) {
                return -1;
            }
            final int byPiece = piece(left.group(), right.group());
            if (byPiece != 0) {
                return byPiece;
            }
        }
    }

    private static int piece(String a, String b) {
        final boolean numbers = isDigit(a.charAt(0)) && isDigit(b.charAt(0));
        return numbers
                ? new BigInteger(a).compareTo(new BigInteger(b))
                : CodePoints.ORDER.compare(a, b);
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }
}
