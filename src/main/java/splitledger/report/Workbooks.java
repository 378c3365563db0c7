package splitledger.report;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.dhatim.fastexcel.Workbook;
import splitledger.base.CodePoints;
import splitledger.base.StableZip;
import splitledger.base.ZipParts;
import splitledger.study.Choice;
import splitledger.study.Evaluation;
import splitledger.study.Flag;

/**
 * The tables as one workbook (Office Open XML): results, budgets with their correlations, choices
 * and flags. Numbers are numbers with every digit, in the unit that the row's column {@code unit}
 * names; texts are texts whatever they begin with, so that none becomes a formula.
 */
final class Workbooks {
    private static final List<String> CHOICES =
            List.of("characteristic", "compound", "what", "why", "source");
    private static final List<String> FLAGS = List.of("file", "row", "column", "subject", "what");

    /** The library stamps the workbook with the moment of writing; a fixed one stands instead. */
    private static final Pattern CREATED = Pattern.compile("(<dcterms:created[^>]*>)[^<]*");

    private static final String FIXED_TIME = "$12000-01-01T00:00:00Z";
    private static final String PROPERTIES = "docProps/core.xml";

    private Workbooks() {}

    /** The workbook; the same evaluation and version give the same bytes under one Java. */
    static byte[] tables(Evaluation evaluation, String programVersion) throws IOException {
        final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        final Workbook book =
                new Workbook(bytes, "splitledger", spreadsheetVersion(programVersion));
        final Sheet results = Sheet.of(book, "results", CsvFiles.RESULTS);
        CsvFiles.results(evaluation, results);
        results.close();
        final Sheet budget = Sheet.of(book, "budget", CsvFiles.BUDGET);
        CsvFiles.budgets(evaluation, budget);
        budget.close();
        final Sheet related = Sheet.of(book, "budget-correlations", CsvFiles.CORRELATIONS);
        CsvFiles.correlations(evaluation, related);
        related.close();
        choices(evaluation, Sheet.of(book, "choices", CHOICES));
        flags(evaluation, Sheet.of(book, "flags", FLAGS));
        book.finish();
        return timeless(bytes.toByteArray());
    }

    private static void choices(Evaluation evaluation, Sheet sheet) {
        for (Choice c : evaluation.choices()) {
            sheet.cell(c.characteristic()).cell(c.compound()).cell(c.what()).cell(c.why());
            sheet.cell(c.source()).endRow();
        }
        sheet.close();
    }

    private static void flags(Evaluation evaluation, Sheet sheet) {
        for (Flag f : evaluation.flags()) {
            sheet.cell(f.place().file());
            if (f.place().row() > 0) {
                sheet.cell(f.place().row());
            } else {
                sheet.empty();
            }
            sheet.cell(f.place().path()).cell(f.subject()).cell(f.what()).endRow();
        }
        sheet.close();
    }

    /** The format knows two whole numbers with a point between them, no third. */
    private static String spreadsheetVersion(String programVersion) {
        final Matcher m = Pattern.compile("(\\d{1,4})\\.(\\d{1,4}).*").matcher(programVersion);
        return m.matches() ? m.group(1) + "." + m.group(2) : "0.0";
    }

    /** The same workbook without the moment of its writing. */
    private static byte[] timeless(byte[] workbook) throws IOException {
        final SortedMap<String, byte[]> parts = new TreeMap<>(CodePoints.ORDER);
        parts.putAll(ZipParts.of(workbook));
        final byte[] stamped = parts.getOrDefault(PROPERTIES, new byte[0]);
        final String text = new String(stamped, StandardCharsets.UTF_8);
        parts.put(
                PROPERTIES,
                CREATED.matcher(text).replaceAll(FIXED_TIME).getBytes(StandardCharsets.UTF_8));
        final ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (StableZip zip = new StableZip(out)) {
            for (Map.Entry<String, byte[]> part : parts.entrySet()) {
                zip.add(part.getKey(), part.getValue());
            }
        }
        return out.toByteArray();
    }
}
