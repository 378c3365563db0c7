package splitledger.history;

import java.util.List;

/**
 * What many studies found over time, wherever it was read from.
 *
 * @param studies the studies that count
 * @param values their findings, in any order
 * @param works what was done to the instruments
 * @param leftOut what was met and does not count
 */
public record History(
        List<Dated> studies, List<DatedValue> values, List<Work> works, List<LeftOut> leftOut) {
    public History {
        studies = List.copyOf(studies);
        values = List.copyOf(values);
        works = List.copyOf(works);
        leftOut = List.copyOf(leftOut);
    }

    /**
     * A study.
     *
     * @param dossier where it lies
     * @param instrument its instrument
     * @param time ISO 8601
     * @param from what told the time
     */
    public record Dated(String dossier, String instrument, String time, String from) {}

    /**
     * Work on an instrument.
     *
     * @param date ISO 8601
     */
    public record Work(String instrument, String date, String what) {
        /** Its date in days since 1970. */
        double days() {
            return StudyTime.days(date).orElse(Double.NaN);
        }
    }

    /**
     * Something that does not count.
     *
     * @param what a dossier, an archive or a date
     * @param why in words
     * @param damaged whether it should be what it is not, so that someone has to look
     */
    public record LeftOut(String what, String why, boolean damaged) {}
}
