package splitledger.intake;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * What the protocol says about the form of a file; what it leaves out is found in the file.
 *
 * @param encoding of a text table
 * @param delimiter between cells
 * @param decimal mark in numbers
 * @param thousands mark in numbers; {@link NumberStyle#NONE} for none
 * @param headerRow line of the headings
 * @param sheet of a workbook
 * @param place where the table stands in the protocol
 */
record TableFormat(
        Optional<Charset> encoding,
        Optional<Character> delimiter,
        Optional<Character> decimal,
        Optional<Character> thousands,
        Optional<Integer> headerRow,
        Optional<String> sheet,
        Place place) {
    static final Charset WINDOWS = Charset.forName("windows-1252");

    /** Nothing said. */
    static final TableFormat UNSTATED =
            new TableFormat(
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Place.NONE);

    /** Reads it from a table's entry; the schema has refused other words before. */
    static TableFormat of(Tree.Mapping table, Reading reading) {
        final TableFormat format =
                new TableFormat(
                        table.text("encoding").map(TableFormat::charset),
                        table.text("delimiter").map(TableFormat::mark),
                        table.text("decimal").map(TableFormat::mark),
                        table.text("thousands").map(TableFormat::mark),
                        table.text("header-row").map(Integer::valueOf),
                        table.text("sheet"),
                        table.place());
        final boolean same =
                format.thousands.isPresent()
                        && format.thousands.get() != NumberStyle.NONE
                        && format.thousands.equals(
                                Optional.of(
                                        format.decimal.orElse(
                                                format.thousands.get() == '.' ? ',' : '.')));
        if (same) {
            reading.problem(
                    table.get("thousands").map(Tree::place).orElse(table.place()),
                    "the decimal mark as thousands mark",
                    "two different marks",
                    "change one of them");
        }
        return format;
    }

    private static Charset charset(String name) {
        return switch (name) {
            case "windows-1252" -> WINDOWS;
            case "utf-16le" -> StandardCharsets.UTF_16LE;
            case "utf-16be" -> StandardCharsets.UTF_16BE;
            default -> StandardCharsets.UTF_8;
        };
    }

    private static char mark(String word) {
        return switch (word) {
            case "tab" -> '\t';
            case "space" -> ' ';
            case "none" -> NumberStyle.NONE;
            default -> word.charAt(0);
        };
    }
}
