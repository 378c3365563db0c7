package splitledger.qualification;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import splitledger.base.CsvRows;
import splitledger.base.MemoryVault;

/** The cases and studies that the program brings along. */
final class Shipped {
    private static final int CELLS = 11;

    private Shipped() {}

    /**
     * A study of the cases.
     *
     * @param files of it
     * @param protocol the name of its protocol among them
     */
    record Study(MemoryVault files, String protocol) {}

    /** All cases, in order. */
    static List<ReferenceCase> cases() {
        final List<ReferenceCase> cases = new ArrayList<>();
        for (List<String> row : rows("cases.csv")) {
            if (row.size() != CELLS) {
                throw new IllegalStateException("cases.csv: " + row + " has not " + CELLS);
            }
            cases.add(
                    new ReferenceCase(
                            row.get(0),
                            row.get(1),
                            row.get(2),
                            row.get(3),
                            row.get(4),
                            row.get(5),
                            row.get(6),
                            row.get(7),
                            row.get(8),
                            row.get(9),
                            Double.parseDouble(row.get(10))));
        }
        return cases;
    }

    /** All studies by name; the first file of each is its protocol. */
    static Map<String, Study> studies() {
        final Map<String, List<String>> names = new LinkedHashMap<>();
        for (List<String> row : rows("studies.csv")) {
            names.computeIfAbsent(row.get(0), s -> new ArrayList<>()).add(row.get(1));
        }
        final Map<String, Study> studies = new LinkedHashMap<>();
        names.forEach(
                (study, files) -> {
                    final Map<String, byte[]> contents = new TreeMap<>();
                    files.forEach(file -> contents.put(file, bytes(file)));
                    studies.put(study, new Study(new MemoryVault(contents), files.get(0)));
                });
        return studies;
    }

    private static List<List<String>> rows(String name) {
        final List<List<String>> rows = CsvRows.of(new String(bytes(name), StandardCharsets.UTF_8));
        return rows.subList(1, rows.size());
    }

    private static byte[] bytes(String name) {
        try (InputStream in = Shipped.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + name + " is missing");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
