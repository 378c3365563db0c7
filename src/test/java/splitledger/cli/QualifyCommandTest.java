package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.Digests;

class QualifyCommandTest {
    @TempDir Path folder;

    @Test
    void theRecordIsPrintedAndWrittenAndNotOverwritten() throws Exception {
        final String out = folder.resolve("record").toString();
        final Bench.Ran ran = Bench.command("qualify", "--out", out);

        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();
        assertThat(ran.out()).contains("NIST StRD", "worked by hand", "cases pass", "Java ");
        assertThat(folder.resolve("record/qualification.csv")).isNotEmptyFile();
        assertThat(Files.readString(folder.resolve("record/qualification.html")))
                .startsWith("<!DOCTYPE html>")
                .contains("source revision");
        final Bench.Ran again = Bench.command("qualify", "--out", out);
        assertThat(again.exit()).isEqualTo(2);
        assertThat(again.err()).contains("a record that is there");
    }

    @Test
    void theRecordOnPaperTellsOnEverySheetWhatItIsAndLeavesRoomToSign() throws Exception {
        final String out = folder.resolve("record").toString();
        assertThat(Bench.command("qualify", "--out", out).exit()).isZero();

        final byte[] bytes = Files.readAllBytes(folder.resolve("record/qualification.pdf"));
        final String digest =
                Digests.sha256(Files.readAllBytes(folder.resolve("record/qualification.csv")));
        try (PDDocument document = Loader.loadPDF(bytes)) {
            final int pages = document.getNumberOfPages();
            assertThat(pages).isGreaterThan(1);
            for (int i = 1; i <= pages; i++) {
                assertThat(text(document, i))
                        .contains("Qualification of splitledger", "revision")
                        .contains("SHA-256 of qualification.csv " + digest)
                        .contains("page " + i + " of " + pages);
            }
            assertThat(text(document, 1))
                    .contains("The program is fit for", "Prepared", "Reviewed", "Approved")
                    .contains("cases pass");
            final List<String> outline = new ArrayList<>();
            document.getDocumentCatalog()
                    .getDocumentOutline()
                    .children()
                    .forEach(chapter -> outline.add(chapter.getTitle()));
            assertThat(outline)
                    .containsExactly("What came out", "Fitness statement and release", "The cases");
            assertThat(document.getDocumentInformation().getTitle())
                    .isEqualTo("Qualification of splitledger");
        }
        assertThat(Bench.command("qualify", "--replace", "--out", out).exit()).isZero();
        assertThat(folder.resolve("record/qualification.pdf")).hasBinaryContent(bytes);
    }

    private static String text(PDDocument document, int page) throws IOException {
        final PDFTextStripper stripper = new PDFTextStripper();
        stripper.setStartPage(page);
        stripper.setEndPage(page);
        return stripper.getText(document);
    }
}
