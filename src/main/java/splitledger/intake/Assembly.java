package splitledger.intake;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import splitledger.base.Problem;
import splitledger.study.Compounds;

/**
 * Puts the tables of areas together: one row for each injection and compound of the study, whether
 * a table has it or not.
 */
final class Assembly {
    private final List<RawTable> tables;
    private final Compounds compounds;
    private final Reading reading;
    private final int[] tableOf;
    private final int[] rowOf;
    private final String[] injections;
    private final String[] peaks;
    private final int[] injectionOf;

    private Assembly(List<RawTable> tables, Compounds compounds, Reading reading) {
        this.tables = tables;
        this.compounds = compounds;
        this.reading = reading;
        final int size = tables.stream().mapToInt(RawTable::rows).sum();
        tableOf = new int[size];
        rowOf = new int[size];
        injections = new String[size];
        peaks = new String[size];
        injectionOf = new int[size];
    }

    /** The names of peaks that the tables have. */
    static Set<String> present(List<RawTable> tables) {
        final Set<String> names = new TreeSet<>();
        for (RawTable table : tables) {
            names.addAll(Arrays.asList(table.labels(Columns.COMPOUND)));
        }
        names.remove("");
        return names;
    }

    /**
     * Lays tables of areas over one grid.
     *
     * @param tables in the order of the protocol
     */
    static Frame of(List<RawTable> tables, Compounds compounds, Reading reading) {
        final Assembly assembly = new Assembly(tables, compounds, reading);
        final List<String> distinct = assembly.stack();
        assembly.refuseRepeats();
        return assembly.frame(distinct);
    }

    /** Numbers all rows through; the distinct injections in the order of the files. */
    private List<String> stack() {
        final Map<String, Integer> codes = new LinkedHashMap<>();
        int at = 0;
        for (int t = 0; t < tables.size(); t++) {
            final String[] injection = tables.get(t).labels(Columns.INJECTION);
            final String[] peak = tables.get(t).labels(Columns.COMPOUND);
            for (int r = 0; r < injection.length; r++) {
                tableOf[at] = t;
                rowOf[at] = r;
                injections[at] = injection[r];
                peaks[at] = peak[r];
                final Integer before = codes.putIfAbsent(injection[r], codes.size());
                injectionOf[at] = before == null ? codes.size() - 1 : before;
                at++;
            }
        }
        return List.copyOf(codes.keySet());
    }

    private void refuseRepeats() {
        final Set<String> told = new LinkedHashSet<>();
        int more = 0;
        for (LabelTables.Repeat repeat : LabelTables.repeats(List.of(injections, peaks))) {
            final String first = "line " + line(repeat.first()) + " of " + file(repeat.first());
            if (!told.add(first + file(repeat.second()) + line(repeat.second()))) {
                continue;
            }
            if (told.size() > Reading.LISTED) {
                more++;
                continue;
            }
            final boolean wide = tables.get(tableOf[repeat.second()]).spec().wide();
            tell(repeat, first, wide);
        }
        if (more > 0) {
            reading.problem(
                    new Problem(
                            tables.get(0).spec().file(),
                            0,
                            Columns.INJECTION,
                            more + " more repeated rows",
                            "rows as above",
                            "mend the tables as a whole"));
        }
    }

    private void tell(LabelTables.Repeat repeat, String first, boolean wide) {
        final int row = repeat.second();
        reading.problem(
                new Problem(
                        file(row),
                        line(row),
                        Columns.INJECTION,
                        "injection '"
                                + injections[row]
                                + (wide ? "'" : "' with compound '" + peaks[row] + "'")
                                + " a second time",
                        wide
                                ? "one row for each injection"
                                : "one row for each injection and compound",
                        "it stands in "
                                + first
                                + " already: keep one of them, or give each injection a label of its"
                                + " own"));
    }

