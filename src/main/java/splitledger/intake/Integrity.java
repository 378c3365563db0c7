package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.study.Doubles;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.State;

/**
 * Signs that rows are not what they seem: areas, injections or whole days that repeat to the last
 * digit, and time stamps out of order. Each is a flag with its rows; nothing is left out for it.
 *
 * <p>An area that occurs twice is told only where chance does not explain it ({@link
 * ChanceRepeats}).
 */
final class Integrity {
    private static final int FEWEST_ALIKE = 3;
    private static final int SAMPLE = 10_000;
    private static final int MOST_AREAS = 200_000;
    private static final List<String> GROUPS =
            List.of(Columns.DAY, Columns.BATCH, "occasion", Columns.PREPARATION);

    private final InjectionTable table;
    private final Reading reading;
    private final InjectionTable.Labels compounds;
    private final Doubles area;

    private Integrity(InjectionTable table, Reading reading) {
        this.table = table;
        this.reading = reading;
        compounds = table.labels(Columns.COMPOUND).orElseThrow();
        area = table.numbers(Columns.AREA).orElseThrow();
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
        return table.state(row) == State.MEASURED && area.at(row) != 0;
    }

    /** Injections whose areas are those of another one, all of them. */
    private void tellInjections(Set<Integer> told) {
        final Set<Long> twice = repeatedHashes();
        final Map<List<Double>, Integer> first = new LinkedHashMap<>();
        int count = 0;
        for (int start = 0, end; start < table.size() && !twice.isEmpty(); start = end) {
            end = endOfInjection(start);
            if (!twice.contains(hash(start, end))) {
                continue;
            }
            final List<Double> areas = new ArrayList<>();
            int measured = 0;
            for (int row = start; row < end; row++) {
                areas.add(counts(row) ? area.at(row) : Double.NaN);
                measured += counts(row) ? 1 : 0;
            }
            final Integer before = first.putIfAbsent(areas, start);
            if (before != null) {
                for (int row = start; row < end; row++) {
                    told.add(row);
                }
                count++;
                tellInjection(count, start, measured, before);
            }
        }
        tellRest(count, "more injections repeat the areas of another one");
    }

    private void tellInjection(int count, int start, int measured, int before) {
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

    /** Hashes that the areas of more than one injection have. */
    private Set<Long> repeatedHashes() {
        final long[] hashes = new long[table.size()];
        int count = 0;
        for (int start = 0, end; start < table.size(); start = end) {
            end = endOfInjection(start);
            final long hash = hash(start, end);
            if (hash != 0) {
                hashes[count++] = hash;
            }
        }
        Arrays.sort(hashes, 0, count);
        final Set<Long> twice = new TreeSet<>();
        for (int i = 1; i < count; i++) {
            if (hashes[i] == hashes[i - 1]) {
                twice.add(hashes[i]);
            }
        }
        return twice;
    }

    /** A hash of the areas of an injection; 0 if it has too few. */
    private long hash(int start, int end) {
        long hash = 1;
        int measured = 0;
        for (int row = start; row < end; row++) {
            final boolean counts = counts(row);
            measured += counts ? 1 : 0;
            final long bits = counts ? Double.doubleToLongBits(area.at(row)) : 0;
            hash = (hash ^ bits) * 0x9E3779B97F4A7C15L;
            hash ^= hash >>> 32;
        }
        return measured < FEWEST_ALIKE ? 0 : hash;
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
        final List<Set<Double>> suspect = new ArrayList<>();
        for (double[] areas : areasByCompound()) {
            suspect.add(ChanceRepeats.suspects(areas));
        }
        if (suspect.stream().allMatch(Set::isEmpty)) {
            return;
        }
        final Map<List<Object>, Integer> first = new LinkedHashMap<>();
        int count = 0;
        for (int row = 0; row < table.size(); row++) {
            final int code = compounds.codes().at(row);
            if (!counts(row) || !suspect.get(code).contains(area.at(row))) {
                continue;
            }
            final Integer before = first.putIfAbsent(List.of(code, area.at(row)), row);
            if (before != null && !told.contains(row)) {
                count++;
                tellArea(count, row, before);
            }
        }
        tellRest(count, "more areas repeat another one of their compound");
    }

    private void tellArea(int count, int row, int before) {
        if (count <= Reading.LISTED) {
            flag(
                    row,
                    "injection " + table.injection(row) + ", " + table.compound(row),
                    "the area "
                            + Numbers.text(area.at(row))
                            + " is that of injection "
                            + table.injection(before)
                            + " ("
                            + where(before)
                            + ") to the last digit");
        }
    }

    /** By code of the compound; none where there are too many. */
    private List<double[]> areasByCompound() {
        final int[] sizes = new int[compounds.labels().size()];
        for (int row = 0; row < table.size(); row++) {
            sizes[compounds.codes().at(row)] += counts(row) ? 1 : 0;
        }
        final List<double[]> areas = new ArrayList<>();
        for (int code = 0; code < sizes.length; code++) {
            if (sizes[code] > MOST_AREAS) {
                reading.flag(
                        Place.NONE,
                        compounds.labels().get(code),
                        "not looked through for single areas that repeat: more than "
                                + MOST_AREAS
                                + " areas");
                sizes[code] = 0;
            }
            areas.add(new double[sizes[code]]);
        }
        for (int row = 0; row < table.size(); row++) {
            final int code = compounds.codes().at(row);
            if (sizes[code] > 0 && counts(row)) {
                areas.get(code)[--sizes[code]] = area.at(row);
            }
        }
        return areas;
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
