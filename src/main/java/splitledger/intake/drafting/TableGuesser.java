package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.intake.Sheet;
import splitledger.intake.drafting.TableGuess.Kind;

/** Guesses what each table and each of its columns is. */
final class TableGuesser {
    private static final int CLEARLY_WIDE = 3;

    private final List<Sheet> sheets;
    private final Map<String, Map<String, Column>> named = new LinkedHashMap<>();
    private final Map<String, List<Column>> others = new LinkedHashMap<>();

    private TableGuesser(List<Sheet> sheets) {
        this.sheets = sheets;
    }

    /** One guess a sheet, in the same order. */
    static List<TableGuess> guess(List<Sheet> sheets) {
        final TableGuesser guesser = new TableGuesser(sheets);
        sheets.forEach(guesser::nameColumns);
        return guesser.kinds();
    }

    // --- columns ---------------------------------------------------------------------------------

    private record Match(int score, int rank, Column column, String name) {}

    private void nameColumns(Sheet sheet) {
        final List<Column> columns = Column.all(sheet);
        final List<Match> matches = new ArrayList<>();
        final List<String> names = Headings.names();
        for (Column column : columns) {
            for (int rank = 0; rank < names.size(); rank++) {
                final int score = Headings.score(column, names.get(rank));
                if (score > 0 && fits(column, names.get(rank))) {
                    matches.add(new Match(score, rank, column, names.get(rank)));
                }
            }
        }
        matches.sort(
                Comparator.comparingInt(Match::score)
                        .reversed()
                        .thenComparingInt(Match::rank)
                        .thenComparingInt(m -> m.column().index()));
        final Map<String, Column> taken = new LinkedHashMap<>();
        final Set<Integer> used = new LinkedHashSet<>();
        for (Match match : matches) {
            final boolean free =
                    !taken.containsKey(match.name()) && !used.contains(match.column().index());
            if (free && !(match.name().equals("injection") && match.score() < Headings.OWN)) {
                taken.put(match.name(), match.column());
                used.add(match.column().index());
            }
        }
        injection(sheet, matches, used)
                .ifPresent(
                        c -> {
                            taken.put("injection", c);
                            used.add(c.index());
                        });
        named.put(sheet.file(), taken);
        others.put(sheet.file(), columns.stream().filter(c -> !used.contains(c.index())).toList());
    }

    private static boolean fits(Column column, String name) {
        if (Headings.isNumber(name)) {
            return column.isNumeric() || (column.filled() == 0 && column.heading().equals(name));
        }
        return true;
    }

    /** The column that tells injections apart: it must, whatever its heading promises. */
    private static Optional<Column> injection(Sheet sheet, List<Match> matches, Set<Integer> used) {
        final Optional<Column> compound =
                matches.stream()
                        .filter(
                                m ->
                                        m.name().equals("compound")
                                                && used.contains(m.column().index()))
                        .map(Match::column)
                        .findFirst();
        return matches.stream()
                .filter(m -> m.name().equals("injection"))
                .filter(m -> m.score() == Headings.OWN || !used.contains(m.column().index()))
                .map(Match::column)
                .filter(c -> tellsApart(sheet, List.of(c), compound))
                .findFirst();
    }

    /** Whether these columns, with the compound if there is one, differ from row to row. */
    static boolean tellsApart(Sheet sheet, List<Column> columns, Optional<Column> compound) {
        final Set<List<String>> met = new LinkedHashSet<>();
        for (Sheet.Row row : sheet.rows()) {
            final List<String> key = new ArrayList<>();
            for (Column column : columns) {
                final String cell = row.cells().get(column.index());
                if (cell.isEmpty()) {
                    return false;
                }
                key.add(cell);
            }
            compound.ifPresent(c -> key.add(row.cells().get(c.index())));
            if (!met.add(key)) {
                return false;
            }
        }
        return !sheet.rows().isEmpty();
    }

    // --- tables ----------------------------------------------------------------------------------

    private List<TableGuess> kinds() {
        final Map<String, Kind> kinds = new LinkedHashMap<>();
        for (Sheet sheet : sheets) {
            final Map<String, Column> names = named(sheet);
            if (column(sheet, "boiling_point").isPresent() && column(sheet, "name").isPresent()) {
                kinds.put(sheet.file(), Kind.COMPOUNDS);
            } else if (names.containsKey("compound") && names.containsKey("area")) {
                kinds.put(sheet.file(), Kind.LONG);
            }
        }
        final Set<String> known = knownCompounds(kinds);
        for (Sheet sheet : sheets) {
            final List<Column> peaks = peaks(sheet);
            final boolean wide =
                    peaks.size() >= CLEARLY_WIDE
                            || peaks.stream().anyMatch(c -> known.contains(c.heading()));
            if (!kinds.containsKey(sheet.file()) && !named(sheet).containsKey("compound") && wide) {
                kinds.put(sheet.file(), Kind.WIDE);
            }
        }
        if (kinds.values().stream().noneMatch(k -> k == Kind.LONG || k == Kind.WIDE)) {
            sheets.stream()
                    .filter(s -> !kinds.containsKey(s.file()) && !peaks(s).isEmpty())
                    .max(Comparator.comparingInt(s -> peaks(s).size()))
                    .ifPresent(s -> kinds.put(s.file(), Kind.WIDE));
        }
        final List<TableGuess> guesses = new ArrayList<>();
        for (Sheet sheet : sheets) {
            guesses.add(
                    kinds.containsKey(sheet.file())
                            ? settled(sheet, kinds.getOrDefault(sheet.file(), Kind.UNUSED))
                            : new Joins(sheets, kinds, named)
                                    .guess(sheet, named(sheet), others(sheet)));
        }
        return guesses;
    }

    private TableGuess settled(Sheet sheet, Kind kind) {
        final List<String> reasons = new ArrayList<>();
        switch (kind) {
            case LONG ->
                    reasons.add(
                            "Areas, a row for each peak: there is a column of compounds and one of"
                                    + " areas.");
            case WIDE ->
                    reasons.add(
                            "Areas, a column for each peak: "
                                    + peaks(sheet).size()
                                    + " columns of numbers whose headings are no words of the"
                                    + " program.");
            default -> reasons.add("Compounds: it has names and boiling points.");
        }
        return new TableGuess(
                sheet, kind, named(sheet), others(sheet), List.of(), List.copyOf(reasons));
    }

    private Set<String> knownCompounds(Map<String, Kind> kinds) {
        final Set<String> known = new LinkedHashSet<>();
        for (Sheet sheet : sheets) {
            final Optional<Column> names =
                    kinds.get(sheet.file()) == Kind.COMPOUNDS
                            ? column(sheet, "name")
                            : Optional.ofNullable(named(sheet).get("compound"));
            names.ifPresent(c -> known.addAll(c.counts().keySet()));
        }
        return known;
    }

    private List<Column> peaks(Sheet sheet) {
        return others(sheet).stream().filter(Column::isNumeric).toList();
    }

    private static Optional<Column> column(Sheet sheet, String heading) {
        final int index = sheet.headings().indexOf(heading);
        return index < 0 ? Optional.empty() : Optional.of(Column.of(sheet, index));
    }

    private Map<String, Column> named(Sheet sheet) {
        return named.getOrDefault(sheet.file(), Map.of());
    }

    private List<Column> others(Sheet sheet) {
        return others.getOrDefault(sheet.file(), List.of());
    }
}
