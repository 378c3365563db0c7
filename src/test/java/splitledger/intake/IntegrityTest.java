package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import splitledger.study.Flag;

/** What repeats to the last digit, and time stamps out of order. */
class IntegrityTest {
    private static List<String> flags(String protocol, String areas) {
        return StudyFiles.protocol(protocol)
                .with("studies/oil/areas.csv", areas)
                .read()
                .flags()
                .stream()
                .map(IntegrityTest::words)
                .toList();
    }

    private static String words(Flag flag) {
        return flag.place().row() + " " + flag.subject() + ": " + flag.what();
    }

    private static final String ALONE =
            """
            splitledger: 1
            tables: [{file: areas.csv}]
            compounds: {targets: [limonene]}
            """;

    private static final String WIDE =
            """
            splitledger: 1
            tables: [{file: areas.csv, form: wide, columns: {day: Day, acquired: Time}}]
            compounds: {targets: [a, b, c]}
            """;

    @Test
    void anAreaOfManyDigitsThatOccursTwiceIsFlaggedWithBothRows() {
        assertThat(
                        flags(
                                ALONE,
                                """
                                injection,compound,area
                                i1,limonene,1086890.14
                                i2,limonene,1079111.52
                                i3,limonene,1086890.14
                                """))
                .containsExactly(
                        "4 injection i3, limonene: the area 1086890.14 is that of injection i1 (line 2 of"
                                + " areas.csv) to the last digit");
    }

    @Test
    void equalAreasOfFewDigitsAreChance() {
        assertThat(flags(ALONE, "injection,compound,area\ni1,limonene,1203\ni2,limonene,1203\n"))
                .isEmpty();
    }

    @Test
    void anInjectionThatRepeatsAnotherOneIsFlaggedOnce() {
        assertThat(
                        flags(
                                WIDE,
                                """
                                injection,a,b,c,Day,Time
                                i1,10.1,20.25,30,,
                                i2,10.3,20.15,31,,
                                i3,10.1,20.25,30,,
                                """))
                .containsExactly(
                        "4 injection i3: all its 3 areas are those of injection i1 (line 2 of areas.csv)"
                                + " to the last digit");
    }

    @Test
    void daysWithTheSameAreasAreNotIndependent() {
        assertThat(
                        flags(
                                WIDE,
                                """
                                injection,a,b,c,Day,Time
                                i1,10.1,20.25,30,D1,
                                i2,10.3,20.15,31,D1,
                                i3,10.3,20.15,30,D2,
                                i4,10.1,20.25,31,D2,
                                """))
                .containsExactly(
                        "4 day D2: its 6 areas are those of day D1 (line 2 of areas.csv): the two are not"
                                + " independent");
    }

    @Test
    void timeStampsThatGoBackAreFlagged() {
        assertThat(
                        flags(
                                WIDE,
                                """
                                injection,a,b,c,Day,Time
                                i1,1,2,3,D1,2026-03-04T10:00
                                i2,2,3,4,D1,2026-03-04T11:00:00
                                i3,3,4,5,D1,2026-03-04 10:30:00
                                i4,4,5,6,D1,2026-03-04T10:30:00
                                i5,5,6,7,D1,04.03.26
                                """))
                .containsExactly(
                        "4 injection i3: acquired before injection i2, behind which it stands (line 3 of"
                                + " areas.csv)",
                        "5 injection i4: acquired at the same time as injection i3, behind which it stands"
                                + " (line 4 of areas.csv)",
                        "6 acquired: 1 time stamp is not of the form 2026-03-04T10:15:00 (ISO 8601): their"
                                + " order cannot be told");
    }

    /** The rule promises about one false flag in a thousand areas at most: here far fewer. */
    @Test
    void honestScatterIsHardlyEverFlagged() {
        final Random random = new Random(5);
        final StringBuilder areas = new StringBuilder("injection,compound,area\n");
        for (int i = 0; i < 2000; i++) {
            final long area = Math.round(250_000 * (1 + 0.01 * random.nextGaussian()));
            areas.append("i").append(i).append(",limonene,").append(area).append('\n');
        }

        assertThat(flags(ALONE, areas.toString())).hasSizeLessThanOrEqualTo(2);
    }
}
