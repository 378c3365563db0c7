package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.base.ProblemException;
import splitledger.base.Vault;

/** Input that means harm ends with a message, in bounded time and memory. */
class HostileInputTest {
    private static final Duration SOON = Duration.ofSeconds(20);

    private static List<String> soon(StudyFiles files) {
        return assertTimeout(SOON, files::texts);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "title: !!java.net.URL [http://localhost]\n",
                "title: !!javax.script.ScriptEngineManager []\n",
                "title: !local x\n"
            })
    void tagsAreRefused(String line) {
        assertThat(soon(StudyFiles.protocol("splitledger: 1\n" + line)))
                .anyMatch(t -> t.contains("found the tag"));
    }

    @Test
    void anAliasBombIsRefused() {
        final StringBuilder bomb = new StringBuilder("splitledger: 1\na0: &a0 [x, x, x]\n");
        for (int i = 1; i < 30; i++) {
            final String alias = "*a" + (i - 1);
            bomb.append("a" + i + ": &a" + i + " [" + alias + ", " + alias + ", " + alias + "]\n");
        }

        assertThat(soon(StudyFiles.protocol(bomb.toString())))
                .anyMatch(t -> t.contains("more than 100000 values, aliases written out"));
    }

    @Test
    void anAliasInsideWhatItNamesIsRefused() {
        assertThat(soon(StudyFiles.protocol("splitledger: 1\ntitle: &a [*a, *a, *a]\n")))
                .anyMatch(t -> t.contains("the alias 'a' inside what it names"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"[", "{a: ", "- "})
    void deepNestingIsRefused(String opening) {
        assertThat(soon(StudyFiles.protocol("splitledger: 1\ntitle:\n " + opening.repeat(50_000))))
                .anyMatch(t -> t.contains("nesting deeper than 40") || t.contains("YAML 1.2"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "1e999999999",
                "1e-999999999",
                "0e99999999999",
                "-1e400",
                ".inf",
                ".nan",
                "NaN",
                "Infinity",
                "0x1p3",
                "1d",
                "1_000"
            })
    void numbersThatAreNoneInTheProtocolEndWithAMessageOrAreHarmless(String number) {
        final String lines = "conventions: {coverage: " + number + "}\n";

        assertThat(soon(StudyFiles.adding(lines))).allMatch(t -> t.contains("coverage"));
    }

    @Test
    void aNumberOfAMillionDigitsTakesNoTime() {
        final String digits = "9".repeat(1_000_000);

        assertThat(soon(StudyFiles.adding("conventions: {coverage: " + digits + "}\n")))
                .hasSize(1)
                .allMatch(t -> t.length() < 5000);
        assertThat(
                        soon(
                                StudyFiles.adding(
                                        "measurand: {name: m, unit: g, equation: found * a, inputs: {a:"
                                                + " {value: "
                                                + digits
                                                + " g}}, results-for: {series: sample}}\n")))
                .allMatch(t -> t.length() < 5000);
        assertThat(soon(StudyFiles.areas(StudyFiles.GOOD_AREAS.replace("20", digits))))
                .hasSize(1)
                .allMatch(t -> t.length() < 5000);
    }

    @ParameterizedTest
    @ValueSource(strings = {"NaN", "Infinity", "-inf", "1e999", "0x10", "1d", "1f", "\u0661"})
    void noSuchCellIsANumber(String cell) {
        assertThat(soon(StudyFiles.areas(StudyFiles.GOOD_AREAS.replace("20", cell))))
                .hasSize(1)
                .allMatch(t -> t.startsWith("areas.csv:3: 'area': found '" + cell + "'"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../../../secret.csv",
                "/etc/hostname",
                "C:/secret.csv",
                "..\\secret.csv",
                "./../../../x",
                "//host/share/x.csv",
                "a/../../../../x.csv"
            })
    void namesThatLeadOutAreRefused(String name) {
        assertThat(soon(StudyFiles.replacing("file: areas.csv", "file: '" + name + "'")))
                .anyMatch(t -> t.contains("'tables.1.file'"));
    }

    @Test
    void controlCharactersAreRefusedAndShownAsEscapes() {
        final List<String> texts =
                soon(StudyFiles.areas(StudyFiles.GOOD_AREAS + "A\u001b[31m9,limonene,1\n"));

        assertThat(texts).anyMatch(t -> t.contains("a control character in 'A\\u001b[31m9'"));
        assertThat(texts).noneMatch(t -> t.indexOf('\u001b') >= 0);
        assertThat(soon(StudyFiles.adding("laboratory: {name: \"x\\e[2J\"}\n")))
                .anyMatch(t -> t.contains("a control character in 'x\\u001b[2J'"));
        assertThat(soon(StudyFiles.areas("injection,compound,area,a\u202eb\nA1,limonene,1,2\n")))
                .anyMatch(t -> t.contains("a control character in the heading of column 4"));
    }

    /** A file that is made while it is read: a header, then one line without end. */
    private static Vault endless(long bytes) {
        final StudyFiles files = StudyFiles.good();
        return new Vault() {
            @Override
            public InputStream open(String name) throws IOException {
                return name.endsWith("areas.csv") ? line(bytes) : files.vault().open(name);
            }

            @Override
            public void write(String name, byte[] bytes) {
                throw new UnsupportedOperationException("reading only");
            }

            @Override
            public boolean exists(String name) {
                return files.vault().exists(name);
            }
        };
    }

    private static InputStream line(long bytes) {
        final byte[] header =
                "injection,compound,area\nA1,limonene,".getBytes(StandardCharsets.UTF_8);
        return new java.io.SequenceInputStream(
                new ByteArrayInputStream(header),
                new InputStream() {
                    private long left = bytes;

                    @Override
                    public int read() {
                        return left-- > 0 ? '7' : -1;
                    }

                    @Override
                    public int read(byte[] into, int offset, int length) {
                        if (left <= 0) {
                            return -1;
                        }
                        final int n = (int) Math.min(length, left);
                        java.util.Arrays.fill(into, offset, offset + n, (byte) '7');
                        left -= n;
                        return n;
                    }
                });
    }

    @Test
    void aLineWithoutEndIsRefusedWithoutBeingKept() {
        assertThatThrownBy(
                        () ->
                                assertTimeout(
                                        SOON,
                                        () ->
                                                StudyReader.read(
                                                        endless(300_000_000L),
                                                        StudyFiles.PROTOCOL,
                                                        StudyFiles.exampleSchema())))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining(
                        "areas.csv:2: found a row without end, or larger than can be a row of a table");
    }

    @Test
    void whatUnpacksToMoreThanTheLimitIsRefused() {
        final InputStream bomb = new LimitedStream(line(1000), 500);

        assertThatThrownBy(bomb::readAllBytes).isInstanceOf(RowCells.TooLargeException.class);
    }

    @Test
    void moreColumnsThanASpreadsheetHasAreRefused() {
        final String row = ",x".repeat(Limits.COLUMNS + 1);

        assertThat(soon(StudyFiles.areas(StudyFiles.GOOD_AREAS + "A3,limonene,1" + row + "\n")))
                .anyMatch(t -> t.contains("areas.csv:6: found a row without end"));
    }
}
