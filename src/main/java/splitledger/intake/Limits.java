package splitledger.intake;

/**
 * How large an input may be. Within these limits a study is read with a heap of 1 GiB; beyond them
 * it is refused with a message, whatever the heap.
 */
final class Limits {
    /** Characters of one row of a table, line ends in quotes included. */
    static final int ROW_CHARS = 1 << 20;

    /** Columns of a table: as many as a spreadsheet has. */
    static final int COLUMNS = 16_384;

    /** Rows of a table. */
    static final int ROWS = 12_000_000;

    /** Cells of the grid of injections and compounds. */
    static final int GRID = 24_000_000;

    /** Characters of all different labels of one column together. */
    static final int LABEL_CHARS = 1 << 27;

    /** Characters at the start of a text table in which its header must stand. */
    static final int HEAD_CHARS = 1 << 18;

    /** Lines at the start of a table in which its header must stand. */
    static final int HEAD_LINES = 100;

    /** Rows that are looked at to tell which decimal mark a table has. */
    static final int SAMPLE_ROWS = 1000;

    /** Cells of those rows. */
    static final int SAMPLE_CELLS = 100_000;

    /** Bytes that a packed table may unpack to. */
    static final long UNPACKED_BYTES = 2L << 30;

    /** Bytes of a workbook as it lies on the disk. */
    static final int WORKBOOK_BYTES = 64 << 20;

    /** Bytes of one part of a workbook, unpacked. */
    static final long WORKBOOK_PART_BYTES = 512L << 20;

    /** Bytes of the texts that the sheets of a workbook share, unpacked. */
    static final long WORKBOOK_TEXT_BYTES = 64L << 20;

    /** Parts of a workbook. */
    static final int WORKBOOK_PARTS = 10_000;

    /** How many times larger than packed a part may be, from {@link #SUSPECT_BYTES} on. */
    static final long RATIO = 200;

    /** Unpacked bytes from which {@link #RATIO} counts. */
    static final long SUSPECT_BYTES = 8L << 20;

    /** Characters of a number. */
    static final int NUMBER_CHARS = 400;

    /** Bytes of a protocol. */
    static final int PROTOCOL_BYTES = 2 << 20;

    private Limits() {}
}
