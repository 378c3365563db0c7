package splitledger.base;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/**
 * "Did you mean": the known word that is nearest to a word met, by edits (insert, delete, replace,
 * swap neighbours).
 */
public final class Nearest {
    /** Longer texts are no words, and comparing them would take long. */
    private static final int LONGEST = 200;

    /** How many known words a hint lists. */
    private static final int MOST = 50;

    private Nearest() {}

    /**
     * The nearest of the known words, if it is near enough (a third of its letters, at least one
     * edit) ignoring case; the first of equals in the order given.
     */
    public static Optional<String> to(String met, Collection<String> known) {
        String best = "";
        int least = Integer.MAX_VALUE;
        if (met.length() > LONGEST) {
            return Optional.empty();
        }
        for (String word : known) {
            if (word.length() > LONGEST) {
                continue;
            }
            final int distance =
                    distance(met.toLowerCase(Locale.ROOT), word.toLowerCase(Locale.ROOT));
            if (distance < least) {
                least = distance;
                best = word;
            }
        }
        final int allowed = Math.max(1, Math.max(met.length(), best.length()) / 3);
        return least <= allowed ? Optional.of(best) : Optional.empty();
    }

    /** A hint "did you mean 'x'?", or the list of what is known where nothing is near. */
    public static String hint(String met, Collection<String> known) {
        return to(met, known)
                .map(word -> "did you mean '" + word + "'?")
                .orElseGet(() -> known.isEmpty() ? "" : listed(known));
    }

    private static String listed(Collection<String> known) {
        final String all = "known here: " + String.join(", ", known.stream().limit(MOST).toList());
        return known.size() > MOST ? all + " and " + (known.size() - MOST) + " more" : all;
    }

    private static int distance(String a, String b) {
        final int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            d[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            d[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                final int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] =
                        Math.min(Math.min(d[i - 1][j], d[i][j - 1]) + 1, d[i - 1][j - 1] + change);
                final boolean swapped =
                        i > 1
                                && j > 1
                                && a.charAt(i - 1) == b.charAt(j - 2)
                                && a.charAt(i - 2) == b.charAt(j - 1);
                if (swapped) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
