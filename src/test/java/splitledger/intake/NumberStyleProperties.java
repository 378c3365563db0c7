package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.StringLength;

/** The reading of numbers, compared with the library's. */
class NumberStyleProperties {

    @Property(tries = 2000)
    @Label("every double is read back from each way to write it")
    void readsDoubles(@ForAll double value) {
        final String text = Double.toString(value);

        assertThat(NumberStyle.DOT.number(text)).isEqualTo(value);
        assertThat(new NumberStyle(',', NumberStyle.NONE, false).number(text.replace('.', ',')))
                .isEqualTo(value);
    }

    @Property(tries = 2000)
    @Label("digits with a dot and an exponent are rounded as the library rounds them")
    void roundsLikeTheLibrary(
            @ForAll @IntRange(min = 1, max = 400_000_000) int digits,
            @ForAll @IntRange(min = 0, max = 12) int decimals,
            @ForAll @IntRange(min = -40, max = 40) int exponent) {
        final String plain =
                java.math.BigDecimal.valueOf(digits, decimals).toPlainString() + "e" + exponent;

        assertThat(NumberStyle.DOT.number(plain)).isEqualTo(Double.parseDouble(plain));
    }

    @Property(tries = 3000)
    @Label("what looks like a number to one reader does to the other")
    void agreesOnWhatIsANumber(
            @ForAll @StringLength(max = 8) @Chars({'0', '1', '9', '.', 'e', '-', '+', ','})
                    String text) {
        assertThat(Double.isNaN(NumberStyle.DOT.number(text)))
                .isEqualTo(Double.isNaN(Cells.number(text)));
    }

    @Property(tries = 1000)
    @Label("whole numbers are read with every mark between thousands, and only between thousands")
    void readsThousands(@ForAll @IntRange(min = 1000, max = 2_000_000_000) int number) {
        for (char mark : new char[] {',', ' ', '\''}) {
            final String grouped =
                    String.format(java.util.Locale.ROOT, "%,d", number).replace(',', mark);
            final NumberStyle style = new NumberStyle('.', mark, false);

            assertThat(style.number(grouped)).isEqualTo(number);
            assertThat(style.number(grouped + mark)).isNaN();
            assertThat(style.number(grouped.replace(mark + "", mark + "1"))).isNaN();
        }
    }
}
