package splitledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.study.Figure;

class StudyTimeTest {
    @Test
    void readsDatesAndTimesWithAndWithoutZone() {
        assertThat(StudyTime.days("1970-01-02")).hasValue(1);
        assertThat(StudyTime.days("1970-01-02T12:00:00")).hasValue(1.5);
        assertThat(StudyTime.days("1970-01-02 12:00:00")).hasValue(1.5);
        assertThat(StudyTime.days("1970-01-02T12:00:00+06:00")).hasValue(1.25);
        assertThat(StudyTime.days("02.01.1970")).isEmpty();
        assertThat(StudyTime.days("1970-13-02")).isEmpty();
        assertThat(StudyTime.days("D01")).isEmpty();
        assertThat(StudyTime.day("2026-03-04T08:00:00")).isEqualTo("2026-03-04");
    }

    @Test
    void ticksStandAtRoundDates() {
        final double first = LocalDate.of(2024, 1, 8).toEpochDay();
        final List<String> months = texts(first, first + 180);
        final List<String> years = texts(first, first + 3000);

        assertThat(texts(first, first + 3)).contains("2024-01-08", "2024-01-11");
        assertThat(months).contains("2024-02", "2024-07").hasSizeLessThan(10);
        assertThat(years).contains("2026", "2030").hasSizeLessThan(10);
        assertThat(texts(first, first)).contains("2024-01-08");
    }

    private static List<String> texts(double from, double to) {
        return TimeAxis.covering(from, to).ticks().stream().map(Figure.Tick::text).toList();
    }
}