    private Frame frame(List<String> distinct) {
        final Frame frame =
                new Frame(
                        distinct,
                        compounds.all(),
                        tables.stream().map(t -> t.spec().file()).toList());
        final int k = frame.compounds().size();
        final int[] firstRow = firstRows(distinct.size());
        final int[] source = sources(frame);
        for (int i = 0; i < source.length; i++) {
            final int from = source[i] < 0 ? firstRow[i / k] : source[i];
            frame.place(i, tableOf[from], line(from));
            if (source[i] >= 0) {
                frame.state(i, tables.get(tableOf[from]).state(rowOf[from]));
            }
        }
        final Set<String> labels = new TreeSet<>();
        final Set<String> numbers = new TreeSet<>();
        tables.forEach(
                t -> {
                    labels.addAll(t.labels().keySet());
                    numbers.addAll(t.numbers().keySet());
                });
        labels.removeAll(List.of(Columns.INJECTION, Columns.COMPOUND));
        labels.forEach(name -> fillLabels(frame, name, source));
        numbers.forEach(name -> fillNumbers(frame, name, source));
        return frame;
    }

    private int[] firstRows(int count) {
        final int[] first = new int[count];
        Arrays.fill(first, -1);
        for (int row = 0; row < injectionOf.length; row++) {
            if (first[injectionOf[row]] < 0) {
                first[injectionOf[row]] = row;
            }
        }
        return first;
    }

    /** The stacked row of each cell of the grid, -1 where no table has one. */
    private int[] sources(Frame frame) {
        final LabelTables.Match match =
                LabelTables.match(
                        List.of(frame.labels(Columns.INJECTION), frame.labels(Columns.COMPOUND)),
                        List.of(injections, peaks));
        return IntStream.range(0, frame.size()).map(match::rightOf).toArray();
    }

    private void fillLabels(Frame frame, String name, int[] source) {
        final String[] stacked = new String[injections.length];
        for (int row = 0; row < stacked.length; row++) {
            final String[] column = tables.get(tableOf[row]).labels().get(name);
            stacked[row] = column == null ? "" : column[rowOf[row]];
        }
        final String[] common =
                Columns.OF_PEAK.contains(name) ? new String[0] : common(frame, stacked);
        final String[] into = frame.labels(name);
        final int k = frame.compounds().size();
        for (int i = 0; i < source.length; i++) {
            if (source[i] >= 0) {
                into[i] = stacked[source[i]];
            } else if (common.length > 0) {
                into[i] = common[i / k];
            }
        }
    }

    private void fillNumbers(Frame frame, String name, int[] source) {
        final double[] stacked =
                IntStream.range(0, injections.length)
                        .mapToDouble(
                                row -> {
                                    final double[] column =
                                            tables.get(tableOf[row]).numbers().get(name);
                                    return column == null ? Double.NaN : column[rowOf[row]];
                                })
                        .toArray();
        final double[] common =
                Columns.OF_PEAK.contains(name) ? new double[0] : common(frame, stacked);
        final double[] into = frame.numbers(name);
        final int k = frame.compounds().size();
        for (int i = 0; i < source.length; i++) {
            if (source[i] >= 0) {
                into[i] = stacked[source[i]];
            } else if (common.length > 0) {
                into[i] = common[i / k];
            }
        }
    }

    /** The label that all rows of an injection share; empty where they differ. */
    private String[] common(Frame frame, String[] stacked) {
        final String[] common = new String[frame.injections().size()];
        final boolean[] differs = new boolean[common.length];
        Arrays.fill(common, "");
        final boolean[] seen = new boolean[common.length];
        for (int row = 0; row < stacked.length; row++) {
            final int i = injectionOf[row];
            differs[i] |= seen[i] && !common[i].equals(stacked[row]);
            common[i] = stacked[row];
            seen[i] = true;
        }
        for (int i = 0; i < common.length; i++) {
            common[i] = differs[i] ? "" : common[i];
        }
        return common;
    }

    /** The number that all rows of an injection share; NaN where they differ. */
    private double[] common(Frame frame, double[] stacked) {
        final double[] common = new double[frame.injections().size()];
        final boolean[] differs = new boolean[common.length];
        final boolean[] seen = new boolean[common.length];
        Arrays.fill(common, Double.NaN);
        for (int row = 0; row < stacked.length; row++) {
            final int i = injectionOf[row];
            differs[i] |= seen[i] && Double.compare(common[i], stacked[row]) != 0;
            common[i] = stacked[row];
            seen[i] = true;
        }
        for (int i = 0; i < common.length; i++) {
            common[i] = differs[i] ? Double.NaN : common[i];
        }
        return common;
    }

    private String file(int row) {
        return tables.get(tableOf[row]).spec().file();
    }

    private int line(int row) {
        return tables.get(tableOf[row]).line(rowOf[row]);
    }
}
