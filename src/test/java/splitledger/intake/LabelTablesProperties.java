package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Each law compares with the plainest way to compute the same. */
class LabelTablesProperties {

    @Property(tries = 300)
    @Label("a left row gets the first right row that has its labels, if it has labels at all")
    void matches(
            @ForAll("keys") List<List<String>> left, @ForAll("keys") List<List<String>> right) {
        final LabelTables.Match match = LabelTables.match(columns(left), columns(right));

        for (int l = 0; l < left.size(); l++) {
            final List<String> key = left.get(l);
            assertThat(match.rightOf(l)).isEqualTo(key.contains("") ? -1 : right.indexOf(key));
        }
        assertThat(match.rightOnly().toArray())
                .isEqualTo(
                        IntStream.range(0, right.size())
                                .filter(
                                        r ->
                                                right.get(r).contains("")
                                                        || !left.contains(right.get(r)))
                                .toArray());
    }

    @Property(tries = 300)
    @Label("a row repeats the first row that has its labels")
    void repeats(@ForAll("keys") List<List<String>> rows) {
        final List<LabelTables.Repeat> expected = new ArrayList<>();
        for (int r = 0; r < rows.size(); r++) {
            final int first = rows.indexOf(rows.get(r));
            if (first < r && !rows.get(r).contains("")) {
                expected.add(new LabelTables.Repeat(first, r));
            }
        }

        assertThat(LabelTables.repeats(columns(rows))).isEqualTo(expected);
    }

    private static List<String[]> columns(List<List<String>> rows) {
        return IntStream.range(0, 2)
                .mapToObj(c -> rows.stream().map(r -> r.get(c)).toArray(String[]::new))
                .toList();
    }

    /** Labels that others would take for missing, for numbers or for each other. */
    @Provide
    Arbitrary<List<List<String>>> keys() {
        return label().list().ofSize(2).list().ofMaxSize(20);
    }

    private static Arbitrary<String> label() {
        return Arbitraries.of("a", "A", "", "NA", "null", "*", "007", "7", "T", "1,234");
    }
}
