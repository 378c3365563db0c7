package splitledger.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class InjectionTableTest {
    private static final InjectionTable TABLE =
            InjectionTable.ofSize(5)
                    .labels("injection", labels("1", "2", "3", "4", "5"))
                    .labels("compound", labels("a", "a", "a", "a", "a"))
                    .labels("series", labels("calibration", "blank", "sample", "", "calibration"))
                    .numbers("area", Doubles.of(10, -0.5, 20, 30, Double.NaN))
                    .numbers("split_ratio", Doubles.of(20, 50, 100, Double.NaN, 50))
                    .states(
                            List.of(
                                    State.MEASURED,
                                    State.MEASURED,
                                    State.MEASURED,
                                    State.MEASURED,
                                    State.NOT_DETECTED))
                    .places(
                            List.of("areas.csv"),
                            InjectionTable.Codes.of(0, 0, 0, 0, 0),
                            InjectionTable.Codes.of(2, 3, 4, 5, 6))
                    .build();

    private static InjectionTable.Labels labels(String... cells) {
        final List<String> distinct = List.of(cells).stream().distinct().toList();
        final int[] codes = new int[cells.length];
        for (int i = 0; i < cells.length; i++) {
            codes[i] = distinct.indexOf(cells[i]);
        }
        return new InjectionTable.Labels(InjectionTable.Codes.of(codes), distinct);
    }

    private static Tree scalar(String text) {
        return new Tree.Scalar(Place.NONE, text, false);
    }

    private static Tree list(String... texts) {
        return new Tree.Sequence(
                Place.NONE, List.of(texts).stream().map(InjectionTableTest::scalar).toList());
    }

    private static Tree.Mapping mapping(Object... keysAndTrees) {
        final Map<String, Tree> entries = new LinkedHashMap<>();
        for (int i = 0; i < keysAndTrees.length; i += 2) {
            entries.put((String) keysAndTrees[i], (Tree) keysAndTrees[i + 1]);
        }
        return new Tree.Mapping(Place.NONE, entries);
    }

    private static Rows rows(Object... keysAndTrees) {
        return TABLE.rows(Where.of(mapping(keysAndTrees)));
    }

    @Test
    void equalityPicksRows() {
        assertThat(rows("series", scalar("calibration"))).isEqualTo(Rows.of(0, 4));
        assertThat(rows("series", scalar("nothing"))).isEqualTo(Rows.NONE);
        assertThat(rows("series", scalar(""))).isEqualTo(Rows.of(3));
    }

    @Test
    void aListPicksAnyOfItsMembers() {
        assertThat(rows("series", list("calibration", "blank"))).isEqualTo(Rows.of(0, 1, 4));
    }

    @Test
    void notLeavesRowsOut() {
        assertThat(rows("series", mapping("not", scalar("calibration"))))
                .isEqualTo(Rows.of(1, 2, 3));
        assertThat(rows("series", mapping("not", list("calibration", "blank"))))
                .isEqualTo(Rows.of(2, 3));
    }

    @Test
    void boundsHoldTheirEndsAndNoEmptyCell() {
        assertThat(rows("split_ratio", mapping("at-least", scalar("50"))))
                .isEqualTo(Rows.of(1, 2, 4));
        assertThat(rows("split_ratio", mapping("at-most", scalar("50"))))
                .isEqualTo(Rows.of(0, 1, 4));
        assertThat(rows("split_ratio", mapping("at-least", scalar("21"), "at-most", scalar("99"))))
                .isEqualTo(Rows.of(1, 4));
    }

    @Test
    void numbersAreComparedAsNumbers() {
        assertThat(rows("split_ratio", scalar("5e1"))).isEqualTo(Rows.of(1, 4));
        assertThat(rows("split_ratio", scalar("fifty"))).isEqualTo(Rows.NONE);
    }

    @Test
    void everyConditionMustHold() {
        assertThat(rows("series", scalar("calibration"), "split_ratio", scalar("50")))
                .isEqualTo(Rows.of(4));
        assertThat(TABLE.rows(Where.ALL)).isEqualTo(TABLE.all());
    }

    @Test
    void conditionsAreToldInWords() {
        final Where where =
                Where.of(
                        mapping(
                                "series",
                                list("calibration", "blank"),
                                "level",
                                mapping("not", scalar("L1")),
                                "split_ratio",
                                mapping("at-least", scalar("20"), "at-most", scalar("100"))));

        assertThat(where.words())
                .isEqualTo(
                        "series is calibration or blank, level is not L1, split_ratio is at least"
                                + " 20 and at most 100");
        assertThat(Where.ALL.words()).isEqualTo("all rows");
    }

    @Test
    void areasKeepTheirSignAndRowsKnowTheirLine() {
        assertThat(TABLE.area(1)).isEqualTo(-0.5);
        assertThat(TABLE.area(4)).isNaN();
        assertThat(TABLE.state(4)).isEqualTo(State.NOT_DETECTED);
        assertThat(TABLE.place(2)).isEqualTo(new Place("areas.csv", 4, ""));
        assertThat(TABLE.columns())
                .containsExactly("area", "compound", "injection", "series", "split_ratio");
        assertThat(TABLE.label("no such column", 0)).isEmpty();
        assertThat(TABLE.number("no such column", 0)).isNaN();
    }

    @Test
    void aTableMustBeWholeAndItsColumnsOfOneLength() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> InjectionTable.ofSize(2).numbers("area", Doubles.of(1)))
                .withMessageContaining("area has 1 rows, the table 2");
        assertThatIllegalStateException()
                .isThrownBy(() -> InjectionTable.ofSize(1).numbers("area", Doubles.of(1)).build());
    }
}
