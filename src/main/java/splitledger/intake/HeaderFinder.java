package splitledger.intake;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Finds the header of a text table: the first line that holds every heading that must be there,
 * whatever stands above it, and with it the character between cells.
 */
final class HeaderFinder {
    private static final char[] DELIMITERS = {',', ';', '\t', '|'};

    private final String head;
    private final Collection<String> required;
    private final TableFormat stated;
    private final int[] starts;

    private HeaderFinder(String head, Collection<String> required, TableFormat stated) {
        this.head = head;
        this.required = required;
        this.stated = stated;
        starts = starts(head);
    }

    /**
     * Where the header stands.
     *
     * @param delimiter between cells
     * @param line its first line
     * @param offset of that line in the head
     * @param sure whether all headings that must be there are
     */
    record Found(char delimiter, int line, int offset, boolean sure) {}

    /**
     * Looks for the header.
     *
     * @param head start of the file
     * @return the header, or what comes nearest to one; empty if there is no text at all
     */
    static Optional<Found> find(String head, Collection<String> required, TableFormat stated) {
        return new HeaderFinder(head, required, stated).find();
    }

    private Optional<Found> find() {
        if (stated.headerRow().isPresent()) {
            final int line = stated.headerRow().get();
            return line > starts.length || isBlank(line)
                    ? Optional.empty()
                    : Optional.of(best(line));
        }
        for (int line = 1; line <= starts.length; line++) {
            if (isBlank(line)) {
                continue;
            }
            final Found found = best(line);
            if (found.sure()) {
                return Optional.of(found);
            }
        }
        return likeliest();
    }

    /** The delimiter that suits a line: with all headings, or with the most cells. */
    private Found best(int line) {
        Found best = new Found(delimiters().get(0), line, starts[line - 1], false);
        int most = 0;
        for (char delimiter : delimiters()) {
            final List<String> cells = cells(line, delimiter);
            final boolean sure =
                    !required.isEmpty()
                            && cells.stream()
                                    .flatMap(c -> Stream.of(c, HeadingUnits.bare(c)))
                                    .toList()
                                    .containsAll(required);
            if ((sure && !best.sure()) || (sure == best.sure() && cells.size() > most)) {
                most = cells.size();
                best = new Found(delimiter, line, starts[line - 1], sure);
            }
        }
        return best;
    }

    /** Without a sure header: the first line with at least half as many filled cells as any. */
    private Optional<Found> likeliest() {
        final List<Found> lines = new ArrayList<>();
        final List<Integer> widths = new ArrayList<>();
        int widest = 0;
        for (int line = 1; line <= starts.length; line++) {
            if (!isBlank(line)) {
                final Found found = best(line);
                lines.add(found);
                widths.add(filled(cells(line, found.delimiter())));
                widest = Math.max(widest, widths.get(widths.size() - 1));
            }
        }
        for (int i = 0; i < lines.size(); i++) {
            if (2 * widths.get(i) >= widest) {
                return Optional.of(lines.get(i));
            }
        }
        return Optional.empty();
    }

    private static int filled(List<String> cells) {
        return (int) cells.stream().filter(c -> !c.isEmpty()).count();
    }

    private List<Character> delimiters() {
        if (stated.delimiter().isPresent()) {
            return List.of(stated.delimiter().get());
        }
        final List<Character> all = new ArrayList<>();
        for (char delimiter : DELIMITERS) {
            all.add(delimiter);
        }
        return all;
    }

    private boolean isBlank(int line) {
        final int from = starts[line - 1];
        final int to = line < starts.length ? starts[line] : head.length();
        for (int i = from; i < to; i++) {
            if (!Character.isWhitespace(head.charAt(i))) {
                return false;
            }
        }
        return true;
    }

    /** The cells of the row that begins with a line. */
    private List<String> cells(int line, char delimiter) {
        final String rest = head.substring(starts[line - 1]);
        try (CsvReader<CsvRecord> csv =
                CsvReader.builder()
                        .fieldSeparator(delimiter)
                        .allowUnclosedQuote(true)
                        .ofCsvRecord(rest)) {
            for (CsvRecord first : csv) {
                return first.getFields().stream().map(String::strip).toList();
            }
        } catch (CsvParseException e) {
            return List.of();
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return List.of();
    }

    /** Where each line begins, for the first lines. */
    private static int[] starts(String head) {
        final List<Integer> starts = new ArrayList<>();
        int at = 0;
        while (at < head.length() && starts.size() < Limits.HEAD_LINES) {
            starts.add(at);
            while (at < head.length() && head.charAt(at) != '\n' && head.charAt(at) != '\r') {
                at++;
            }
            final boolean pair =
                    at + 1 < head.length()
                            && head.charAt(at) == '\r'
                            && head.charAt(at + 1) == '\n';
            at += pair ? 2 : 1;
        }
        return starts.stream().mapToInt(Integer::intValue).toArray();
    }
}
