package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.State;

/**
 * Signs that rows are not what they seem: areas, injections or whole days that repeat to the last
 * digit, and time stamps out of order. Each is a flag with its rows; nothing is left out for it.
 *
 * <p>An area that occurs twice is told only where chance does not explain it: with k areas within
 * half a percent of it, written in steps of q, about (k - 1) q / (1 % of the area) of them would
 * equal it by chance, and this must be below 1 in 1000 (our own rule, no source).
 */
final class Integrity {
    private static final double CHANCE = 0.001;
    private static final double WINDOW = 0.01;
    private static final int FEWEST_ALIKE = 3;
    private static final int SAMPLE = 10_000;
    private static final int MOST_DECIMALS = 9;
    private static final double NEAR = 1e-9;
    private static final List<String> GROUPS =
            List.of(Columns.DAY, Columns.BATCH, "occasion", Columns.PREPARATION);

    private final InjectionTable table;
    private final Reading reading;

    private Integrity(InjectionTable table, Reading reading) {
        this.table = table;
        this.reading = reading;
    }

    /** Tells all signs. */
    static void tell(InjectionTable table, Reading reading) {
        final Integrity integrity = new Integrity(table, reading);
        final Set<Integer> told = new TreeSet<>();
        integrity.tellInjections(told);
        integrity.tellAreas(told);
        GROUPS.stream().filter(table::has).forEach(integrity::tellGroups);
        TimeStamps.tell(table, reading);
    }

    private boolean counts(int row) {
        return table.state(row) == State.MEASURED && table.area(row) != 0;
    }

    /** Injections whose areas are those of another one, all of them. */
    private void tellInjections(Set<Integer> told) {
        final Map<List<Double>, Integer> first = new LinkedHashMap<>();
        int count = 0;
        for (int start = 0, end; start < table.size(); start = end) {
            end = endOfInjection(start);
            final List<Double> areas = new ArrayList<>();
            int measured = 0;
            for (int row = start; row < end; row++) {
                areas.add(counts(row) ? table.area(row) : Double.NaN);
                measured += counts(row) ? 1 : 0;
            }
            if (measured < FEWEST_ALIKE) {
                continue;
            }
            final Integer before = first.putIfAbsent(areas, start);
            if (before != null) {
                for (int row = start; row < end; row++) {
                    told.add(row);
                }
                count++;
                if (count <= Reading.LISTED) {
                    flag(
                            start,
                            "injection " + table.injection(start),
                            "all its "
                                    + measured
                                    + " areas are those of injection "
                                    + table.injection(before)
                                    + " ("
                                    + where(before)
                                    + ") to the last digit");
                }
            }
        }
        tellRest(count, "more injections repeat the areas of another one");
    }

    private int endOfInjection(int start) {
        int end = start + 1;
        while (end < table.size() && table.sameLabel(Columns.INJECTION, start, end)) {
            end++;
        }
        return end;
    }

    /** Areas of one compound that occur twice though chance does not explain it. */
    private void tellAreas(Set<Integer> told) {
        final Map<String, double[]> areas = areasByCompound();
        final Map<String, Set<Double>> suspect = new LinkedHashMap<>();
        areas.forEach((compound, all) -> suspect.put(compound, suspects(all)));
        final Map<String, Integer> first = new LinkedHashMap<>();
        int count = 0;
        for (int row = 0; row < table.size(); row++) {
            final String compound = table.compound(row);
            final Set<Double> values = suspect.getOrDefault(compound, new TreeSet<>());
            if (values.isEmpty() || !counts(row) || !values.contains(table.area(row))) {
                continue;
            }
            final Integer before = first.putIfAbsent(compound + "\n" + table.area(row), row);
            if (before != null && !told.contains(row)) {
                count++;
                if (count <= Reading.LISTED) {
                    flag(
                            row,
                            "injection " + table.injection(row) + ", " + compound,
                            "the area "
                                    + Numbers.text(table.area(row))
                                    + " is that of injection "
                                    + table.injection(before)
                                    + " ("
                                    + where(before)
                                    + ") to the last digit");
                }
            }
        }
        tellRest(count, "more areas repeat another one of their compound");
    }

