package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import splitledger.base.CodePoints;
import splitledger.study.Answer;
import splitledger.study.Criterion;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Judgement;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Verdict;

class CsvFilesTest {
    private final Evaluation evaluation = SampleEvaluation.evaluation();

    @Test
    void theHeadersAreThoseThatOthersRead() {
        assertThat(text(CsvFiles.results(evaluation)))
                .startsWith(
                        "characteristic,compound,condition,quantity,method,value,unit,"
                                + "standard_uncertainty,degrees_of_freedom,lower,upper,coverage,status,"
                                + "reason,criterion,basis,verdict,note\n");
        assertThat(text(CsvFiles.budgets(evaluation)))
                .startsWith(
                        "compound,level,symbol,effect,acts_on,source,value,unit,"
                                + "standard_uncertainty,evaluation,distribution,degrees_of_freedom,"
                                + "sensitivity,contribution,share_percent\n");
        assertThat(text(CsvFiles.correlations(evaluation)))
                .startsWith("compound,level,symbol_a,symbol_b,correlation,cause\n");
    }

    @Test
    void linesEndWithOneLineFeedAndThereIsNoMarkInFront() {
        assertThat(text(CsvFiles.results(evaluation)))
                .doesNotContain("\r")
                .doesNotStartWith("\uFEFF")
                .endsWith("\n")
                .doesNotEndWith("\n\n");
    }

    @Test
    void everyFindingHasItsRow() {
        assertThat(rows(CsvFiles.results(evaluation))).hasSameSizeAs(evaluation.findings());
    }

    @Test
    void anEstimateFillsEveryNumber() {
        final NamedCsvRecord row = row("slope", "limonene", "");

        assertThat(row.getField("value")).isEqualTo("0.051234");
        assertThat(row.getField("unit")).isEqualTo("L/mg");
        assertThat(row.getField("standard_uncertainty")).isEqualTo("0.000212");
        assertThat(row.getField("degrees_of_freedom")).isEqualTo("16");
        assertThat(row.getField("lower")).isNotEmpty();
        assertThat(row.getField("upper")).isNotEmpty();
        assertThat(row.getField("coverage")).isEqualTo("0.95");
        assertThat(row.getField("status")).isEqualTo("estimable");
        assertThat(row.getField("reason")).isEmpty();
        assertThat(row.getField("verdict")).isEqualTo("information");
    }

    @Test
    void aBoundFillsOneSideAndSaysWhy() {
        final NamedCsvRecord row = row("method-detection-limit", "limonene", "");

        assertThat(row.getField("value")).isEqualTo("0.4057");
        assertThat(row.getField("lower")).isEmpty();
        assertThat(row.getField("upper")).isEqualTo("0.8123");
        assertThat(row.getField("standard_uncertainty")).isEmpty();
        assertThat(row.getField("degrees_of_freedom")).isEmpty();
        assertThat(row.getField("status")).isEqualTo("bound-only");
        assertThat(row.getField("reason")).isEqualTo("too-few-blanks");
        assertThat(row.getField("verdict")).isEqualTo("undecided");
        assertThat(row.getField("note")).isEqualTo("needs at least 7 blanks, found 4");
        assertThat(row("sd-between", "limonene", "factor=analyst").getField("value")).isEmpty();
    }

    @Test
    void aStatisticFillsValueAndUnitOnly() {
        final NamedCsvRecord row = row("r-squared", "limonene", "");

        assertThat(row.getField("value")).isEqualTo("0.999412");
        assertThat(row.getField("unit")).isEqualTo("1");
        for (String name :
                List.of(
                        "standard_uncertainty",
                        "degrees_of_freedom",
                        "lower",
                        "upper",
                        "coverage")) {
            assertThat(row.getField(name)).as(name).isEmpty();
        }
    }

    @Test
    void whatCannotBeGivenHasItsRowWithReasonAndNumbersMetAndNeeded() {
        final NamedCsvRecord row = row("curvature-p", "limonene", "");

        assertThat(row.getField("value")).isEmpty();
        assertThat(row.getField("status")).isEqualTo("not-estimable");
        assertThat(row.getField("reason")).isEqualTo("too-few-levels");
        assertThat(row.getField("verdict")).isEqualTo("information");
        assertThat(row.getField("note"))
                .isEqualTo("needs at least 3 levels with 2 preparations each, found 2");
        assertThat(row("limit-verified", "limonene", "").getField("verdict"))
                .isEqualTo("not-shown");
    }

    @Test
    void infiniteDegreesOfFreedomAreInf() {
        assertThat(
                        find(r -> r.getField("quantity").equals("breakdown"))
                                .getField("degrees_of_freedom"))
                .isEqualTo("inf");
    }

    @Test
    void severalCriteriaAreJoinedAndTheGravestVerdictCounts() {
        final NamedCsvRecord row = row("rsd-repeatability", "linalyl acetate", "");

        assertThat(row.getField("criterion")).isEqualTo("at most 2 %; at most 5 %");
        assertThat(row.getField("basis")).isEqualTo("observed");
        assertThat(row.getField("verdict")).isEqualTo("fails");
    }

    @Test
    void theBasisIsThatOfTheGravestVerdictWhereTheyDiffer() {
        final Criterion observed = SampleFindings.atMost("breakdown", 5, "%");
        final Criterion bound =
                new Criterion(
                        "breakdown",
                        observed.of(),
                        observed.to(),
                        observed.method(),
                        observed.condition(),
                        observed.limit(),
                        "%",
                        Criterion.Basis.UPPER_BOUND,
                        0.05,
                        "",
                        "",
                        observed.place());
        final Finding finding =
                Finding.of(
                                Key.of("losses", "a", "breakdown", "raw"),
                                new Answer.Statistic(4.9, "%"),
                                Rows.NONE,
                                "")
                        .judged(
                                List.of(
                                        new Judgement(observed, Verdict.MEETS, ""),
                                        new Judgement(bound, Verdict.UNDECIDED, "")));

        final NamedCsvRecord row = rows(CsvFiles.results(with(List.of(finding)))).get(0);

        assertThat(row.getField("basis")).isEqualTo("upper-bound");
        assertThat(row.getField("verdict")).isEqualTo("undecided");
    }

