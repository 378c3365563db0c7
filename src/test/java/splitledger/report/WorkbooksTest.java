package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Finding;

/** The workbook opened by another library than the one that wrote it. */
class WorkbooksTest {
    private static final Evaluation SAMPLE = SampleEvaluation.evaluation();

    private static XSSFWorkbook opened() throws IOException {
        return new XSSFWorkbook(
                new ByteArrayInputStream(Workbooks.tables(SAMPLE, "0.1.0-SNAPSHOT")));
    }

    @Test
    void everySheetHasTheHeaderOfItsTableAndKeepsItInSight() throws IOException {
        try (XSSFWorkbook book = opened()) {
            final List<String> names = new ArrayList<>();
            for (Sheet sheet : book) {
                names.add(sheet.getSheetName());
                assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
                assertThat(sheet.getPaneInformation().getHorizontalSplitPosition())
                        .isEqualTo((short) 1);
            }
            assertThat(names)
                    .containsExactly(
                            "results", "budget", "budget-correlations", "choices", "flags");
            assertThat(texts(book.getSheet("results").getRow(0)))
                    .startsWith("characteristic", "compound", "condition", "quantity", "method")
                    .contains("value", "unit");
            assertThat(texts(book.getSheet("choices").getRow(0)))
                    .containsExactly("characteristic", "compound", "what", "why", "source");
            assertThat(book.getSheet("choices").getLastRowNum()).isEqualTo(SAMPLE.choices().size());
            assertThat(book.getSheet("flags").getLastRowNum()).isEqualTo(SAMPLE.flags().size());
        }
    }

    @Test
    void numbersAreNumbersToTheLastDigit() throws IOException {
        try (XSSFWorkbook book = opened()) {
            final Sheet results = book.getSheet("results");
            final List<Finding> printed =
                    SAMPLE.findings().stream()
                            .sorted(java.util.Comparator.comparing(Finding::key, CsvFiles.PRINTED))
                            .toList();
            assertThat(results.getLastRowNum()).isEqualTo(printed.size());
            final int value = CsvFiles.RESULTS.indexOf("value");
            int estimates = 0;
            for (int i = 0; i < printed.size(); i++) {
                if (printed.get(i).answer() instanceof Answer.Estimate e) {
                    final Row row = results.getRow(i + 1);
                    assertThat(row.getCell(value).getNumericCellValue()).isEqualTo(e.value());
                    assertThat(row.getCell(value + 1).getStringCellValue()).isEqualTo(e.unit());
                    assertThat(row.getCell(value + 2).getNumericCellValue())
                            .isEqualTo(e.standardUncertainty());
                    estimates++;
                }
            }
            assertThat(estimates).isPositive();
        }
    }

    @Test
    void aTextThatLooksLikeAFormulaStaysAText() throws IOException {
        int formulas = 0;
        final List<String> all = new ArrayList<>();
        try (XSSFWorkbook book = opened()) {
            for (Sheet sheet : book) {
                for (Row row : sheet) {
                    for (Cell cell : row) {
                        formulas += cell.getCellType() == CellType.FORMULA ? 1 : 0;
                        if (cell.getCellType() == CellType.STRING) {
                            all.add(cell.getStringCellValue());
                        }
                    }
                }
            }
        }

        assertThat(formulas).isZero();
        assertThat(all).anyMatch(text -> text.contains(SampleEvaluation.FORMULA));
        assertThat(all).anyMatch(text -> text.contains(SampleEvaluation.HOSTILE));
    }

    @Test
    void noTimeOfWritingIsInItSoThatTwoAreTheSame() throws IOException, InterruptedException {
        final byte[] first = Workbooks.tables(SAMPLE, "0.1.0");
        Thread.sleep(1100); // the stamp of the library has seconds
        assertThat(Workbooks.tables(SAMPLE, "0.1.0")).isEqualTo(first);
    }

    private static List<String> texts(Row row) {
        final List<String> texts = new ArrayList<>();
        row.forEach(cell -> texts.add(cell.getStringCellValue()));
        return texts;
    }
}
