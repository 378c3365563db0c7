package splitledger.planning.ahead;

import java.util.List;

/**
 * Injections of one kind on one day.
 *
 * @param series as in the run list
 * @param flask label of one solution, or beginning of the labels of several
 * @param numbered whether solutions are numbered on through the whole study
 * @param levels labels of what is added; one empty label if nothing is known
 * @param preparations independent preparations of each level
 * @param injections of each preparation at each setting
 * @param splits ratios, each set up by itself; empty: the working ratio
 * @param temperatures of the inlet, degC; empty: the working temperature
 * @param occasion empty if none
 * @param onColumn whether injected cold onto the column
 */
record Part(
        String series,
        String flask,
        boolean numbered,
        List<String> levels,
        int preparations,
        int injections,
        List<Double> splits,
        List<Double> temperatures,
        String occasion,
        boolean onColumn) {
    Part {
        levels = List.copyOf(levels);
        splits = List.copyOf(splits);
        temperatures = List.copyOf(temperatures);
    }

    /** Numbered preparations of some levels. */
    static Part made(
            String series, String flask, List<String> levels, int preparations, int injections) {
        return new Part(
                series,
                flask,
                true,
                levels,
                preparations,
                injections,
                List.of(),
                List.of(),
                "",
                false);
    }

    /** Numbered preparations of something whose amount nobody knows. */
    static Part made(String series, String flask, int preparations, int injections) {
        return made(series, flask, List.of(""), preparations, injections);
    }

    /** One solution. */
    static Part of(String series, String flask, String level, int injections) {
        return new Part(
                series,
                flask,
                false,
                List.of(level),
                1,
                injections,
                List.of(),
                List.of(),
                "",
                false);
    }

    Part at(List<Double> ratios, List<Double> degrees) {
        return new Part(
                series,
                flask,
                numbered,
                levels,
                preparations,
                injections,
                ratios,
                degrees,
                occasion,
                onColumn);
    }

    Part preparing(int number) {
        return new Part(
                series,
                flask,
                numbered,
                levels,
                number,
                injections,
                splits,
                temperatures,
                occasion,
                onColumn);
    }

    /** Injections that stay together because the inlet has to settle. */
    int block() {
        return splits.isEmpty() && temperatures.isEmpty() ? 1 : injections;
    }

    /** All its injections. */
    int runs() {
        return levels.size()
                * preparations
                * injections
                * Math.max(1, splits.size())
                * Math.max(1, temperatures.size());
    }

    Part on(String which) {
        return new Part(
                series,
                flask,
                numbered,
                levels,
                preparations,
                injections,
                splits,
                temperatures,
                which,
                onColumn);
    }

    Part cold() {
        return new Part(
                series,
                flask,
                numbered,
                levels,
                preparations,
                injections,
                List.of(1.0),
                temperatures,
                occasion,
                true);
    }
}