    @Test
    void conditionsAreSortedByNameAndEncoded() {
        assertThat(find(r -> r.getField("quantity").equals("breakdown")).getField("condition"))
                .isEqualTo("a%3Bb=c%3Dd%25");
    }

    @Test
    void aTextThatASpreadsheetWouldRunGetsAnApostrophe() {
        final NamedCsvRecord row = find(r -> r.getField("quantity").equals("breakdown"));

        assertThat(row.getField("compound")).isEqualTo("'" + SampleEvaluation.FORMULA);
        assertThat(row.getField("method")).isEqualTo("'+raw");
        assertThat(rows(CsvFiles.budgets(evaluation)))
                .filteredOn(r -> r.getField("symbol").equals("V"))
                .allMatch(r -> r.getField("source").equals("'" + SampleEvaluation.FORMULA));
    }

    @Test
    void rowsAreInTheOrderOfTheirPrintedCellsByCodePoint() {
        final List<NamedCsvRecord> rows = rows(CsvFiles.results(evaluation));
        final Comparator<NamedCsvRecord> order =
                cell("characteristic")
                        .thenComparing(cell("compound"))
                        .thenComparing(cell("condition"))
                        .thenComparing(cell("quantity"))
                        .thenComparing(cell("method"));

        assertThat(rows).isSortedAccordingTo(order);
        final List<String> compounds =
                rows.stream()
                        .filter(r -> r.getField("characteristic").equals("discrimination"))
                        .map(r -> r.getField("compound"))
                        .toList();
        assertThat(compounds)
                .as("U+FB00 comes before U+1F600, though its UTF-16 units come after")
                .endsWith("\uFB00-compound", "\uD83D\uDE00-compound");
        assertThat(
                        rows.stream()
                                .filter(
                                        r ->
                                                r.getField("quantity")
                                                        .equals("back-calculated-deviation"))
                                .filter(r -> r.getField("compound").equals("limonene"))
                                .map(r -> r.getField("condition")))
                .containsSubsequence("level=L1", "level=L10", "level=L2");
    }

    @Test
    void anEvaluationFromAnotherOrderGivesTheSameBytes() {
        final List<Finding> reversed = new java.util.ArrayList<>(evaluation.findings());
        java.util.Collections.reverse(reversed);

        assertThat(CsvFiles.results(with(reversed))).isEqualTo(CsvFiles.results(evaluation));
    }

    @Test
    void everyBudgetHasOneCombinedRowAndSharesOfOneHundredPercent() {
        final List<NamedCsvRecord> rows = rows(CsvFiles.budgets(evaluation));
        final TreeSet<String> budgets = new TreeSet<>(CodePoints.ORDER);
        rows.forEach(r -> budgets.add(r.getField("compound") + " " + r.getField("level")));

        assertThat(budgets).hasSize(8);
        for (String budget : budgets) {
            final List<NamedCsvRecord> own =
                    rows.stream()
                            .filter(
                                    r ->
                                            (r.getField("compound") + " " + r.getField("level"))
                                                    .equals(budget))
                            .toList();
            final NamedCsvRecord combined = own.get(own.size() - 1);
            assertThat(combined.getField("symbol")).isEqualTo("combined");
            assertThat(combined.getField("contribution"))
                    .isEqualTo(combined.getField("standard_uncertainty"));
            assertThat(combined.getField("share_percent")).isEqualTo("100");
            for (String name :
                    List.of(
                            "effect",
                            "acts_on",
                            "source",
                            "evaluation",
                            "distribution",
                            "sensitivity")) {
                assertThat(combined.getField(name)).as(name).isEmpty();
            }
            assertThat(
                            own.subList(0, own.size() - 1).stream()
                                    .mapToDouble(
                                            r -> Double.parseDouble(r.getField("share_percent")))
                                    .sum())
                    .isCloseTo(100, org.assertj.core.api.Assertions.within(1e-9));
        }
    }

    @Test
    void filesWithoutRowsHaveTheirHeader() {
        final Evaluation empty =
                new Evaluation(
                        evaluation.study(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        1);

        assertThat(text(CsvFiles.results(empty)).lines()).hasSize(1);
        assertThat(text(CsvFiles.budgets(empty)).lines()).hasSize(1);
        assertThat(text(CsvFiles.correlations(empty)).lines()).hasSize(1);
    }

    private Evaluation with(List<Finding> findings) {
        return new Evaluation(
                evaluation.study(),
                List.of(),
                findings,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                1);
    }

    private NamedCsvRecord row(String quantity, String compound, String condition) {
        return find(
                r ->
                        r.getField("quantity").equals(quantity)
                                && r.getField("compound").equals(compound)
                                && r.getField("condition").equals(condition));
    }

    private NamedCsvRecord find(Predicate<NamedCsvRecord> wanted) {
        return rows(CsvFiles.results(evaluation)).stream().filter(wanted).findFirst().orElseThrow();
    }

    private static Comparator<NamedCsvRecord> cell(String name) {
        return Comparator.comparing(r -> r.getField(name), CodePoints.ORDER);
    }

    private static List<NamedCsvRecord> rows(byte[] csv) {
        return CsvReader.builder().ofNamedCsvRecord(text(csv)).stream().toList();
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8);
    }
}
