package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Pages for the bench and for a class: every command in them runs, and what they claim is so. */
class BenchPagesTest {
    private static final Pattern COMMAND = Pattern.compile("\\./splitledger ([a-z][^`\n]*)");

    @TempDir private Path out;

    @ParameterizedTest
    @ValueSource(strings = {"detection-limits", "budget-only", "planning"})
    void everyCommandOfABenchPageRuns(String name) throws IOException {
        assertThat(run(name)).isNotEmpty();
    }

    @Test
    void whatTheClassIsToldComesOut() throws IOException {
        assertThat(run("teaching")).hasSize(10);

        final String ester = "split-linearity,linalyl acetate,,split-exponent,";
        assertThat(value("hot", ester)).isLessThan(value("plain", ester) - 0.3);
        assertThat(value("liner", ester)).isGreaterThan(value("plain", ester) + 0.03);
        final String slope = "calibration,linalyl acetate,,slope,";
        assertThat(value("hot", slope) / value("plain", slope)).isBetween(0.7, 0.8);
        final String limit = "detection,limonene,,critical-value,\"Currie, blanks\",";
        assertThat(value("plain", limit) / value("split", limit)).isBetween(4.0, 6.0);
        final String heavy = "discrimination,n-C40,reference=n-C20,heavy-to-light-ratio,";
        assertThat(value("needle", heavy)).isLessThan(value("plain", heavy) - 0.2);
        final String breakdown =
                "losses,linalyl"
                        + " acetate,inlet-temperature=250;ratio=25,breakdown,response-corrected,";
        assertThat(value("liner", breakdown) / value("plain", breakdown)).isBetween(0.2, 0.35);
        assertThat(results("liner")).contains("activation-energy,response-corrected,,kJ/mol");
    }

    private List<String> run(String name) throws IOException {
        final String page = Files.readString(Path.of("protocols", name, "README.md"));
        final List<String> commands = new ArrayList<>();
        final Matcher matcher = COMMAND.matcher(page);
        while (matcher.find()) {
            final String command = matcher.group(1).strip();
            commands.add(command);
            final String[] words =
                    Arrays.stream(command.split(" "))
                            .map(w -> w.startsWith("out/") ? out + w.substring(3) : w)
                            .toArray(String[]::new);
            final Bench.Ran ran = Bench.command(words);
            assertThat(ran.exit()).as(command + "\n" + ran.err()).isZero();
        }
        return commands;
    }

    private String results(String lesson) throws IOException {
        return Files.readString(
                out.resolve("teaching").resolve(lesson + "-dossier").resolve("results.csv"));
    }

    /** The value of the first row that begins like this; the method may follow. */
    private double value(String lesson, String beginning) throws IOException {
        final String row =
                results(lesson)
                        .lines()
                        .filter(line -> line.startsWith(beginning))
                        .findFirst()
                        .orElseThrow();
        final String rest = row.substring(beginning.length());
        final Matcher number = Pattern.compile("(?:^|,)(-?[0-9][0-9.e-]*),").matcher(rest);
        assertThat(number.find()).as(row).isTrue();
        return Double.parseDouble(number.group(1));
    }
}
