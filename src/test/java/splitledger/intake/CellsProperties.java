package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import splitledger.base.Numbers;

class CellsProperties {

    @Property
    @Label("every number that the program writes is read back as the same number")
    void readsWhatIsWritten(@ForAll double value) {
        Assume.that(!Double.isNaN(value) && !Double.isInfinite(value));

        assertThat(Cells.number(Numbers.text(value)) == value).isTrue();
    }

    @Property
    @Label("what is read as a number is a number to Java too, and the same one")
    void agreesWithJava(@ForAll String text) {
        if (Cells.isNumber(text)) {
            final double value = Double.parseDouble(text);

            assertThat(Cells.number(text)).isEqualTo(Double.isInfinite(value) ? Double.NaN : value);
        } else {
            assertThat(Cells.number(text)).isNaN();
        }
    }
}
