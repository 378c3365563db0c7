package splitledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The decision records under {@code docs/decisions} name checks that exist. */
class DecisionsTest {
    private static final Path RECORDS = Path.of("docs/decisions");
    private static final Path TESTS = Path.of("src/test/java");
    private static final Pattern CHECK = Pattern.compile("`([A-Z]\\w+Test)(?:\\.(\\w+))?`");

    @Test
    void everyRecordHasItsPartsAndAConfirmation() throws IOException {
        for (Path record : records()) {
            assertThat(Files.readString(record))
                    .as(record.toString())
                    .startsWith(
                            "# "
                                    + Integer.parseInt(record.getFileName().toString(), 0, 4, 10)
                                    + ". ")
                    .contains("**Context.**", "**Decision.**", "**Confirmation.**");
        }
    }

    @Test
    void everyCheckThatARecordNamesIsThere() throws IOException {
        final List<String> missing = new ArrayList<>();
        int named = 0;
        for (Path record : records()) {
            final Matcher check = CHECK.matcher(Files.readString(record));
            while (check.find()) {
                named++;
                if (!isThere(check.group(1), check.group(2))) {
                    missing.add(record.getFileName() + ": " + check.group());
                }
            }
        }
        assertThat(missing).isEmpty();
        assertThat(named).isGreaterThan(9);
    }

    private static List<Path> records() throws IOException {
        try (Stream<Path> all = Files.list(RECORDS)) {
            return all.sorted().toList();
        }
    }

    private static boolean isThere(String type, String method) throws IOException {
        try (Stream<Path> all = Files.walk(TESTS)) {
            for (Path file : all.filter(p -> p.endsWith(type + ".java")).toList()) {
                if (method == null || Files.readString(file).contains(" " + method)) {
                    return true;
                }
            }
        }
        return false;
    }
}
