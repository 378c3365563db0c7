package splitledger.report;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.TreeSet;
import splitledger.base.Vault;
import splitledger.chart.ChartRenderer;
import splitledger.chart.PngRenderer;
import splitledger.study.Evaluation;
import splitledger.study.Figure;

/** Writes the files of an evaluation. Thread-safe: every call stands alone. */
public final class ReportWriter {
    private ReportWriter() {}

    /**
     * Writes what people read: {@code tables.xlsx}, {@code figures/*.svg}, {@code report.html} and
     * {@code extract.html}. The same evaluation and stamp give the same bytes.
     *
     * @param evaluation what is written
     * @param out where it is written
     * @param stamp by which the pages are known
     * @throws IOException if a file cannot be written
     * @throws IllegalArgumentException if two figures have the same id
     */
    public static void pages(Evaluation evaluation, Vault out, PaperStamp stamp)
            throws IOException {
        final List<Figure> figures = evaluation.figures();
        final TreeSet<String> ids = new TreeSet<>();
        for (Figure figure : figures) {
            if (!figure.id().matches("[A-Za-z0-9][A-Za-z0-9_.-]*") || !ids.add(figure.id())) {
                throw new IllegalArgumentException(
                        "figure id = " + figure.id() + ", must be unique and safe as a file name");
            }
        }
        final List<byte[]> drawn = figures.parallelStream().map(ChartRenderer::svg).toList();
        for (int i = 0; i < figures.size(); i++) {
            out.write("figures/" + figures.get(i).id() + ".svg", drawn.get(i));
        }
        out.write("tables.xlsx", Workbooks.tables(evaluation, stamp.program()));
        final HtmlReport.Told told = HtmlReport.page(evaluation, drawn, stamp.program());
        out.write("report.html", HtmlReport.bytes(told));
        out.write("extract.html", HtmlReport.extract(evaluation, told.page(), stamp));
    }

    /**
     * Writes {@code results.csv}, {@code budget.csv}, {@code budget-correlations.csv} and {@code
     * results.json}: what is the same byte for byte on every machine.
     *
     * @param evaluation what is written
     * @param out where it is written
     * @param programVersion version of the program, as the record states it
     * @throws IOException if a file cannot be written
     */
    public static void tables(Evaluation evaluation, Vault out, String programVersion)
            throws IOException {
        out.write("results.csv", CsvFiles.results(evaluation));
        out.write("budget.csv", CsvFiles.budgets(evaluation));
        out.write("budget-correlations.csv", CsvFiles.correlations(evaluation));
        out.write("results.json", ResultsJson.bytes(evaluation, programVersion));
    }

    /**
     * Writes {@code report.pdf}: what {@code report.html} tells, to be signed. The same evaluation
     * and stamp give the same bytes.
     *
     * @param evaluation what is written
     * @param out where it is written
     * @param stamp what stands on every page
     * @throws IOException if the file cannot be made or written
     */
    public static void writePdf(Evaluation evaluation, Vault out, PaperStamp stamp)
            throws IOException {
        out.write("report.pdf", PdfReport.bytes(evaluation, stamp));
    }

    /**
     * Writes {@code figures/*.png}: the charts in points, see {@link PngRenderer}. The same
     * evaluation gives the same bytes with the same Java.
     *
     * @param evaluation what is written; its figures' ids are unique
     * @param out where it is written
     * @throws IOException if a file cannot be made or written
     */
    public static void writePngs(Evaluation evaluation, Vault out) throws IOException {
        final List<byte[]> painted;
        try {
            painted = evaluation.figures().parallelStream().map(ReportWriter::png).toList();
        } catch (UncheckedIOException e) {
            throw new IOException("a chart cannot be painted", e);
        }
        for (int i = 0; i < painted.size(); i++) {
            out.write("figures/" + evaluation.figures().get(i).id() + ".png", painted.get(i));
        }
    }

    private static byte[] png(Figure figure) {
        try {
            return PngRenderer.png(figure);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
