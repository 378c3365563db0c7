package splitledger.intake;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Collection;
import java.util.HexFormat;
import java.util.List;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipException;
import splitledger.base.Problem;
import splitledger.study.InputFile;

/** One table as a file: text, text packed with gzip, or a workbook. */
final class TableFile {
    private static final int MAGIC = 4;

    /** Who takes the rows. */
    interface Rows {
        /** Headings that the header must hold; it is found by them. */
        Collection<String> required();

        /**
         * Takes the header.
         *
         * @param headings stripped of blanks at their ends, without empty ones at the end
         * @return whether rows are wanted
         */
        boolean header(int line, List<String> headings);

        /**
         * Looks at the first rows, before they are taken, to tell their marks.
         *
         * @param cells of each row as text; empty where the file says that it is a number
         * @param plain whether the file has commas between its cells
         * @return what was found, in words; empty if there is nothing to tell
         */
        default String look(List<List<String>> cells, boolean plain) {
            return "";
        }

        /** Takes one row, at least as wide as the header. */
        void row(int line, RowCells cells);
    }

    private final String written;
    private final Reading reading;

    private TableFile(String written, Reading reading) {
        this.written = written;
        this.reading = reading;
    }

    /**
     * Reads a file and records it with its digest.
     *
     * @param folder where it is opened
     * @param name its name in the vault
     * @param written its name in the protocol
     * @param stated what the protocol says about its form
     * @return whether every row could be passed on
     * @throws IOException if it cannot be read at all
     */
    static boolean read(
            InputFolder folder,
            String role,
            String name,
            String written,
            TableFormat stated,
            Reading reading,
            Rows rows)
            throws IOException {
        final MessageDigest digest = digest();
        final boolean whole;
        try (BufferedInputStream bytes =
                new BufferedInputStream(
                        new DigestInputStream(folder.open(name), digest), 1 << 16)) {
            whole = new TableFile(written, reading).read(bytes, folder, name, stated, rows);
            bytes.transferTo(OutputStream.nullOutputStream());
        }
        reading.input(
                new InputFile(role, name, written, HexFormat.of().formatHex(digest.digest())));
        return whole;
    }

    private boolean read(
            BufferedInputStream bytes,
            InputFolder folder,
            String name,
            TableFormat stated,
            Rows rows)
            throws IOException {
        bytes.mark(MAGIC);
        final byte[] magic = bytes.readNBytes(MAGIC);
        bytes.reset();
        if (isZip(magic)) {
            return XlsxFile.read(bytes, written, stated, reading, rows);
        }
        if (isOldWorkbook(magic)) {
            problem(
                    "a workbook of the old binary form (.xls)",
                    "a text table or a workbook of the form .xlsx",
                    "save it as .xlsx or as CSV UTF-8");
            return false;
        }
        final boolean packed = isGzip(magic);
        try {
            final Encoding encoding = Encoding.of(() -> unpacked(folder.open(name), packed));
            return CsvFile.read(
                    unpacked(bytes, packed), encoding, packed, written, stated, reading, rows);
        } catch (ZipException | java.io.EOFException e) {
            problem(
                    "a packed file that cannot be unpacked to its end",
                    "a whole file",
                    "pack or copy it again");
            return false;
        } catch (RowCells.TooLargeException e) {
            problem(
                    "a packed file of more than " + Limits.UNPACKED_BYTES + " bytes",
                    "a smaller table",
                    "split the table into several files");
            return false;
        }
    }

    private static InputStream unpacked(InputStream in, boolean packed) throws IOException {
        return packed
                ? new LimitedStream(new GZIPInputStream(in, 1 << 16), Limits.UNPACKED_BYTES)
                : in;
    }

    private void problem(String found, String expected, String hint) {
        reading.problem(new Problem(written, 0, "", found, expected, hint));
    }

    private static boolean isZip(byte[] magic) {
        return starts(magic, 'P', 'K', 3, 4) || starts(magic, 'P', 'K', 5, 6);
    }

    private static boolean isGzip(byte[] magic) {
        return starts(magic, 0x1F, 0x8B);
    }

    private static boolean isOldWorkbook(byte[] magic) {
        return starts(magic, 0xD0, 0xCF, 0x11, 0xE0);
    }

    private static boolean starts(byte[] bytes, int... start) {
        for (int i = 0; i < start.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xFF) != start[i]) {
                return false;
            }
        }
        return true;
    }

    private static MessageDigest digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
