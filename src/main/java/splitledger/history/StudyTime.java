package splitledger.history;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol;
import splitledger.study.Study;

/**
 * When a study was made: its first injection, else a date that the protocol states, else the last
 * work on the instrument that it names. Never the time of a file.
 *
 * @param text ISO 8601, as stated
 * @param from what told it
 */
public record StudyTime(String text, String from) {
    private static final double DAY = 86_400;
    private static final int DATE = "2026-03-04".length();

    /** Empty if the study tells no time. */
    public static Optional<StudyTime> of(Study study) {
        return first(column(study, "acquired"))
                .map(t -> new StudyTime(t, "first injection"))
                .or(() -> first(column(study, "day")).map(t -> new StudyTime(t, "first day")))
                .or(
                        () ->
                                first(stated(study.protocol()))
                                        .map(t -> new StudyTime(t, "date in the protocol")))
                .or(
                        () ->
                                study.protocol().events().stream()
                                        .map(Protocol.Event::date)
                                        .filter(t -> days(t).isPresent())
                                        .max(Comparator.comparingDouble(StudyTime::sure))
                                        .map(t -> new StudyTime(t, "last work in the protocol")));
    }

    private static Optional<String> first(Stream<String> texts) {
        return texts.filter(t -> days(t).isPresent())
                .min(Comparator.comparingDouble(StudyTime::sure));
    }

    private static Stream<String> column(Study study, String name) {
        final InjectionTable table = study.everything().orElse(study.table());
        return table.labels(name).map(l -> l.labels().stream()).orElse(Stream.empty());
    }

    private static Stream<String> stated(Protocol protocol) {
        return Stream.of(protocol.laboratory(), protocol.instrument())
                .flatMap(
                        facts ->
                                List.of("date", "studied", "measured").stream()
                                        .filter(facts::containsKey)
                                        .map(name -> facts.getOrDefault(name, "")));
    }

    private static double sure(String text) {
        return days(text).orElse(Double.NaN);
    }

    /** Days since 1970, without a zone as if in UTC; empty if the text is no ISO 8601 time. */
    static OptionalDouble days(String text) {
        final String iso = text.strip().replaceFirst("^(\\d{4}-\\d{2}-\\d{2}) (?=\\d)", "$1T");
        try {
            if (iso.length() == DATE) {
                return OptionalDouble.of((double) LocalDate.parse(iso).toEpochDay());
            }
            final boolean zoned = iso.endsWith("Z") || iso.matches(".*[+-]\\d{2}:?\\d{2}$");
            final OffsetDateTime time =
                    zoned
                            ? OffsetDateTime.parse(iso)
                            : LocalDateTime.parse(iso).atOffset(ZoneOffset.UTC);
            return OptionalDouble.of(time.toEpochSecond() / DAY);
        } catch (DateTimeException e) {
            return OptionalDouble.empty();
        }
    }

    /** The day of a time, as text. */
    static String day(String text) {
        return text.length() > DATE ? text.substring(0, DATE) : text;
    }
}
