package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import splitledger.study.Evaluation;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PdfReportTest {
    private static final String DIGEST = "0123456789abcdef".repeat(4);

    private final Evaluation evaluation = SampleEvaluation.evaluation();
    private final PaperStamp stamp = new PaperStamp("0.1.0", "abc123", DIGEST);
    private byte[] bytes = {};
    private PDDocument document = new PDDocument();

    @BeforeAll
    void write() throws IOException {
        bytes = PdfReport.bytes(evaluation, stamp);
        document = Loader.loadPDF(bytes);
    }

    @AfterAll
    void close() throws IOException {
        document.close();
    }

    @Test
    void everyPageTellsTitleRevisionDigestAndItsNumberOfAll() throws IOException {
        final int pages = document.getNumberOfPages();

        assertThat(pages).isGreaterThan(2);
        for (int i = 1; i <= pages; i++) {
            assertThat(text(i, i))
                    .as("page " + i)
                    .contains("splitledger 0.1.0, revision abc123")
                    .contains("study digest " + DIGEST)
                    .contains("page " + i + " of " + pages)
                    .contains(evaluation.study().protocol().title().substring(0, 12));
        }
    }

    @Test
    void theFirstPageHoldsVerdictsAndResultsAndTheSecondTheSignatures() throws IOException {
        assertThat(text(1, 1))
                .contains("In short")
                .contains("fails the requirement")
                .contains("preparation P1")
                .contains("What limits the results most");
        assertThat(text(2, 2).replaceAll("\\s+", " "))
                .contains("Fitness statement and release")
                .contains("Prepared")
                .contains("Reviewed")
                .contains("Approved")
                .contains("The method is fit for");
    }

    @Test
    void theTextIsThatOfThePage() throws IOException {
        // without blanks: lines are broken where paper ends
        assertThat(new PDFTextStripper().getText(document).replaceAll("\\s+", ""))
                .contains("InventedLaboratory&<b>Sons</b>")
                .contains("vialnotcrimped")
                .contains("2026-03-04")
                .contains("Workedbyhand")
                .contains("doesnotreplaceitsreleasebythecompetentperson")
                .doesNotContain("not-estimable");
    }

    @Test
    void chaptersAndTheirPartsAreBookmarks() {
        final List<String> chapters = new ArrayList<>();
        int below = 0;
        for (PDOutlineItem item : document.getDocumentCatalog().getDocumentOutline().children()) {
            chapters.add(item.getTitle());
            for (PDOutlineItem child : item.children()) {
                assertThat(child.getTitle()).isNotBlank();
                below++;
            }
        }

        assertThat(chapters)
                .contains("In short", "Contents", "Uncertainty budgets", "Evidence", "Cautions");
        assertThat(below).isGreaterThan(5);
    }

    @Test
    void figuresAreDrawnWithLettersNotWithPixels() throws IOException {
        int drawn = 0;
        for (PDPage page : document.getPages()) {
            for (COSName name : page.getResources().getXObjectNames()) {
                assertThat(page.getResources().getXObject(name))
                        .isNotInstanceOf(PDImageXObject.class);
                if (page.getResources().getXObject(name) instanceof PDFormXObject) {
                    drawn++;
                }
            }
        }

        assertThat(drawn).isEqualTo(evaluation.figures().size());
        assertThat(text(1, document.getNumberOfPages()))
                .contains(evaluation.figures().get(0).x().label());
    }

    @Test
    void everyFontIsInTheFile() throws IOException {
        for (PDPage page : document.getPages()) {
            for (COSName name : page.getResources().getFontNames()) {
                final PDFont font = page.getResources().getFont(name);
                assertThat(font.isEmbedded()).as(font.getName()).isTrue();
            }
        }
    }

    @Test
    void propertiesNameTitleLaboratoryAndStudy() {
        assertThat(document.getDocumentInformation().getTitle())
                .isEqualTo(evaluation.study().protocol().title());
        assertThat(document.getDocumentInformation().getAuthor())
                .isEqualTo("Invented Laboratory & <b>Sons</b>");
        assertThat(document.getDocumentInformation().getSubject()).contains(DIGEST);
        assertThat(document.getDocumentCatalog().getLanguage()).isEqualTo("en-GB");
    }

    @Test
    void theSameEvaluationAndStampGiveTheSameBytes() throws IOException {
        assertThat(PdfReport.bytes(evaluation, stamp)).isEqualTo(bytes);
        assertThat(PdfReport.bytes(evaluation, new PaperStamp("0.1.0", "abc124", DIGEST)))
                .isNotEqualTo(bytes);
    }

    private String text(int from, int to) throws IOException {
        final PDFTextStripper stripper = new PDFTextStripper();
        stripper.setStartPage(from);
        stripper.setEndPage(to);
        stripper.setSortByPosition(true);
        return stripper.getText(document);
    }
}
