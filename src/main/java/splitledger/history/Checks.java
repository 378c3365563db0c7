package splitledger.history;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;

/** What a piece of work asks to be checked, and whether the tables of the later study show it. */
public final class Checks {
    private static final String FILE = "maintenance.yaml";

    private Checks() {}

    /**
     * One check.
     *
     * @param work what was done
     * @param what is to be checked
     * @param standing whether the tables show it
     */
    public record Check(String work, String what, Standing standing) {}

    /** Whether the tables show that a check was made. */
    public enum Standing {
        SHOWN("in the tables"),
        MISSING("not in the tables"),
        ELSEWHERE("tables cannot show it: bench record");

        private final String words;

        Standing(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /**
     * The checks that the works among a study's events ask for, in order of the list of works.
     *
     * @param after the later study
     * @throws IllegalStateException if the program was built without its list or with a wrong one
     */
    public static List<Check> of(Study after) {
        final List<Check> checks = new ArrayList<>();
        for (Map.Entry<String, Tree> work : works().entries().entrySet()) {
            if (work.getValue() instanceof Tree.Mapping described && done(after, described)) {
                if (described.get("checks").orElse(Tree.Mapping.EMPTY)
                        instanceof Tree.Sequence list) {
                    for (Tree item : list.items()) {
                        if (item instanceof Tree.Mapping check) {
                            checks.add(
                                    new Check(
                                            work.getKey(),
                                            check.text("what").orElse(""),
                                            standing(check, after)));
                        }
                    }
                }
            }
        }
        return List.copyOf(checks);
    }

    private static boolean done(Study after, Tree.Mapping work) {
        return after.protocol().events().stream()
                .map(Protocol.Event::what)
                .map(what -> what.toLowerCase(Locale.ROOT))
                .anyMatch(what -> work.texts("also-called").stream().anyMatch(what::contains));
    }

    private static Standing standing(Tree.Mapping check, Study after) {
        if (check.get("seen-in").isEmpty()) {
            return Standing.ELSEWHERE;
        }
        return shown(check.mapping("seen-in"), after) ? Standing.SHOWN : Standing.MISSING;
    }

    private static boolean shown(Tree.Mapping by, Study after) {
        final InjectionTable table = after.table();
        final Rows compared = Occasions.compared(after);
        final Set<String> injections = new LinkedHashSet<>();
        final Set<String> members = new LinkedHashSet<>();
        compared.stream()
                .forEach(
                        row -> {
                            injections.add(table.injection(row));
                            if (after.compounds().ladder().contains(table.compound(row))) {
                                members.add(table.compound(row));
                            }
                        });
        final boolean series =
                by.text("series")
                        .map(
                                s ->
                                        table.all().stream()
                                                .anyMatch(r -> table.label("series", r).equals(s)))
                        .orElse(true);
        final boolean columns =
                by.texts("columns").stream()
                        .allMatch(
                                c ->
                                        table.all().stream()
                                                .anyMatch(r -> !Double.isNaN(table.number(c, r))));
        return series
                && columns
                && injections.size() >= by.number("injections").orElse(0)
                && members.size() >= by.number("members").orElse(0)
                && distinct(table, "split_ratio") >= by.number("ratios").orElse(0)
                && distinct(table, "level") >= by.number("levels").orElse(0);
    }

    private static int distinct(InjectionTable table, String column) {
        final Set<String> found = new TreeSet<>();
        table.all().stream()
                .forEach(
                        row -> {
                            final double number = table.number(column, row);
                            final String text =
                                    Double.isNaN(number)
                                            ? table.label(column, row)
                                            : Double.toString(number);
                            if (!text.isEmpty()) {
                                found.add(text);
                            }
                        });
        return found.size();
    }

    private static Tree.Mapping works() {
        try (InputStream in = Checks.class.getResourceAsStream(FILE)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + FILE + " is missing");
            }
            return YamlReader.read(FILE, in.readAllBytes()).mapping("works");
        } catch (ProblemException e) {
            throw new IllegalStateException("the list " + FILE + " is wrong", e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
