package splitledger.history;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import splitledger.study.Figure;

/** An axis of dates with ticks at round days, months or years. */
final class TimeAxis {
    private static final int[] DAYS = {1, 2, 7, 14};
    private static final int[] MONTHS = {1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200};
    private static final int MOST = 8;
    private static final double MONTH = 30.4;
    private static final double MARGIN = 0.03;
    private static final int MONTH_TEXT = "2026-03".length();

    private TimeAxis() {}

    /**
     * An axis.
     *
     * @param first days since 1970
     * @param last days since 1970
     */
    static Figure.Axis covering(double first, double last) {
        final double span = Math.max(1, last - first);
        final double from = first - MARGIN * span;
        final double to = last + MARGIN * span;
        return new Figure.Axis("date", "", from, to, ticks(from, to));
    }

    private static List<Figure.Tick> ticks(double from, double to) {
        final double span = to - from;
        final List<Figure.Tick> ticks = new ArrayList<>();
        for (int step : DAYS) {
            if (span / step <= MOST) {
                for (long day = (long) Math.ceil(from); day <= to; day += step) {
                    ticks.add(new Figure.Tick((double) day, LocalDate.ofEpochDay(day).toString()));
                }
                return ticks;
            }
        }
        int months = MONTHS[MONTHS.length - 1];
        for (int i = MONTHS.length - 1; i >= 0; i--) {
            months = span / (MONTHS[i] * MONTH) <= MOST ? MONTHS[i] : months;
        }
        final LocalDate begin = LocalDate.ofEpochDay((long) Math.floor(from));
        final int index = begin.getYear() * 12 + begin.getMonthValue() - 1;
        for (int m = index - index % months; ; m += months) {
            final LocalDate date = LocalDate.of(m / 12, m % 12 + 1, 1);
            if (date.toEpochDay() > to) {
                return ticks;
            }
            if (date.toEpochDay() >= from) {
                ticks.add(
                        new Figure.Tick(
                                (double) date.toEpochDay(),
                                months % 12 == 0
                                        ? Integer.toString(date.getYear())
                                        : date.toString().substring(0, MONTH_TEXT)));
            }
        }
    }
}
