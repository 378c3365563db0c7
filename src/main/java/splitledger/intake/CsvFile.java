package splitledger.intake;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One text table (RFC 4180 but for the character between cells and the encoding; CR, LF or CRLF)
 * streamed row by row with the line of each row.
 */
final class CsvFile {
    private static final Pattern LINE = Pattern.compile("\\(record starting at line (\\d+)\\)");
    private static final char MARK = '\ufeff';

    private final RowTaker taker;
    private final List<String> found = new ArrayList<>();
    private int offset;

    private CsvFile(RowTaker taker) {
        this.taker = taker;
    }

    /** Reads a table; see {@link TableFile#read}. */
    static boolean read(
            InputStream bytes,
            Encoding encoding,
            boolean packed,
            String written,
            TableFormat stated,
            Reading reading,
            TableFile.Rows rows)
            throws IOException {
        final CsvFile file = new CsvFile(new RowTaker(written, reading, rows));
        final Optional<Charset> charset = stated.encoding().or(encoding::charset);
        if (charset.isEmpty()) {
            file.taker.problem(
                    encoding.badLine(),
                    "a file that is no text, or of an unknown encoding",
                    "text in UTF-8, UTF-16 or Windows-1252, or a workbook of the form .xlsx",
                    "export or save the table as CSV UTF-8");
            return false;
        }
        if (packed) {
            file.found.add("packed with gzip");
        }
        file.found.add(stated.encoding().isPresent() ? charset.get().name() : encoding.words());
        try {
            file.read(bytes, charset.get(), stated);
        } catch (CharacterCodingException e) {
            file.taker.problem(
                    Math.max(encoding.badLine(), file.taker.lastLine()),
                    "characters that are not " + charset.get().name(),
                    "a file in " + charset.get().name(),
                    "change or take out encoding at this table, or save the table as CSV UTF-8");
        }
        return file.taker.isWhole();
    }

    private void read(InputStream bytes, Charset charset, TableFormat stated) throws IOException {
        final Reader text =
                new BufferedReader(
                        new InputStreamReader(
                                bytes,
                                charset.newDecoder()
                                        .onMalformedInput(CodingErrorAction.REPORT)
                                        .onUnmappableCharacter(CodingErrorAction.REPORT)),
                        1 << 16);
        final char[] buffer = new char[Limits.HEAD_CHARS];
        final int length = fill(text, buffer);
        final int start = length > 0 && buffer[0] == MARK ? 1 : 0;
        final String head = new String(buffer, start, length - start);
        final Optional<HeaderFinder.Found> header =
                HeaderFinder.find(head, taker.required(), stated);
        if (header.isEmpty()) {
            taker.noHeader(stated);
            return;
        }
        tell(header.get());
        offset = header.get().line() - 1;
        final int skipped = start + header.get().offset();
        parse(new HeadReader(buffer, skipped, length, text), header.get().delimiter());
    }

    private void tell(HeaderFinder.Found header) {
        found.add(
                switch (header.delimiter()) {
                    case '\t' -> "tabs between cells";
                    default -> "'" + header.delimiter() + "' between cells";
                });
        found.add("headings in line " + header.line());
        taker.begin(found, header.delimiter() == ',');
    }

    private void parse(Reader text, char delimiter) throws IOException {
        final Handler handler = new Handler();
        try (CsvReader<RowCells> csv =
                CsvReader.builder()
                        .fieldSeparator(delimiter)
                        .allowUnclosedQuote(false)
                        .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                        .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                        .maxBufferSize(Limits.ROW_CHARS)
                        .build(handler, text)) {
            for (RowCells cells : csv) {
                taker.begin(cells.line());
                taker.take(cells);
            }
            taker.end();
        } catch (CsvParseException e) {
            if (e.getCause() instanceof RowCells.TooLargeException) {
                taker.tooLarge(handler.cells.line());
            } else if (e.getCause() instanceof UncheckedIOException io) {
                throw io.getCause();
            } else {
                tellQuote(e, handler.cells.line());
            }
        } catch (RowCells.TooLargeException e) {
            taker.tooLarge(handler.cells.line());
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private void tellQuote(CsvParseException e, int last) {
        final String message = String.valueOf(e.getMessage());
        if (message.contains("exceed") || message.contains("limit")) {
            taker.tooLarge(last);
            return;
        }
        final Matcher matcher = LINE.matcher(message);
        final int line = matcher.find() ? Integer.parseInt(matcher.group(1)) + offset : last;
        final boolean unclosed = message.startsWith("Unclosed");
        taker.problem(
                line,
                unclosed
                        ? "a quote that is not closed"
                        : "text behind a closing quote, or a cell without end",
                "quotes in pairs around a whole cell",
                "close the quote; a quote inside a quoted cell is written twice");
    }

    private static int fill(Reader text, char[] buffer) throws IOException {
        int length = 0;
        while (length < buffer.length) {
            final int n = text.read(buffer, length, buffer.length - length);
            if (n < 0) {
                break;
            }
            length += n;
        }
        return length;
    }

    /** Copies the characters of each row into one object. */
    private final class Handler extends AbstractBaseCsvCallbackHandler<RowCells> {
        private final RowCells cells = new RowCells();

        @Override
        protected void handleBegin(long startingLine) {
            cells.clear();
            cells.line((int) startingLine + offset);
        }

        @Override
        protected void handleField(int index, char[] text, int from, int length, boolean quoted) {
            cells.add(text, from, length);
        }

        @Override
        protected RowCells buildRecord() {
            return cells;
        }
    }

    /** The rest of the head, then the rest of the file. */
    private static final class HeadReader extends Reader {
        private final char[] head;
        private final int end;
        private final Reader rest;
        private int at;

        HeadReader(char[] head, int from, int to, Reader rest) {
            this.head = head;
            at = from;
            end = to;
            this.rest = rest;
        }

        @Override
        public int read(char[] into, int offset, int length) throws IOException {
            if (at == end) {
                return rest.read(into, offset, length);
            }
            final int n = Math.min(length, end - at);
            System.arraycopy(head, at, into, offset, n);
            at += n;
            return n;
        }

        @Override
        public void close() {
            // whoever opened the file closes it: its digest needs what follows
        }
    }
}
