package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** The commands that the documents show are those of the program, and they do what is said. */
class DocumentsTest {
    private static final List<Path> DOCUMENTS =
            List.of(Path.of("README.md"), Path.of("DEVELOPERS.md"));
    private static final Pattern FENCED = Pattern.compile("(?m)^\\./splitledger (.+)$");
    private static final Pattern INLINE = Pattern.compile("`(?:\\./)?splitledger ([a-z][^`]*)`");
    private static final Pattern IN_TABLE = Pattern.compile("(?m)^\\| (`[a-z]+ [^|]*`) \\|");
    private static final Pattern OPTION = Pattern.compile("--[a-z][a-z-]*");

    /** Commands that end with another code than 0, as the text around them says. */
    private static final Map<String, Integer> ENDS =
            Map.of(
                    "evaluate protocols/flower-oil/protocol.yaml --out out/flower-oil",
                    1,
                    "check out/draft.yaml",
                    2);

    /** Below the working folder, as the protocols are. */
    private static final Path FOLDER = Path.of("target/documents");

    @BeforeAll
    static void anEmptyFolder() throws IOException {
        if (Files.exists(FOLDER)) {
            try (Stream<Path> old = Files.walk(FOLDER)) {
                for (Path path : old.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(path);
                }
            }
        }
        Files.createDirectories(FOLDER.resolve("out"));
    }

    @Test
    void everyCommandThatIsShownToBeTypedRuns() throws IOException {
        final Set<String> commands = new LinkedHashSet<>();
        for (Path document : DOCUMENTS) {
            found(document, FENCED).forEach(m -> commands.add(m.group(1)));
        }
        assertThat(commands).hasSizeGreaterThan(6);
        for (String command : commands) {
            final Bench.Ran ran = Bench.command(arguments(command));
            final int expected =
                    ENDS.getOrDefault(
                            command, command.startsWith("evaluate out/") ? ran.exit() & 1 : 0);
            assertThat(ran.exit())
                    .as("%s%n%s%n%s", command, ran.out(), ran.err())
                    .isEqualTo(expected);
        }
    }

    @Test
    void everyCommandThatIsNamedHasTheOptionsThatStandBesideIt() throws IOException {
        final Map<String, CommandLine> known = Main.commandLine().getSubcommands();
        final List<String> wrong = new ArrayList<>();
        int named = 0;
        for (Path document : DOCUMENTS) {
            final List<String> lines = new ArrayList<>();
            found(document, INLINE).forEach(m -> lines.add(m.group(1)));
            found(document, IN_TABLE)
                    .forEach(m -> lines.addAll(List.of(m.group(1).replace("`", "").split(", "))));
            for (String line : lines) {
                final CommandLine command = known.get(line.split(" ", -1)[0]);
                if (command == null) {
                    continue;
                }
                named++;
                OPTION.matcher(line)
                        .results()
                        .filter(o -> !command.getCommandSpec().optionsMap().containsKey(o.group()))
                        .forEach(o -> wrong.add(document + ": " + line));
            }
        }
        assertThat(wrong).isEmpty();
        assertThat(named).isGreaterThan(10);
    }

    @Test
    void everyCommandOfTheProgramStandsInTheReadme() throws IOException {
        final String readme = Files.readString(DOCUMENTS.get(0));
        assertThat(Main.commandLine().getSubcommands().keySet())
                .filteredOn(name -> !name.equals("help"))
                .allSatisfy(name -> assertThat(readme).contains("`" + name));
    }

    @Test
    void everyLinkToAFileLeadsThere() throws IOException {
        for (Path document : DOCUMENTS) {
            assertThat(found(document, Pattern.compile("\\]\\(([^)#:]+)\\)")).map(m -> m.group(1)))
                    .allSatisfy(link -> assertThat(Path.of(link)).exists());
        }
    }

    private static Stream<MatchResult> found(Path document, Pattern pattern) throws IOException {
        return pattern.matcher(Files.readString(document)).results();
    }

    /** What is typed, with {@code out/} in a folder of the test's own. */
    private String[] arguments(String command) {
        final List<String> words = new ArrayList<>();
        for (String word : command.split(" ", -1)) {
            words.add(
                    word.startsWith("out/")
                            ? FOLDER.resolve(word).toString().replace(File.separatorChar, '/')
                            : word);
        }
        if (words.get(0).equals("evaluate")) {
            words.add("--no-pdf");
        }
        return words.toArray(String[]::new);
    }
}
