package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The table of compounds that the project carries. */
class SharedCompoundsTest {
    private static final Pattern ELEMENT = Pattern.compile("([A-Z][a-z]?)(\\d*)");

    /** Conventional atomic masses, IUPAC 2021 (from memory). */
    private static final Map<String, Double> MASSES =
            Map.of("C", 12.011, "H", 1.008, "O", 15.999, "N", 14.007, "S", 32.06, "Cl", 35.45);

    /** Sternberg, Gallaway and Jones 1962; Scanlon and Willis 1985 (from memory). */
    private static final Map<String, Double> CONTRIBUTIONS =
            Map.ofEntries(
                    Map.entry("aliphatic C", 1.0),
                    Map.entry("aromatic C", 1.0),
                    Map.entry("olefinic C", 0.95),
                    Map.entry("carbonyl C", 0.0),
                    Map.entry("carboxyl C", 0.0),
                    Map.entry("nitrile C", 0.3),
                    Map.entry("ether O", -1.0),
                    Map.entry("primary alcohol O", -0.5),
                    Map.entry("secondary alcohol O", -0.75),
                    Map.entry("tertiary alcohol O", -0.25),
                    Map.entry("ester O", -0.25),
                    Map.entry("aliphatic Cl (two or more on one C)", -0.12),
                    Map.entry("olefinic Cl", 0.05));

    private static List<NamedCsvRecord> rows() throws IOException {
        try (var reader =
                CsvReader.builder().ofNamedCsvRecord(Path.of("shared", "compounds.csv"))) {
            return reader.stream().toList();
        }
    }

    private static NamedCsvRecord row(String name) throws IOException {
        return rows().stream()
                .filter(r -> r.getField("name").equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static double number(NamedCsvRecord row, String column) {
        return Double.parseDouble(row.getField(column));
    }

    @Test
    void alkanesFromPentaneToTetratetracontaneAreThereAndBoilOneAfterTheOther() throws IOException {
        double before = 0;
        for (int n = 5; n <= 44; n++) {
            final NamedCsvRecord row = row("n-C" + n);
            assertThat(row.getField("formula")).isEqualTo("C" + n + "H" + (2 * n + 2));
            assertThat(number(row, "effective_carbon_number")).isEqualTo(n);
            assertThat(number(row, "boiling_point")).isGreaterThan(before);
            before = number(row, "boiling_point");
        }
    }

    /** Another source: the boiling points of ASTM D2887 table 1 (from memory, whole degrees). */
    @Test
    void boilingPointsOfAlkanesAgreeWithASecondSource() throws IOException {
        final Map<String, Integer> second =
                Map.of(
                        "n-C5", 36, "n-C8", 126, "n-C10", 174, "n-C16", 287, "n-C20", 344, "n-C28",
                        431, "n-C36", 496, "n-C40", 522, "n-C44", 545);
        for (var e : second.entrySet()) {
            assertThat(number(row(e.getKey()), "boiling_point"))
                    .as(e.getKey())
                    .isCloseTo(e.getValue(), within(3.5));
        }
    }

    @Test
    void molarMassesFollowFromTheFormula() throws IOException {
        for (NamedCsvRecord row : rows()) {
            double mass = 0;
            final Matcher element = ELEMENT.matcher(row.getField("formula"));
            while (element.find()) {
                mass +=
                        MASSES.getOrDefault(element.group(1), Double.NaN)
                                * (element.group(2).isEmpty()
                                        ? 1
                                        : Integer.parseInt(element.group(2)));
            }
            assertThat(number(row, "molar_mass"))
                    .as(row.getField("name"))
                    .isCloseTo(mass, within(0.006));
        }
    }

    @Test
    void effectiveCarbonNumbersAreTheSumOfTheirContributions() throws IOException {
        int checked = 0;
        for (NamedCsvRecord row : rows()) {
            if (!row.getField("carbon_number_contributions").isEmpty()) {
                double sum = 0;
                for (String part : row.getField("carbon_number_contributions").split(", ", -1)) {
                    final int blank = part.indexOf(' ');
                    sum +=
                            Integer.parseInt(part.substring(0, blank))
                                    * CONTRIBUTIONS.getOrDefault(
                                            part.substring(blank + 1), Double.NaN);
                }
                assertThat(number(row, "effective_carbon_number"))
                        .as(row.getField("name"))
                        .isCloseTo(sum, within(1e-9));
                checked++;
            } else {
                assertThat(row.getField("effective_carbon_number")).isEmpty();
            }
        }
        assertThat(checked).isGreaterThan(100);
    }

    /** Mass response against heptane, computed from published contributions. */
    @Test
    void massResponsesAreThoseOfPublishedContributions() throws IOException {
        final Map<String, Double> expected =
                Map.of(
                        "benzene",
                        1.09954681619172,
                        "toluene",
                        1.08751804299932,
                        "ethanol",
                        0.466094336755736,
                        "ethyl acetate",
                        0.446805552402788,
                        "methyl palmitate",
                        0.833630669570394,
                        "dichloromethane",
                        0.128102959011857);
        for (var e : expected.entrySet()) {
            final NamedCsvRecord row = row(e.getKey());
            assertThat(
                            number(row, "effective_carbon_number")
                                    / number(row, "molar_mass")
                                    / (7 / 100.205))
                    .as(e.getKey())
                    .isCloseTo(e.getValue(), within(2e-5));
        }
    }

    @Test
    void atLeastSixtyUsualAnalytesHaveABoilingPointAndDoubtfulOnesSaySo() throws IOException {
        int known = 0;
        for (NamedCsvRecord row : rows()) {
            assertThat(row.getField("source")).isNotEmpty();
            assertThat(row.getField("identity_source")).isNotEmpty();
            assertThat(row.getField("effective_carbon_number_source")).isNotEmpty();
            if (row.getField("boiling_point").isEmpty()) {
                assertThat(row.getField("flag")).as(row.getField("name")).isNotEmpty();
            } else if (!row.getField("name").startsWith("n-C")) {
                known++;
            }
        }
        assertThat(known).isGreaterThanOrEqualTo(60);
    }
}
