package splitledger.evaluation;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.Study;

/** Counts what some rows hold. */
final class Tally {
    private final InjectionTable table;
    private final Rows rows;

    private Tally(InjectionTable table, Rows rows) {
        this.table = table;
        this.rows = rows;
    }

    /** Rows of the study's targets among these. */
    static Tally of(Study study, Rows rows) {
        final List<String> targets = study.compounds().targets();
        return new Tally(
                study.table(), rows.only(r -> targets.contains(study.table().compound(r))));
    }

    /** Those with an amount above 0, or those without one. */
    Tally standards(boolean wanted) {
        return new Tally(table, rows.only(r -> (table.number("amount", r) > 0) == wanted));
    }

    /** Those of one compound. */
    Tally of(String compound) {
        return new Tally(table, rows.only(r -> table.compound(r).equals(compound)));
    }

    int distinct(String column) {
        return labels(column).size();
    }

    private Set<String> labels(String column) {
        final Set<String> labels = new TreeSet<>();
        rows.stream().mapToObj(r -> table.label(column, r)).forEach(labels::add);
        labels.remove("");
        return labels;
    }

    int injections() {
        return distinct("injection");
    }

    int preparations() {
        return distinct("preparation");
    }

    /** Levels by label, or by amount where none is stated. */
    int levels() {
        return byLevel().size();
    }

    /** Levels that only one preparation stands for. */
    int levelsOfOne() {
        return (int) byLevel().values().stream().filter(p -> p.size() < 2).count();
    }

    private Map<String, Set<String>> byLevel() {
        final Map<String, Set<String>> levels = new TreeMap<>();
        rows.stream()
                .forEach(
                        r -> {
                            final String label = table.label("level", r);
                            final String level =
                                    label.isEmpty()
                                            ? Double.toString(table.number("amount", r))
                                            : label;
                            levels.computeIfAbsent(level, l -> new TreeSet<>())
                                    .add(table.label("preparation", r));
                        });
        return levels;
    }

    /** Distinct numbers of a column, smallest first. */
    List<Double> numbers(String column) {
        final Set<Double> numbers = new TreeSet<>();
        rows.stream()
                .mapToDouble(r -> table.number(column, r))
                .filter(v -> !Double.isNaN(v))
                .forEach(numbers::add);
        return new ArrayList<>(numbers);
    }

    boolean isEmpty() {
        return rows.isEmpty();
    }

    /** In words, as in {@code 36 injections of 18 preparations at 6 levels, on 2 days}. */
    String words() {
        final StringBuilder words = new StringBuilder(count(injections(), "injection"));
        if (preparations() > 0) {
            words.append(" of ").append(count(preparations(), "preparation"));
        }
        if (distinct("level") > 0) {
            words.append(" at ").append(count(distinct("level"), "level"));
        }
        if (distinct("day") > 0) {
            words.append(", on ").append(count(distinct("day"), "day"));
        }
        if (distinct("analyst") > 0) {
            words.append(", by ").append(count(distinct("analyst"), "analyst"));
        }
        return words.toString();
    }

    /** A number with its noun. */
    static String count(int number, String noun) {
        return number + " " + noun + (number == 1 ? "" : "s");
    }
}
