package splitledger.intake;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.study.InjectionTable;
import splitledger.study.Place;

/**
 * Looks whether the times at which injections were acquired follow the order in which they stand:
 * run order where a column tells it, else the order of each file.
 */
final class TimeStamps {
    private static final int DATE = "2026-03-04".length();

    private final InjectionTable table;
    private final Reading reading;
    private int disordered;
    private int unread;
    private int firstUnread;

    private TimeStamps(InjectionTable table, Reading reading) {
        this.table = table;
        this.reading = reading;
    }

    /** Tells each injection that was acquired before the one it stands behind. */
    static void tell(InjectionTable table, Reading reading) {
        if (table.has(Columns.ACQUIRED)) {
            new TimeStamps(table, reading).tell();
        }
    }

    /** Seconds since 1970, without a zone as if in UTC; empty if the text is no ISO 8601 time. */
    static OptionalDouble seconds(String text) {
        final String iso = text.replaceFirst("^(\\d{4}-\\d{2}-\\d{2}) (?=\\d)", "$1T");
        try {
            if (iso.length() == DATE) {
                return OptionalDouble.of(86_400.0 * LocalDate.parse(iso).toEpochDay());
            }
            final boolean zoned = iso.endsWith("Z") || iso.matches(".*[+-]\\d{2}:?\\d{2}$");
            final OffsetDateTime time =
                    zoned
                            ? OffsetDateTime.parse(iso)
                            : LocalDateTime.parse(iso).atOffset(ZoneOffset.UTC);
            return OptionalDouble.of(time.toEpochSecond() + time.getNano() * 1e-9);
        } catch (DateTimeParseException e) {
            return OptionalDouble.empty();
        }
    }

    private void tell() {
        Optional<Integer> last = Optional.empty();
        double lastTime = 0;
        for (int row = 0; row < table.size(); row++) {
            final String text = table.label(Columns.ACQUIRED, row);
            final boolean again = row > 0 && table.sameLabel(Columns.INJECTION, row - 1, row);
            if (again || text.isEmpty()) {
                continue;
            }
            final OptionalDouble time = seconds(text);
            if (time.isEmpty()) {
                firstUnread = unread == 0 ? row : firstUnread;
                unread++;
                continue;
            }
            final boolean together =
                    last.isPresent()
                            && (table.has(Columns.ORDER)
                                    || table.place(last.get())
                                            .file()
                                            .equals(table.place(row).file()));
            if (together) {
                compare(last.orElse(0), lastTime, row, time.getAsDouble(), text);
            }
            last = Optional.of(row);
            lastTime = time.getAsDouble();
        }
        tellRest();
    }

    private void compare(int last, double lastTime, int row, double time, String text) {
        final boolean sameTime = time == lastTime && text.length() > DATE;
        if (time >= lastTime && !sameTime) {
            return;
        }
        disordered++;
        if (disordered <= Reading.LISTED) {
            reading.flag(
                    table.place(row),
                    "injection " + table.injection(row),
                    (sameTime ? "acquired at the same time as" : "acquired before")
                            + " injection "
                            + table.injection(last)
                            + ", behind which it stands (line "
                            + table.place(last).row()
                            + " of "
                            + table.place(last).file()
                            + ")");
        }
    }

    private void tellRest() {
        if (disordered > Reading.LISTED) {
            reading.flag(
                    Place.NONE,
                    Columns.ACQUIRED,
                    (disordered - Reading.LISTED) + " more time stamps are out of order");
        }
        if (unread > 0) {
            reading.flag(
                    table.place(firstUnread),
                    Columns.ACQUIRED,
                    unread
                            + (unread == 1 ? " time stamp is" : " time stamps are")
                            + " not of the form 2026-03-04T10:15:00 (ISO 8601): their order"
                            + " cannot be told");
        }
    }
}