    private Map<String, double[]> areasByCompound() {
        final Map<String, int[]> sizes = new LinkedHashMap<>();
        for (int row = 0; row < table.size(); row++) {
            if (counts(row)) {
                sizes.computeIfAbsent(table.compound(row), c -> new int[1])[0]++;
            }
        }
        final Map<String, double[]> areas = new LinkedHashMap<>();
        sizes.forEach((compound, size) -> areas.put(compound, new double[size[0]]));
        for (int row = 0; row < table.size(); row++) {
            final double[] all = areas.get(table.compound(row));
            if (all != null && counts(row)) {
                all[--sizes.getOrDefault(table.compound(row), new int[1])[0]] = table.area(row);
            }
        }
        return areas;
    }

    /** The values that occur more than once though chance does not explain it. */
    private static Set<Double> suspects(double[] areas) {
        final double step = step(areas);
        Arrays.sort(areas);
        final Set<Double> suspects = new TreeSet<>();
        for (int i = 1; i < areas.length; i++) {
            if (areas[i] != areas[i - 1]) {
                continue;
            }
            final double size = Math.abs(areas[i]);
            final double most = CHANCE * WINDOW * size / step + 1;
            if (most < 2 || isCrowded(areas, i, most, size * WINDOW / 2)) {
                continue;
            }
            suspects.add(areas[i]);
        }
        return suspects;
    }

    /** Whether more than so many sorted values lie within a distance of one of them. */
    private static boolean isCrowded(double[] sorted, int at, double most, double distance) {
        int low = at;
        int high = at;
        while (high - low + 1 <= most) {
            if (low > 0 && sorted[at] - sorted[low - 1] <= distance) {
                low--;
            } else if (high + 1 < sorted.length && sorted[high + 1] - sorted[at] <= distance) {
                high++;
            } else {
                return false;
            }
        }
        return true;
    }

    /** The step in which areas are written: a power of ten, from the first of them. */
    private static double step(double[] areas) {
        int decimals = 0;
        double power = 1;
        for (int i = 0; i < Math.min(areas.length, SAMPLE); i++) {
            while (decimals < MOST_DECIMALS && !isWhole(areas[i] * power)) {
                decimals++;
                power *= 10;
            }
        }
        return 1 / power;
    }

    private static boolean isWhole(double value) {
        return Math.abs(value - Math.rint(value)) <= NEAR * Math.max(1, Math.abs(value));
    }

    /** Days, batches, occasions or preparations that hold the same areas. */
    private void tellGroups(String column) {
        final Map<String, List<String>> areas = new LinkedHashMap<>();
        final Map<String, Integer> firstRow = new LinkedHashMap<>();
        if (table.labels(column).map(l -> l.labels().size() > SAMPLE).orElse(true)
                || table.size() > SAMPLE * SAMPLE / 100) {
            return;
        }
        for (int row = 0; row < table.size(); row++) {
            final String label = table.label(column, row);
            if (!label.isEmpty() && counts(row)) {
                areas.computeIfAbsent(label, l -> new ArrayList<>())
                        .add(table.compound(row) + "\n" + table.area(row));
                firstRow.putIfAbsent(label, row);
            }
        }
        final Map<List<String>, String> first = new LinkedHashMap<>();
        areas.forEach(
                (label, all) -> {
                    if (all.size() < FEWEST_ALIKE) {
                        return;
                    }
                    all.sort(null);
                    final String before = first.putIfAbsent(all, label);
                    if (before != null) {
                        flag(
                                firstRow.getOrDefault(label, 0),
                                column + " " + label,
                                "its "
                                        + all.size()
                                        + " areas are those of "
                                        + column
                                        + " "
                                        + before
                                        + " ("
                                        + where(firstRow.getOrDefault(before, 0))
                                        + "): the two are not independent");
                    }
                });
    }

    private void flag(int row, String subject, String what) {
        reading.flag(table.place(row), subject, what);
    }

    private void tellRest(int count, String what) {
        if (count > Reading.LISTED) {
            reading.flag(Place.NONE, "areas", (count - Reading.LISTED) + " " + what);
        }
    }

    private String where(int row) {
        return "line " + table.place(row).row() + " of " + table.place(row).file();
    }
}
