package splitledger.intake;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/**
 * Days and times of a workbook, which holds them as numbers of days with a format that shows them
 * as dates (ISO/IEC 29500-1, 18.17.4 and 18.8.30, from memory).
 */
final class WorkbookDates {
    private static final LocalDate FROM_1900 = LocalDate.of(1899, 12, 30);
    private static final LocalDate FROM_1904 = LocalDate.of(1904, 1, 1);

    /** The 1900 system counts a 29 February that there never was as day 60. */
    private static final int NO_SUCH_DAY = 60;

    private static final double LAST_DAY = 2_958_466;
    private static final long MILLIS_A_DAY = 86_400_000L;

    private WorkbookDates() {}

    /** Whether a format shows a number as a day or a time. */
    static boolean isDate(String format) {
        final String plain =
                format.toLowerCase(Locale.ROOT)
                        .replaceAll("\"[^\"]*\"", "")
                        .replaceAll("\\\\.|_.|\\*.", "")
                        .replaceAll("\\[(?!h|m|s)[^\\]]*\\]", "");
        if (plain.equals("general")) {
            return false;
        }
        for (int i = 0; i < plain.length(); i++) {
            if ("ydhms".indexOf(plain.charAt(i)) >= 0) {
                return true;
            }
        }
        return false;
    }

    /**
     * A day as {@code 2026-03-04}, a day and time as {@code 2026-03-04T10:11:12}, a time alone as
     * {@code 10:11:12}; to the millisecond, which is written if it is not 0.
     *
     * @return the text; empty if the number is no day of that calendar
     */
    static String text(double serial, boolean from1904) {
        if (!(serial >= 0 && serial < LAST_DAY)) {
            return "";
        }
        final long millis = Math.round(serial * MILLIS_A_DAY);
        final long days = millis / MILLIS_A_DAY;
        final LocalTime time = LocalTime.MIDNIGHT.plus(millis % MILLIS_A_DAY, ChronoUnit.MILLIS);
        if (!from1904 && days == 0) {
            return clock(time);
        }
        if (!from1904 && days == NO_SUCH_DAY) {
            return "";
        }
        final LocalDate start = from1904 ? FROM_1904 : FROM_1900;
        final LocalDate day = start.plusDays(!from1904 && days < NO_SUCH_DAY ? days + 1 : days);
        return time.equals(LocalTime.MIDNIGHT)
                ? day.toString()
                : day + "T" + clock(LocalDateTime.of(day, time).toLocalTime());
    }

    private static String clock(LocalTime time) {
        final String text = time.toString();
        return text.length() == "10:11".length() ? text + ":00" : text;
    }
}
