package splitledger.intake;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.Problem;
import splitledger.study.Compounds;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.State;

/**
 * Puts the tables of areas together: one row for each injection and compound of the study, whether
 * a table has it or not. Rows of all tables are numbered through ("stacked").
 */
final class Assembly {
    private static final int NOWHERE = -1;

    private final List<RawTable> tables;
    private final Compounds compounds;
    private final Reading reading;
    private final int[] firstOf;
    private final int[] tableOf;
    private final int[] injectionOf;
    private final Set<String> told = new LinkedHashSet<>();
    private int more;

    private Assembly(List<RawTable> tables, Compounds compounds, Reading reading) {
        this.tables = tables;
        this.compounds = compounds;
        this.reading = reading;
        firstOf = new int[tables.size()];
        int size = 0;
        for (int t = 0; t < firstOf.length; t++) {
            firstOf[t] = size;
            size = Math.addExact(size, tables.get(t).rows());
        }
        tableOf = new int[size];
        injectionOf = new int[size];
    }

    /** The names of peaks that the tables have. */
    static Set<String> present(List<RawTable> tables) {
        final Set<String> names = new TreeSet<>();
        for (RawTable table : tables) {
            names.addAll(table.labels(Columns.COMPOUND).labels());
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
        return assembly.frame(assembly.stack());
    }

    /** Numbers all rows through; the distinct injections in the order of the files. */
    private List<String> stack() {
        if (tables.size() == 1) {
            final Coded only = tables.get(0).labels(Columns.INJECTION);
            Arrays.setAll(injectionOf, only::code);
            return only.labels();
        }
        final Map<String, Integer> codes = new LinkedHashMap<>();
        for (int t = 0; t < tables.size(); t++) {
            final Coded injection = tables.get(t).labels(Columns.INJECTION);
            final int[] global = new int[injection.labels().size()];
            for (int c = 0; c < global.length; c++) {
                final Integer before = codes.putIfAbsent(injection.labels().get(c), codes.size());
                global[c] = before == null ? codes.size() - 1 : before;
            }
            for (int r = 0; r < injection.size(); r++) {
                tableOf[firstOf[t] + r] = t;
                injectionOf[firstOf[t] + r] = global[injection.code(r)];
            }
        }
        return List.copyOf(codes.keySet());
    }

    private Frame frame(List<String> distinct) {
        final Frame frame =
                new Frame(
                        distinct,
                        compounds.all(),
                        tables.stream().map(t -> t.spec().file()).toList());
        final int k = frame.compounds().size();
        final int[] source = sources(frame);
        final int[] firstRow = firstRows(distinct.size());
        for (int i = 0; i < source.length; i++) {
            final int from = source[i] < 0 ? firstRow[i / k] : source[i];
            frame.place(i, tableOf[from], line(from));
            if (source[i] >= 0) {
                frame.state(i, state(from));
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
        if (tables.size() == 1 && isInOrder(source)) {
            final RawTable only = tables.get(0);
            labels.forEach(name -> frame.adopt(name, only.labels(name)));
            only.numbers().forEach(frame::adopt);
            return frame;
        }
        labels.forEach(name -> fillLabels(frame, name, source));
        numbers.forEach(name -> fillNumbers(frame, name, source));
        return frame;
    }

    /** Whether the rows of the tables are those of the frame, one by one. */
    private boolean isInOrder(int[] source) {
        if (source.length != tableOf.length) {
            return false;
        }
        for (int i = 0; i < source.length; i++) {
            if (source[i] != i) {
                return false;
            }
        }
        return true;
    }

    private int[] firstRows(int count) {
        final int[] first = new int[count];
        Arrays.fill(first, NOWHERE);
        for (int row = 0; row < injectionOf.length; row++) {
            if (first[injectionOf[row]] < 0) {
                first[injectionOf[row]] = row;
            }
        }
        return first;
    }

    /** The stacked row of each cell of the grid, -1 where no table has one. */
    private int[] sources(Frame frame) {
        final int k = frame.compounds().size();
        final int[] source = new int[frame.size()];
        Arrays.fill(source, NOWHERE);
        for (int t = 0; t < tables.size(); t++) {
            final Coded peak = tables.get(t).labels(Columns.COMPOUND);
            final int[] compound =
                    peak.labels().stream().mapToInt(frame.compounds()::indexOf).toArray();
            for (int r = 0; r < peak.size(); r++) {
                final int row = firstOf[t] + r;
                if (compound[peak.code(r)] >= 0) {
                    final int cell = injectionOf[row] * k + compound[peak.code(r)];
                    source[cell] = source[cell] < 0 ? row : oneOf(source[cell], row);
                }
            }
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
        return source;
    }

    /** Of two rows for one cell the one that replaces the other; a problem if neither does. */
    private int oneOf(int first, int second) {
        final boolean firstGone = isReplaced(first);
        if (!firstGone && !isReplaced(second)) {
            tellRepeat(first, second);
            return first;
        }
        final int gone = firstGone ? first : second;
        final int stays = firstGone ? second : first;
        reading.flag(
                new Place(file(gone), line(gone), ""),
                "injection " + injection(gone) + ", " + compound(gone),
                state(gone).code().replace('-', ' ')
                        + ": line "
                        + line(stays)
                        + " of "
                        + file(stays)
                        + " takes its place");
        return stays;
    }

    private boolean isReplaced(int row) {
        return state(row) == State.RE_INJECTED || state(row) == State.ABORTED;
    }

    private void tellRepeat(int first, int second) {
        final String where = "line " + line(first) + " of " + file(first);
        if (!told.add(where + file(second) + line(second))) {
            return;
        }
        if (told.size() > Reading.LISTED) {
            more++;
            return;
        }
        final boolean wide = tables.get(tableOf[second]).spec().wide();
        final boolean apart = tableOf[first] != tableOf[second];
        reading.problem(
                new Problem(
                        file(second),
                        line(second),
                        Columns.INJECTION,
                        "injection '"
                                + injection(second)
                                + (wide ? "'" : "' with compound '" + compound(second) + "'")
                                + " a second time",
                        wide
                                ? "one row for each injection"
                                : "one row for each injection and compound",
                        "it stands in "
                                + where
                                + " already: keep one of them, or give each injection a label of its"
                                + " own"
                                + (apart ? " (prefix: TEXT at one of the tables does that)" : "")));
    }

    private void fillLabels(Frame frame, String name, int[] source) {
        final Frame.Column into = frame.labels(name);
        final int[] stacked = new int[tableOf.length];
        for (int t = 0; t < tables.size(); t++) {
            final Coded column = tables.get(t).labels().get(name);
            if (column != null) {
                final int[] codes = into.codes(column);
                for (int r = 0; r < column.size(); r++) {
                    stacked[firstOf[t] + r] = codes[column.code(r)];
                }
            }
        }
        final boolean ofPeak = Columns.OF_PEAK.contains(name);
        final int[] common = ofPeak ? new int[0] : shared(frame).codes(stacked);
        final int k = frame.compounds().size();
        for (int i = 0; i < source.length; i++) {
            if (source[i] >= 0) {
                into.put(i, stacked[source[i]]);
            } else if (!ofPeak) {
                into.put(i, common[i / k]);
            }
        }
    }

    private void fillNumbers(Frame frame, String name, int[] source) {
        final double[] stacked = new double[tableOf.length];
        for (int t = 0; t < tables.size(); t++) {
            final double[] column = tables.get(t).numbers().get(name);
            final int rows = tables.get(t).rows();
            if (column == null) {
                Arrays.fill(stacked, firstOf[t], firstOf[t] + rows, Double.NaN);
            } else {
                System.arraycopy(column, 0, stacked, firstOf[t], rows);
            }
        }
        final boolean ofPeak = Columns.OF_PEAK.contains(name);
        final double[] common = ofPeak ? new double[0] : shared(frame).numbers(stacked);
        final double[] into = frame.numbers(name);
        final int k = frame.compounds().size();
        for (int i = 0; i < source.length; i++) {
            if (source[i] >= 0) {
                into[i] = stacked[source[i]];
            } else if (!ofPeak) {
                into[i] = common[i / k];
            }
        }
    }

    private SharedByInjection shared(Frame frame) {
        return new SharedByInjection(
                InjectionTable.Codes.handedOver(injectionOf), frame.injections().size());
    }

    private String file(int row) {
        return tables.get(tableOf[row]).spec().file();
    }

    private int line(int row) {
        return tables.get(tableOf[row]).line(row - firstOf[tableOf[row]]);
    }

    private State state(int row) {
        return tables.get(tableOf[row]).state(row - firstOf[tableOf[row]]);
    }

    private String injection(int row) {
        return tables.get(tableOf[row]).labels(Columns.INJECTION).at(row - firstOf[tableOf[row]]);
    }

    private String compound(int row) {
        return tables.get(tableOf[row]).labels(Columns.COMPOUND).at(row - firstOf[tableOf[row]]);
    }
}
