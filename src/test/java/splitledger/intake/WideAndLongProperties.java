package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import splitledger.study.InjectionTable;

class WideAndLongProperties {
    private static final List<String> COMPOUNDS = List.of("limonene", "linalool", "2,4-xylenol");

    /** Areas of one injection as cells, and its day. */
    record Injection(List<String> cells, String day) {}

    @Property(tries = 100)
    @Label("a long table and the wide table of the same areas give equal injection tables")
    void formDoesNotMatter(@ForAll("injections") List<Injection> injections) {
        final InjectionTable wide = read("wide", wide(injections));
        final InjectionTable inLong = read("long", inLong(injections));

        assertThat(content(inLong)).isEqualTo(content(wide));
        assertThat(wide.size()).isEqualTo(injections.size() * COMPOUNDS.size());
    }

    private static InjectionTable read(String form, String areas) {
        return StudyFiles.protocol(
                        """
                        splitledger: 1
                        title: Forms
                        tables:
                          - {file: areas.csv, form: FORM, zero-means: not-detected, columns: {day: Day}}
                        compounds: {targets: [limonene, linalool, "2,4-xylenol"]}
                        """
                                .replace("FORM", form))
                .with("studies/oil/areas.csv", areas)
                .read()
                .table();
    }

    private static String wide(List<Injection> injections) {
        final StringBuilder text =
                new StringBuilder("injection,limonene,linalool,\"2,4-xylenol\",Day\n");
        for (int i = 0; i < injections.size(); i++) {
            final Injection one = injections.get(i);
            text.append("A" + i + "," + String.join(",", one.cells()) + "," + one.day() + "\n");
        }
        return text.toString();
    }

    private static String inLong(List<Injection> injections) {
        final StringBuilder text = new StringBuilder("Day,area,compound,injection\n");
        for (int i = 0; i < injections.size(); i++) {
            final Injection one = injections.get(i);
            for (int k = COMPOUNDS.size() - 1; k >= 0; k--) {
                text.append(
                        one.day()
                                + ","
                                + one.cells().get(k)
                                + ",\""
                                + COMPOUNDS.get(k)
                                + "\",A"
                                + i
                                + "\n");
            }
        }
        return text.toString();
    }

    /** All that a table holds, row by row, but for the lines. */
    private static List<String> content(InjectionTable table) {
        return IntStream.range(0, table.size())
                .mapToObj(
                        row -> {
                            final TreeMap<String, String> cells = new TreeMap<>();
                            for (String column : table.columns()) {
                                cells.put(
                                        column,
                                        table.label(column, row) + "|" + table.number(column, row));
                            }
                            return cells + " " + table.state(row) + " " + table.place(row).file();
                        })
                .toList();
    }

    @Provide
    Arbitrary<List<Injection>> injections() {
        final Arbitrary<String> cell =
                Arbitraries.oneOf(
                        Arbitraries.of("", "nd", "-", "N.A.", "0", "-0.0"),
                        Arbitraries.doubles().between(-100, 1e6).ofScale(3).map(String::valueOf));
        final Arbitrary<List<String>> cells = cell.list().ofSize(COMPOUNDS.size());
        final Arbitrary<String> day = Arbitraries.of("", "D1", "D2", "d1", "007");
        return Combinators.combine(cells, day)
                .as((c, d) -> new Injection(new ArrayList<>(c), d))
                .list()
                .ofMinSize(1)
                .ofMaxSize(12);
    }
}
