package splitledger.intake;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackInputStream;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import splitledger.base.Problem;
import splitledger.study.InputFile;

/**
 * One CSV file (RFC 4180: commas, double quotes; UTF-8 with or without byte order mark, LF or CRLF)
 * streamed row by row with the line of each row. Rows as wide as the header pass on; others are
 * problems.
 */
final class CsvFile {
    private static final Pattern LINE = Pattern.compile("\\(record starting at line (\\d+)\\)");

    /** Who takes the rows. */
    interface Rows {
        /**
         * Takes the header.
         *
         * @param headings stripped of blanks at their ends
         * @return whether rows are wanted
         */
        boolean header(int line, List<String> headings);

        /** Takes one row, as wide as the header. */
        void row(int line, CsvRecord cells);
    }

    private final String written;
    private final Reading reading;
    private final Rows rows;
    private int width;
    private int lastLine;
    private int problems;
    private boolean wanted;
    private boolean filled;

    private CsvFile(String written, Reading reading, Rows rows) {
        this.written = written;
        this.reading = reading;
        this.rows = rows;
    }

    /**
     * Reads a file and records it with its digest.
     *
     * @param in its bytes; closed at the end
     * @param name its name in the vault
     * @param written its name in the protocol
     * @return whether every row could be passed on
     * @throws IOException if it cannot be read at all
     */
    static boolean read(
            InputStream in, String role, String name, String written, Reading reading, Rows rows)
            throws IOException {
        final CsvFile file = new CsvFile(written, reading, rows);
        final MessageDigest digest = digest();
        try (PushbackInputStream bytes =
                new PushbackInputStream(new DigestInputStream(in, digest), 3)) {
            file.read(bytes);
            bytes.transferTo(java.io.OutputStream.nullOutputStream());
        }
        reading.input(
                new InputFile(role, name, written, HexFormat.of().formatHex(digest.digest())));
        return file.problems == 0 && file.wanted;
    }

    private void read(PushbackInputStream bytes) throws IOException {
        if (!skipMark(bytes)) {
            problem(
                    1,
                    "a file in UTF-16",
                    "a file in UTF-8",
                    "export or save the table as CSV UTF-8");
            return;
        }
        final InputStreamReader text =
                new InputStreamReader(
                        bytes,
                        StandardCharsets.UTF_8
                                .newDecoder()
                                .onMalformedInput(CodingErrorAction.REPORT)
                                .onUnmappableCharacter(CodingErrorAction.REPORT));
        final CsvReader<CsvRecord> csv =
                CsvReader.builder()
                        .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                        .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                        .allowUnclosedQuote(false)
                        .ofCsvRecord(text);
        try {
            csv.forEach(this::take);
            checkFilled();
        } catch (CsvParseException e) {
            tellQuote(e);
        } catch (UncheckedIOException e) {
            if (!(e.getCause() instanceof CharacterCodingException)) {
                throw e.getCause();
            }
            problem(
                    0,
                    "characters that are not UTF-8 (after line " + lastLine + ")",
                    "a file in UTF-8",
                    "export or save the table as CSV UTF-8");
        }
    }

    private void take(CsvRecord cells) {
        final int line = (int) cells.getStartingLineNumber();
        lastLine = line;
        if (width == 0) {
            header(line, cells);
            return;
        }
        if (!wanted || isBlank(cells)) {
            return;
        }
        filled = true;
        if (cells.getFieldCount() != width) {
            problem(
                    line,
                    cells.getFieldCount() + " cells",
                    width + " cells, as in the header",
                    "add or remove commas; a text that holds a comma needs quotes around it");
            return;
        }
        rows.row(line, cells);
    }

    private void header(int line, CsvRecord cells) {
        width = cells.getFieldCount();
        final List<String> headings = cells.getFields().stream().map(String::strip).toList();
        final String only = headings.get(0);
        if (width == 1 && (only.indexOf(';') >= 0 || only.indexOf('\t') >= 0)) {
            problem(
                    line,
                    "a header without commas: '" + only.replace('\t', ' ') + "'",
                    "headings with commas between them",
                    "export the table with commas between cells and dots as decimal marks");
            return;
        }
        wanted = rows.header(line, headings);
    }

    /** A row of empty cells, as spreadsheets leave them behind a table. */
    private static boolean isBlank(CsvRecord cells) {
        for (int i = 0; i < cells.getFieldCount(); i++) {
            if (!cells.getField(i).isBlank()) {
                return false;
            }
        }
        return true;
    }

    private void checkFilled() {
        if (width == 0) {
            problem(0, "an empty file", "a header and rows", "export the table again");
        } else if (wanted && !filled) {
            problem(
                    lastLine,
                    "a header without rows",
                    "a header and rows",
                    "export the table again");
        }
    }

    private void tellQuote(CsvParseException e) {
        final String message = String.valueOf(e.getMessage());
        final Matcher matcher = LINE.matcher(message);
        final int line = matcher.find() ? Integer.parseInt(matcher.group(1)) : lastLine + 1;
        final boolean unclosed = message.startsWith("Unclosed");
        problem(
                line,
                unclosed
                        ? "a quote that is not closed"
                        : "text behind a closing quote, or a cell without end",
                "quotes in pairs around a whole cell",
                "close the quote; a quote inside a quoted cell is written twice");
    }

    private void problem(int line, String found, String expected, String hint) {
        problems++;
        if (problems <= Reading.LISTED) {
            reading.problem(new Problem(written, line, "", found, expected, hint));
        } else if (problems == Reading.LISTED + 1) {
            reading.problem(
                    new Problem(
                            written, line, "", "more of the like from here on", expected, hint));
        }
    }

    /** Skips a UTF-8 byte order mark; false if the mark is that of UTF-16. */
    private static boolean skipMark(PushbackInputStream bytes) throws IOException {
        final byte[] start = bytes.readNBytes(3);
        if (start.length == 3
                && start[0] == (byte) 0xEF
                && start[1] == (byte) 0xBB
                && start[2] == (byte) 0xBF) {
            return true;
        }
        bytes.unread(start);
        return start.length < 2
                || !((start[0] == (byte) 0xFF && start[1] == (byte) 0xFE)
                        || (start[0] == (byte) 0xFE && start[1] == (byte) 0xFF));
    }

    private static MessageDigest digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
