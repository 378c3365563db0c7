package splitledger.dossier;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ComparingTest {
    private static final String HEADER =
            "characteristic,compound,condition,quantity,method,value,unit,verdict,note\n";

    @ParameterizedTest
    @CsvSource({
        "1, 1, 17, true",
        "1, 1.0000000001, 9, true",
        "1, 1.00000001, 9, false",
        "1234.5, 1234.6, 4, true",
        "1234.5, 1234.6, 5, false",
        "-1, 1, 1, false",
        "0, 1e-300, 9, false",
        "1, 1.0000000000000002, 17, false"
    })
    void numbersAgreeToSignificantDigitsOfTheLarger(double a, double b, int digits, boolean agree) {
        assertThat(Comparing.agree(a, b, digits)).isEqualTo(agree);
    }

    @Test
    void rowsAreFoundAgainByTheirKeysAndNotByTheirPlace() {
        final Comparing comparing = new Comparing(9);
        comparing.csv(
                "results.csv",
                HEADER + "a,c,,q,m,1,g,meets,one\nb,c,,q,m,2,g,meets,\n",
                HEADER
                        + "a,c,,p,m,7,g,meets,\na,c,,q,m,1.0000000001,g,meets,\"o, \"\"2\"\"\"\n"
                        + "b,c,,q,m,2,g,fails,\n");

        assertThat(comparing.differences())
                .containsExactly(
                        new Recheck.Difference(
                                "results.csv, b / c /  / q / m, verdict", "meets", "fails"),
                        new Recheck.Difference(
                                "results.csv, a / c /  / p / m", "no such row", "a row"));
        assertThat(comparing.reworded()).isEqualTo(1);
    }

    @Test
    void objectsOfARecordAreFoundAgainByWhatTellsThemApart() {
        final Comparing comparing = new Comparing(9);
        comparing.json(
                "results.json",
                "{\"program\":\"1\",\"findings\":[{\"quantity\":\"a\",\"value\":1},"
                        + "{\"quantity\":\"b\",\"value\":2,\"note\":\"x\"}]}",
                "{\"program\":\"2\",\"findings\":[{\"quantity\":\"b\",\"value\":3,\"note\":\"y\"},"
                        + "{\"quantity\":\"a\",\"value\":1}]}");

        assertThat(comparing.differences())
                .containsExactly(
                        new Recheck.Difference("results.json, findings b, value", "2", "3"));
        assertThat(comparing.reworded()).isEqualTo(2);
    }
}
