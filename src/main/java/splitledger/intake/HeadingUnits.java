package splitledger.intake;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Units that stand behind a heading, such as {@code amount [mg/L]} or {@code area (pA*s)}. */
final class HeadingUnits {
    private static final Pattern WITH_UNIT =
            Pattern.compile("(.*?)\\s*(?:\\[([^\\[\\]]{1,40})\\]|\\(([^()]{1,40})\\))");

    private HeadingUnits() {}

    /** The unit that a heading says; empty if it says none that is known. */
    static String unitOf(String heading) {
        final Matcher matcher = WITH_UNIT.matcher(heading);
        if (!matcher.matches()) {
            return "";
        }
        final String unit = matcher.group(2) == null ? matcher.group(3) : matcher.group(2);
        return Units.of(unit).isPresent() ? unit.strip() : "";
    }

    /** A heading without its unit, if without it is a name for numbers; else as it stands. */
    static String bare(String heading) {
        final Matcher matcher = WITH_UNIT.matcher(heading);
        final boolean hasUnit = !unitOf(heading).isEmpty();
        return hasUnit && matcher.matches() && Columns.NUMBERS.contains(matcher.group(1))
                ? matcher.group(1)
                : heading;
    }
}
