package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.intake.Sheet;
import splitledger.intake.drafting.TableGuess.Kind;

/** Guesses how a table without areas belongs to those that have them. */
final class Joins {
    /** Labels that tables join on, the injection apart; the first that fits is taken. */
    private static final List<List<String>> KEYS =
            List.of(
                    List.of("level", "compound"),
                    List.of("preparation", "compound"),
                    List.of("level"),
                    List.of("preparation"),
                    List.of("compound"));

    private static final int MATRIX = 3;

    private final List<Sheet> sheets;
    private final Map<String, Kind> kinds;
    private final Map<String, Map<String, Column>> named;

    Joins(List<Sheet> sheets, Map<String, Kind> kinds, Map<String, Map<String, Column>> named) {
        this.sheets = sheets;
        this.kinds = kinds;
        this.named = named;
    }

    TableGuess guess(Sheet sheet, Map<String, Column> names, List<Column> others) {
        final Set<String> injections = injections();
        final Optional<Column> key = runKey(sheet, names, injections);
        if (key.isPresent()) {
            final Map<String, Column> runs = new LinkedHashMap<>(names);
            runs.values().removeIf(c -> c.index() == key.get().index());
            runs.put("injection", key.get());
            final List<Column> rest =
                    others.stream().filter(c -> c.index() != key.get().index()).toList();
            return new TableGuess(
                    sheet,
                    Kind.RUNS,
                    runs,
                    rest,
                    List.of("injection"),
                    runReasons(key.get(), injections));
        }
        for (List<String> labels : KEYS) {
            final List<Column> columns =
                    labels.stream()
                            .flatMap(label -> Optional.ofNullable(names.get(label)).stream())
                            .toList();
            final boolean whole = columns.size() == labels.size();
            final boolean brings =
                    !isMatrix(others) && (names.size() > labels.size() || !others.isEmpty());
            if (whole && brings && TableGuesser.tellsApart(sheet, columns, Optional.empty())) {
                final String words = String.join(" and ", labels);
                return new TableGuess(
                        sheet,
                        Kind.LABELS,
                        names,
                        others,
                        labels,
                        List.of("One row for each " + words + ": joined on these labels."));
            }
        }
        return new TableGuess(sheet, Kind.UNUSED, names, others, List.of(), unusedReasons(sheet));
    }

    /** Whether headings are numbers: levels of a matrix, no names of columns. */
    private static boolean isMatrix(List<Column> columns) {
        return columns.stream().filter(c -> Column.number(c.heading()).isPresent()).count()
                >= MATRIX;
    }

    /** The column of a run list that names injections: unique, and shared with the areas. */
    private static Optional<Column> runKey(
            Sheet sheet, Map<String, Column> names, Set<String> injections) {
        Optional<Column> best = Optional.empty();
        long most = 0;
        final List<Column> candidates = new ArrayList<>();
        Optional.ofNullable(names.get("injection")).ifPresent(candidates::add);
        candidates.addAll(Column.all(sheet));
        for (Column column : candidates) {
            final long shared =
                    column.counts().keySet().stream().filter(injections::contains).count();
            if (column.isKey(sheet.rows().size()) && shared > most) {
                best = Optional.of(column);
                most = shared;
            }
        }
        return best;
    }

    private static List<String> runReasons(Column key, Set<String> injections) {
        final List<String> reasons = new ArrayList<>();
        final Set<String> runs = key.counts().keySet();
        final long shared = runs.stream().filter(injections::contains).count();
        reasons.add(
                "A row for each injection: "
                        + shared
                        + " labels of the column '"
                        + key.heading()
                        + "' are injections of the areas.");
        if (shared < runs.size() || shared < injections.size()) {
            reasons.add(
                    (injections.size() - shared)
                            + " injections of the areas are not in it, and "
                            + (runs.size() - shared)
                            + " of its rows have no areas: mend the tables, or write 'unmatched:"
                            + " ignore' at this table.");
        }
        return reasons;
    }

    private List<String> unusedReasons(Sheet sheet) {
        final Set<String> compounds = new LinkedHashSet<>();
        for (Sheet other : sheets) {
            if (!other.file().equals(sheet.file())) {
                Optional.ofNullable(named.getOrDefault(other.file(), Map.of()).get("compound"))
                        .ifPresent(c -> compounds.addAll(c.counts().keySet()));
            }
        }
        final boolean matrix =
                Column.all(sheet).stream()
                        .anyMatch(c -> c.counts().keySet().stream().anyMatch(compounds::contains));
        return List.of(
                matrix
                        ? "Not used: it seems to hold a number for each compound (down) and level"
                                + " (across). Write it with a row for each level and compound (level,"
                                + " compound, amount), and the program can join it."
                        : "Not used: none of its columns is shared with the table of areas.");
    }

    private Set<String> injections() {
        final Set<String> injections = new LinkedHashSet<>();
        for (Sheet sheet : sheets) {
            final boolean areas =
                    kinds.get(sheet.file()) == Kind.LONG || kinds.get(sheet.file()) == Kind.WIDE;
            final Column column = named.getOrDefault(sheet.file(), Map.of()).get("injection");
            if (areas && column != null) {
                injections.addAll(column.counts().keySet());
            }
        }
        return injections;
    }
}
