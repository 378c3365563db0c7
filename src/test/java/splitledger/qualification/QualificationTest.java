package splitledger.qualification;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.base.CsvRows;
import splitledger.base.ProblemException;
import splitledger.qualification.Qualification.Outcome;

/** The cases that a user runs, run here too: published values to all published digits. */
class QualificationTest {
    private static final int AT_LEAST = 60;

    @Test
    void everyCaseComesOutAsItWasPublished() throws ProblemException, IOException {
        final List<Outcome> outcomes = Qualification.run();

        assertThat(outcomes).hasSizeGreaterThanOrEqualTo(AT_LEAST);
        assertThat(outcomes).filteredOn(o -> !o.pass()).isEmpty();
        assertThat(QualificationRecord.passed(outcomes)).isEqualTo(outcomes.size());
    }

    @Test
    void everyCaseHasASourceANameOfItsOwnAndAStudyThatIsThere() {
        final List<ReferenceCase> cases = Shipped.cases();
        final TreeSet<String> used = new TreeSet<>();

        assertThat(cases).extracting(ReferenceCase::id).doesNotHaveDuplicates();
        assertThat(cases)
                .allSatisfy(
                        c -> {
                            assertThat(c.source()).isNotBlank();
                            assertThat(c.tolerance()).isNotNegative();
                            used.add(c.study());
                        });
        used.remove("tables");
        assertThat(Shipped.studies().keySet()).containsExactlyInAnyOrderElementsOf(used);
    }

    /** More than half a unit of the last published digit needs a reason beside the source. */
    @Test
    void aToleranceBeyondTheLastPublishedDigitHasItsReason() {
        assertThat(Shipped.cases())
                .filteredOn(c -> !c.cell().equals("reason"))
                .filteredOn(c -> c.tolerance() > 1.01 * half(c.expected()))
                .isNotEmpty()
                .allSatisfy(
                        c ->
                                assertThat(c.source())
                                        .as(c.id())
                                        .containsAnyOf(
                                                "printed from rounded steps",
                                                "t of 16 degrees",
                                                "quadrature",
                                                "sum of squares",
                                                "NIST StRD",
                                                "worked by hand",
                                                "JCGM 100",
                                                "ISO 5725-2"));
    }

    private static double half(String printed) {
        final int point = printed.indexOf('.');
        final String digits = printed.replaceFirst("[eE].*", "");
        final int decimals = point < 0 ? 0 : digits.length() - point - 1;
        final double power =
                printed.matches(".*[eE].*")
                        ? Double.parseDouble("1e" + printed.replaceFirst(".*[eE]", ""))
                        : 1;
        return 0.5 * Double.parseDouble("1e-" + decimals) * power;
    }

    @Test
    void aCaseThatComesOutOtherwiseDoesNotPass() throws ProblemException, IOException {
        final ReferenceCase slope =
                Shipped.cases().stream()
                        .filter(c -> c.study().equals("norris") && c.quantity().equals("slope"))
                        .findFirst()
                        .orElseThrow();
        final List<Outcome> outcomes =
                Qualification.run(
                        List.of(
                                slope,
                                changed(slope, slope.quantity(), "1.00211682802045"),
                                changed(slope, "no-such-quantity", slope.expected())));

        assertThat(outcomes).extracting(Outcome::pass).containsExactly(true, false, false);
        assertThat(outcomes.get(2).computed()).isEqualTo("0 findings");
        final String page =
                new String(
                        QualificationRecord.html(
                                outcomes, new QualificationRecord.Tried("here", "there")),
                        StandardCharsets.UTF_8);
        assertThat(page).contains("1 of 3 cases pass").contains("class=\"marked\"");
    }

    private static ReferenceCase changed(ReferenceCase c, String quantity, String expected) {
        return new ReferenceCase(
                c.id(),
                c.study(),
                c.source(),
                c.characteristic(),
                c.compound(),
                c.condition(),
                quantity,
                c.method(),
                c.cell(),
                expected,
                c.tolerance());
    }

    @ParameterizedTest
    @CsvSource({
        "1, 1, 16",
        "1.0078125, 1, 2.1",
        "1.5, 1, 0.3",
        "0.001, 0, 3",
        "-1, 1, 0",
        "2, 1, 0"
    })
    void agreedDigitsAreThoseOfTheRelativeDifference(
            double computed, double expected, double digits) {
        assertThat(Qualification.digits(computed, expected)).isEqualTo(digits);
    }

    @Test
    void theRecordHasTheSameCasesAsATableAndAsAPage() throws ProblemException, IOException {
        final List<Outcome> outcomes =
                Qualification.run(
                        Shipped.cases().stream().filter(c -> c.study().equals("tables")).toList());
        final List<List<String>> rows =
                CsvRows.of(new String(QualificationRecord.csv(outcomes), StandardCharsets.UTF_8));
        final String page =
                new String(
                        QualificationRecord.html(
                                outcomes, new QualificationRecord.Tried("a & b", "c")),
                        StandardCharsets.UTF_8);

        assertThat(rows).hasSize(outcomes.size() + 1);
        assertThat(rows.get(0)).endsWith("computed", "agreed_digits", "pass");
        assertThat(page).contains("a &amp; b").doesNotContain("http").doesNotContain("<script");
        final List<String> ids = new ArrayList<>();
        outcomes.forEach(o -> ids.add(">" + o.known().id() + "<"));
        assertThat(page).contains(ids);
    }
}
