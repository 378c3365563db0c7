package splitledger.study;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;

class KeyTest {
    private static Key key(String compound, String quantity) {
        return Key.of("calibration", compound, quantity, "line");
    }

    @Test
    void conditionsAreSortedByName() {
        assertThat(key("a", "q").with("ratio", "20").with("factor", "analyst").conditionText())
                .isEqualTo("factor=analyst;ratio=20");
        assertThat(key("a", "q").conditionText()).isEmpty();
    }

    @Test
    void whatSeparatesIsEncoded() {
        assertThat(key("a", "q").with("level", "a=b;c%3B").conditionText())
                .isEqualTo("level=a%3Db%3Bc%253B");
    }

    @Property
    @Label("a condition cell can be taken apart again")
    void conditionsReadBack(
            @ForAll @StringLength(min = 1, max = 6) @Chars({'a', '%', ';', '=', '3', 'B'})
                    String name,
            @ForAll @StringLength(max = 8) @AlphaChars @Chars({'%', ';', '=', '2', '5'})
                    String value) {
        final String text = key("a", "q").with(name, value).with(name + "z", "1").conditionText();
        final String[] cells = text.split(";", -1);

        assertThat(cells).hasSize(2);
        final String[] first = cells[0].split("=", -1);
        assertThat(first).hasSize(2);
        assertThat(decoded(first[0])).isEqualTo(name);
        assertThat(decoded(first[1])).isEqualTo(value);
    }

    private static String decoded(String cell) {
        return cell.replace("%3B", ";").replace("%3D", "=").replace("%25", "%");
    }

    @Test
    void keysAreOrderedByTheirPrintedCellsAndCodePoints() {
        final List<Key> expected =
                List.of(
                        key("", "z"),
                        key("a", "r"),
                        key("a", "q").with("level", "L1"),
                        key("a", "q").with("level", "L10"),
                        key("a", "q").with("level", "L2"),
                        key("b", "q"),
                        key("\uff61", "q"),
                        key("\ud800\udc00", "q"));
        final List<Key> shuffled = new ArrayList<>(expected);
        Collections.reverse(shuffled);
        Collections.sort(shuffled);

        assertThat(shuffled).isEqualTo(expected);
    }

    @Test
    void methodComesLast() {
        assertThat(Key.of("c", "", "a", "z")).isLessThan(Key.of("c", "", "b", "a"));
        assertThat(Key.of("c", "", "a", "a")).isLessThan(Key.of("c", "", "a", "b"));
    }

    @Test
    void theSameKeyIsEqualHoweverItWasMade() {
        final Key one = key("a", "q").with("x", "1").with("y", "2");
        final Key two = key("a", "q").with("y", "2").with("x", "1");

        assertThat(one).isEqualTo(two).hasSameHashCodeAs(two).isEqualByComparingTo(two);
    }
}
