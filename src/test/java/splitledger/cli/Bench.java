package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * A bench for tests of the command: writes small studies into a folder and runs the real command on
 * them in process.
 */
final class Bench {
    private static final String HEADER =
            "injection,compound,area,series,preparation,level,amount\n";

    private final Path folder;
    private final StringBuilder table = new StringBuilder(HEADER);
    private int injections;

    Bench(Path folder) {
        this.folder = folder;
    }

    /** What a run left. */
    record Ran(int exit, String out, String err) {}

    /** Adds one injection of compound {@code c}. */
    Bench row(String series, String preparation, String level, String amount, double area) {
        injections++;
        table.append(String.format("i%03d,c,", injections)).append(area);
        table.append(String.join(",", "", series, preparation, level, amount)).append('\n');
        return this;
    }

    /**
     * Runs the command on the rows so far with the given lines of the protocol after the usual
     * ones.
     */
    Ran evaluate(String protocol) {
        return table().run(usual() + protocol);
    }

    /** The usual first lines. */
    static String usual() {
        return "splitledger: 1\ntitle: worked by hand\ntables: [{file: areas.csv}]\ncompounds: {targets: [c]}\n";
    }

    /** Runs the command on whatever lies in the folder; without a PDF, which takes long. */
    Ran run(String protocol, String... options) {
        write("protocol.yaml", protocol);
        final List<String> arguments =
                new ArrayList<>(
                        List.of(
                                "evaluate",
                                file("protocol.yaml"),
                                "--no-pdf",
                                "--out",
                                file("out")));
        arguments.addAll(List.of(options));
        return command(arguments.toArray(String[]::new));
    }

    /** Evaluates a published case into the folder {@code out} of this bench. */
    Ran published(String name) {
        return command(
                "evaluate",
                "--no-pdf",
                "protocols/published/" + name + "/protocol.yaml",
                "--out",
                folder.resolve("out").toString());
    }

    /** Runs any command. */
    static Ran command(String... arguments) {
        final StringWriter out = new StringWriter();
        final StringWriter err = new StringWriter();
        final int exit = Main.run(new PrintWriter(out), new PrintWriter(err), arguments);
        return new Ran(exit, out.toString(), err.toString());
    }

    /** Writes a file of the study. */
    Bench write(String name, String text) {
        try {
            Files.writeString(folder.resolve(name), text);
            return this;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Whether the run left a dossier or any half of one. */
    boolean leftSomething() {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(p -> p.getFileName().toString())
                    .anyMatch(n -> n.equals("out") || n.startsWith(".splitledger"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The cells of the one row of results.csv with these key cells. */
    Map<String, String> result(
            String characteristic, String condition, String quantity, String method) {
        final List<List<String>> rows = rows(folder.resolve("out/results.csv"));
        final List<Map<String, String>> found = new ArrayList<>();
        for (List<String> row : rows.subList(1, rows.size())) {
            final Map<String, String> cells = new LinkedHashMap<>();
            for (int i = 0; i < row.size(); i++) {
                cells.put(rows.get(0).get(i), row.get(i));
            }
            final boolean same =
                    characteristic.equals(cells.get("characteristic"))
                            && condition.equals(cells.get("condition"))
                            && quantity.equals(cells.get("quantity"))
                            && (method.isEmpty() || method.equals(cells.get("method")));
            if (same) {
                found.add(cells);
            }
        }
        if (found.size() != 1) {
            throw new AssertionError(
                    found.size() + " rows of " + quantity + " " + condition + " in results.csv");
        }
        return found.get(0);
    }

    /** A number of {@link #result}. */
    double number(
            String characteristic,
            String condition,
            String quantity,
            String method,
            String column) {
        return Double.parseDouble(result(characteristic, condition, quantity, method).get(column));
    }

    /** The rows of a CSV file with quoted cells. */
    static List<List<String>> rows(Path file) {
        try (var reader = de.siegmar.fastcsv.reader.CsvReader.builder().ofCsvRecord(file)) {
            return reader.stream().map(r -> r.getFields()).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private String file(String name) {
        return folder.resolve(name).toString();
    }

    /** Writes the rows so far as the area table. */
    Bench table() {
        return write("areas.csv", table.toString());
    }
}
