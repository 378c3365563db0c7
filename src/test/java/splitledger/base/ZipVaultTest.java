package splitledger.base;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ZipVaultTest {
    @TempDir Path folder;
    private Path archive = Path.of("");

    @BeforeEach
    void name() {
        archive = folder.resolve("some.zip");
    }

    private void pack(String... namesAndTexts) throws IOException {
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(archive))) {
            for (int i = 0; i < namesAndTexts.length; i += 2) {
                zip.putNextEntry(new ZipEntry(namesAndTexts[i]));
                zip.write(namesAndTexts[i + 1].getBytes(UTF_8));
                zip.closeEntry();
            }
        }
    }

    private void assertRefused(String... words) {
        assertThatExceptionOfType(ProblemException.class)
                .isThrownBy(() -> ZipVault.open(archive).close())
                .satisfies(e -> assertThat(e.getMessage()).contains("some.zip").contains(words));
    }

    /** Overwrites the last or the first place where a text stands in the archive. */
    private void patch(String from, String to) throws IOException {
        final String bytes = new String(Files.readAllBytes(archive), ISO_8859_1);
        assertThat(bytes).contains(from);
        Files.write(archive, bytes.replace(from, to).getBytes(ISO_8859_1));
    }

    @Test
    void filesAreReadByNameAndFoldersAreVaults() throws Exception {
        pack("d/a.txt", "one", "d/in/b.txt", "two", "d/in/", "");
        try (ZipVault vault = ZipVault.open(archive)) {
            assertThat(vault.names()).containsExactly("d/a.txt", "d/in/b.txt");
            assertThat(vault.read("d/x/../a.txt")).asString(UTF_8).isEqualTo("one");
            final ZipVault in = vault.below("d/in/");
            assertThat(in.read("b.txt")).asString(UTF_8).isEqualTo("two");
            assertThat(in.exists("../a.txt")).isFalse();
            assertThatExceptionOfType(IOException.class)
                    .isThrownBy(() -> in.read("../a.txt"))
                    .withMessageContaining("outside");
            assertThatExceptionOfType(NoSuchFileException.class).isThrownBy(() -> in.read("c.txt"));
            assertThatExceptionOfType(IOException.class)
                    .isThrownBy(() -> in.write("c.txt", new byte[0]));
        }
        try (var left = Files.list(folder)) {
            assertThat(left).containsExactly(archive);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"../a", "/a", "d/../a", "d/./a", "d//a", "C:/a", "d\\a", "d/a\u0001"})
    void aNameThatLeadsOutIsRefused(String name) throws IOException {
        pack("d/ok", "", name, "");

        assertRefused("leads out of the archive");
    }

    @Test
    void aNameThatStandsThereTwiceIsRefused() throws IOException {
        pack("d/a1", "one", "d/a2", "two");
        patch("d/a2", "d/a1");

        assertRefused("d/a1", "twice");
    }

    @Test
    void aFileThatUnpacksToFarMoreThanItIsIsRefused() throws IOException {
        try (OutputStream file = Files.newOutputStream(archive);
                ZipOutputStream zip = new ZipOutputStream(file)) {
            zip.putNextEntry(new ZipEntry("zeros"));
            final byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 9; i++) {
                zip.write(zeros);
            }
            zip.closeEntry();
        }

        assertRefused("zeros", "more than 200 times its size");
    }

    @Test
    void aFileThatSaysItIsSmallerThanItIsIsRefused() throws IOException {
        pack("a", "x".repeat(1000));
        // the size in the directory, little-endian: 1000 becomes 10
        patch("\u00e8\u0003\u0000\u0000", "\n\u0000\u0000\u0000");

        assertRefused("'a'", "damaged");
    }

    @Test
    void aChangedByteIsMet() throws IOException {
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(archive))) {
            zip.setLevel(0);
            zip.putNextEntry(new ZipEntry("a"));
            zip.write("the bytes that were packed".getBytes(UTF_8));
            zip.closeEntry();
        }
        patch("were packed", "are  packed");

        assertRefused("'a'", "damaged");
    }

    @Test
    void tooManyFilesAreRefused() throws IOException {
        final String[] names = new String[2 * (ZipVault.FILES + 1)];
        for (int i = 0; i < names.length; i += 2) {
            names[i] = "f" + i;
            names[i + 1] = "";
        }
        pack(names);

        assertRefused("20001 files", "at most 20000");
    }

    @Test
    void whatIsNoArchiveOrHalfOneIsRefused() throws IOException {
        pack("a", "one");
        final byte[] whole = Files.readAllBytes(archive);
        Files.write(archive, java.util.Arrays.copyOf(whole, whole.length - 30));
        assertRefused("no zip archive, or a damaged one");

        Files.writeString(archive, "no archive at all");
        assertRefused("no zip archive, or a damaged one");
    }
}
