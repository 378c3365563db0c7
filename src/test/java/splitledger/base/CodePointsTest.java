package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class CodePointsTest {
    private static List<String> sorted(String... texts) {
        final List<String> list = new ArrayList<>(List.of(texts));
        list.sort(CodePoints.ORDER);
        return list;
    }

    @Test
    void orderIsByCodePointEmptyFirst() {
        assertThat(sorted("L2", "L10", "", "a", "B", "L1"))
                .containsExactly("", "B", "L1", "L10", "L2", "a");
    }

    @Test
    void aboveTheBasicPlaneItDiffersFromTheOrderOfUtf16() {
        final String halfwidth = "\uff61"; // U+FF61
        final String above = "\ud800\udc00"; // U+10000

        assertThat(above.compareTo(halfwidth)).isNegative();
        assertThat(CodePoints.ORDER.compare(above, halfwidth)).isPositive();
        assertThat(sorted(above, halfwidth)).containsExactly(halfwidth, above);
    }

    @Property
    @Label("it is the order of the UTF-32 bytes, and 0 for equal texts alone")
    void isTheOrderOfUtf32(@ForAll String a, @ForAll String b) {
        final int expected =
                java.util.Arrays.compare(a.codePoints().toArray(), b.codePoints().toArray());

        assertThat(Integer.signum(CodePoints.ORDER.compare(a, b)))
                .isEqualTo(Integer.signum(expected));
        assertThat(CodePoints.ORDER.compare(a, b) == 0).isEqualTo(a.equals(b));
    }
}
