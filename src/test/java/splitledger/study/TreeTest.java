package splitledger.study;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TreeTest {
    private static Tree.Scalar scalar(String text) {
        return new Tree.Scalar(Place.NONE, text, false);
    }

    private static final Tree.Mapping MAPPING;

    static {
        final Map<String, Tree> entries = new LinkedHashMap<>();
        entries.put("word", scalar("limonene"));
        entries.put("number", scalar(" 2.5e-3 "));
        entries.put("list", new Tree.Sequence(Place.NONE, List.of(scalar("b"), scalar("a"))));
        entries.put("inner", new Tree.Mapping(Place.NONE, Map.of("x", scalar("1"))));
        MAPPING = new Tree.Mapping(Place.NONE, entries);
    }

    @Test
    void entriesAreFoundInTheirForm() {
        assertThat(MAPPING.text("word")).contains("limonene");
        assertThat(MAPPING.number("number")).hasValue(0.0025);
        assertThat(MAPPING.texts("list")).containsExactly("b", "a");
        assertThat(MAPPING.texts("word")).containsExactly("limonene");
        assertThat(MAPPING.mapping("inner").text("x")).contains("1");
        assertThat(MAPPING.entries().keySet()).containsExactly("word", "number", "list", "inner");
    }

    @Test
    void whatIsNotThereOrHasAnotherFormIsEmpty() {
        assertThat(MAPPING.get("nothing")).isEmpty();
        assertThat(MAPPING.text("list")).isEmpty();
        assertThat(MAPPING.number("word")).isEmpty();
        assertThat(MAPPING.number("nothing")).isEmpty();
        assertThat(MAPPING.texts("nothing")).isEmpty();
        assertThat(MAPPING.texts("inner")).isEmpty();
        assertThat(MAPPING.mapping("word")).isEqualTo(Tree.Mapping.EMPTY);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"NaN", "Infinity", "-Infinity", "1e999", "", "1,5", "0x1p3", "1d", "2f"})
    void onlyAPlainFiniteNumberIsOne(String text) {
        assertThat(scalar(text).number()).isEmpty();
    }

    @Test
    void placesNameTheWayToAKey() {
        final Place inner = Place.NONE.in("characteristics", 3).in("calibration", 4);

        assertThat(inner).isEqualTo(new Place("", 4, "characteristics.calibration"));
        assertThat(new Place("protocol.yaml", 7, "title").problem("nothing", "a text", "").text())
                .isEqualTo("protocol.yaml:7: 'title': found nothing, expected a text");
    }
}
