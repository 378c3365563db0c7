package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.intake.ShippedTables.Kind;

class ShippedTablesTest {

    @Test
    void everyKindOfGlasswareHasALimitBelowItsVolumeAndASource() {
        final Map<String, Kind> kinds = ShippedTables.glassware();

        assertThat(kinds).hasSizeGreaterThan(50);
        assertThat(kinds.values())
                .allSatisfy(
                        kind -> {
                            assertThat(kind.volume()).isPositive();
                            // the widest are flasks of 1 mL, class B: 5 %
                            assertThat(kind.tolerance()).isPositive();
                            assertThat(kind.tolerance()).isLessThan(0.06 * kind.volume());
                            assertThat(kind.source()).isNotBlank();
                        });
    }

    /** The name says the volume: a slip of the pen in one of the two is found here. */
    @Test
    void everyKindIsNamedByItsVolume() {
        for (Kind kind : ShippedTables.glassware().values()) {
            final String[] words = kind.name().split(" ", -1);
            final boolean micro = kind.name().endsWith(" uL");
            final int at = micro ? words.length - 2 : words.length - 3;
            final double named = Double.parseDouble(words[at]) / (micro ? 1000 : 1);

            assertThat(kind.volume()).as(kind.name()).isCloseTo(named, within(1e-12));
        }
    }

    @Test
    void limitsOfAKindGrowWithItsVolume() {
        for (String family : new String[] {"flask", "pipette", "burette", "piston"}) {
            double before = 0;
            for (Kind kind : ShippedTables.glassware().values()) {
                if (kind.name().startsWith(family + " ") && !kind.name().endsWith(" B")) {
                    assertThat(kind.tolerance()).as(kind.name()).isGreaterThanOrEqualTo(before);
                    before = kind.tolerance();
                }
            }
        }
    }

    @Test
    void everySolventExpandsLikeALiquidAndHasASource() {
        assertThat(ShippedTables.solvents().values())
                .hasSizeGreaterThan(10)
                .allSatisfy(
                        s -> {
                            assertThat(s.expansion()).isBetween(1e-4, 2e-3);
                            assertThat(s.source()).isNotBlank();
                        });
    }
}
