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

/** What the tables hold taken together: injections with their labels, peaks, amounts. */
final class Facts {
    private static final List<String> OF_PEAK =
            List.of(
                    "compound",
                    "area",
                    "amount",
                    "amount_u",
                    "height",
                    "noise",
                    "retention",
                    "width",
                    "integration");

    /** How far amounts of one compound lie apart if they are levels of a calibration. */
    private static final double CLEARLY = 1.5;

    private final List<TableGuess> tables;
    private final Map<String, Map<String, String>> injections = new LinkedHashMap<>();
    private final Map<String, Map<String, Double>> areas = new LinkedHashMap<>();
    private final Map<String, Set<Double>> amounts = new LinkedHashMap<>();
    private final Map<String, Integer> zeros = new LinkedHashMap<>();

    private Facts(List<TableGuess> tables) {
        this.tables = tables;
    }

    static Facts of(List<TableGuess> tables) {
        final Facts facts = new Facts(List.copyOf(tables));
        for (TableGuess table : tables) {
            if (table.hasAreas()) {
                facts.takeAreas(table);
            }
        }
        tables.forEach(facts::takeLabels);
        return facts;
    }

    /** What tells the injection of each row. */
    private static List<String> keys(TableGuess table) {
        final boolean apart = table.hasAreas() && table.column("injection").isEmpty();
        final List<Column> columns = apart ? table.apart() : List.of();
        final List<String> keys = new ArrayList<>();
        for (Sheet.Row row : table.sheet().rows()) {
            final StringBuilder key = new StringBuilder(table.cell(row, "injection"));
            columns.forEach(c -> key.append(row.cells().get(c.index())).append('\n'));
            keys.add(key.toString());
        }
        return keys;
    }

    private void takeAreas(TableGuess table) {
        final List<String> keys = keys(table);
        final List<Column> peaks =
                table.kind() == Kind.WIDE
                        ? table.others().stream().filter(Column::isNumeric).toList()
                        : List.of();
        int zero = 0;
        for (int i = 0; i < keys.size(); i++) {
            final Sheet.Row row = table.sheet().rows().get(i);
            final String injection = keys.get(i);
            for (Column peak : peaks) {
                zero += area(injection, peak.heading(), row.cells().get(peak.index()));
            }
            if (table.kind() == Kind.LONG) {
                zero += area(injection, table.cell(row, "compound"), table.cell(row, "area"));
            }
        }
        zeros.put(table.sheet().file(), zero);
    }

    /** Notes an area; 1 if it is a zero. */
    private int area(String injection, String compound, String cell) {
        final Map<String, Double> of = areas.computeIfAbsent(compound, c -> new LinkedHashMap<>());
        final Optional<Double> number =
                Column.isNothing(cell) ? Optional.empty() : Column.number(cell);
        number.filter(n -> n != 0).ifPresent(n -> of.put(injection, n));
        return number.isPresent() && number.get() == 0 ? 1 : 0;
    }

    private void takeLabels(TableGuess table) {
        final boolean perInjection = table.hasAreas() || table.kind() == Kind.RUNS;
        final List<String> keys = keys(table);
        for (int i = 0; i < keys.size(); i++) {
            final Sheet.Row row = table.sheet().rows().get(i);
            final String injection = keys.get(i);
            if (perInjection && !injection.isEmpty()) {
                final Map<String, String> labels =
                        injections.computeIfAbsent(injection, key -> new LinkedHashMap<>());
                for (String name : table.names().keySet()) {
                    if (!OF_PEAK.contains(name) && !table.cell(row, name).isEmpty()) {
                        labels.putIfAbsent(name, table.cell(row, name));
                    }
                }
            }
            final String amount = table.cell(row, "amount");
            Column.number(amount)
                    .ifPresent(
                            n ->
                                    amounts.computeIfAbsent(
                                                    table.cell(row, "compound"),
                                                    c -> new LinkedHashSet<>())
                                            .add(n));
        }
    }

    List<TableGuess> tables() {
        return tables;
    }

    /** The first table that has a column of this name. */
    Optional<TableGuess> holder(String name) {
        return tables.stream()
                .filter(t -> t.kind() != Kind.UNUSED && t.kind() != Kind.COMPOUNDS)
                .filter(t -> t.column(name).isPresent())
                .findFirst();
    }

    boolean has(String name) {
        return holder(name).isPresent();
    }

    /** Areas of 0 in a table. */
    int zeros(TableGuess table) {
        return zeros.getOrDefault(table.sheet().file(), 0);
    }

    Set<String> injections() {
        return injections.keySet();
    }

    /** Names of all peaks. */
    Set<String> peaks() {
        return areas.keySet();
    }

    /** How many injections have the peak. */
    int detected(String peak) {
        return areas.getOrDefault(peak, Map.of()).size();
    }

    /** Whether the peak has amounts of its own that differ clearly: it was calibrated. */
    boolean calibrated(String peak) {
        final Set<Double> of = amounts.getOrDefault(peak, Set.of());
        final double most = of.stream().mapToDouble(v -> v).max().orElse(0);
        final double least = of.stream().mapToDouble(v -> v).filter(v -> v > 0).min().orElse(most);
        return most > CLEARLY * least;
    }

    boolean hasAmounts() {
        return !amounts.isEmpty();
    }

    /** Injections with such a label, in order. */
    List<String> where(String name, String label) {
        final List<String> found = new ArrayList<>();
        injections.forEach(
                (injection, labels) -> {
                    if (label.equals(labels.get(name))) {
                        found.add(injection);
                    }
                });
        return found;
    }

    /** Distinct labels of a column among some injections. */
    Set<String> labels(String name, Iterable<String> among) {
        final Set<String> labels = new LinkedHashSet<>();
        for (String injection : among) {
            Optional.ofNullable(injections.getOrDefault(injection, Map.of()).get(name))
                    .ifPresent(labels::add);
        }
        return labels;
    }

    /** Relative standard deviation of a peak among injections that all have it; else empty. */
    Optional<Double> relativeScatter(String peak, List<String> among) {
        final Map<String, Double> of = areas.getOrDefault(peak, Map.of());
        final List<Double> values = new ArrayList<>();
        for (String injection : among) {
            Optional.ofNullable(of.get(injection)).ifPresent(values::add);
        }
        if (values.size() < among.size() || values.size() < 2) {
            return Optional.empty();
        }
        final double mean = values.stream().mapToDouble(v -> v).average().orElse(0);
        final double squares = values.stream().mapToDouble(v -> (v - mean) * (v - mean)).sum();
        return mean > 0
                ? Optional.of(Math.sqrt(squares / (values.size() - 1)) / mean)
                : Optional.empty();
    }
}
