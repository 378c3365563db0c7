package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assumptions.assumeThatCode;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FolderVaultTest {
    private static final byte[] TEXT = "text".getBytes(StandardCharsets.UTF_8);

    @TempDir Path temp;
    private Path inside;
    private Path outside;
    private FolderVault vault;

    @BeforeEach
    void setUp() throws IOException {
        inside = Files.createDirectory(temp.resolve("inside"));
        outside = Files.createDirectory(temp.resolve("outside"));
        Files.write(outside.resolve("secret.txt"), TEXT);
        Files.write(temp.resolve("inside-too.txt"), TEXT);
        vault = FolderVault.of(inside);
    }

    @Test
    void whatWasWrittenIsReadAndItsFoldersAreMade() throws IOException {
        vault.write("a/b/c.txt", TEXT);

        assertThat(vault.exists("a/b/c.txt")).isTrue();
        assertThat(vault.read("a/b/c.txt")).isEqualTo(TEXT);
        assertThat(vault.read("a/./b/../b/c.txt")).isEqualTo(TEXT);
    }

    @Test
    void aMissingNameIsSaidToBeMissing() {
        assertThat(vault.exists("no.txt")).isFalse();
        assertThatExceptionOfType(NoSuchFileException.class).isThrownBy(() -> vault.open("no.txt"));
    }

    @Test
    void aFolderIsNoNameThatCanBeOpened() throws IOException {
        vault.write("a/b.txt", TEXT);

        assertThat(vault.exists("a")).isFalse();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../outside/secret.txt",
                "a/../../outside/secret.txt",
                "../inside-too.txt",
                "./../outside/secret.txt"
            })
    void noNameClimbsOut(String name) {
        assertRefused(name);
    }

    @Test
    void anAbsoluteNameIsRefused() {
        assertRefused(outside.resolve("secret.txt").toString());
    }

    @Test
    void aNameThatNoFileSystemTakesIsRefusedAndNotAFault() {
        assertRefused("a\0b");
    }

    @Test
    void aLinkToAFileOutsideIsNeitherReadNorWritten() throws IOException {
        link(inside.resolve("link.txt"), outside.resolve("secret.txt"));

        assertRefused("link.txt");
        assertThat(Files.readAllBytes(outside.resolve("secret.txt"))).isEqualTo(TEXT);
    }

    @Test
    void aLinkToAFileOutsideThatIsNotThereYetIsNotWritten() throws IOException {
        link(inside.resolve("link.txt"), outside.resolve("new.txt"));

        assertRefused("link.txt");
        assertThat(outside.resolve("new.txt")).doesNotExist();
    }

    @Test
    void aLinkToAFolderOutsideLeadsNowhereAndNothingIsMadeThere() throws IOException {
        link(inside.resolve("out"), outside);

        assertRefused("out/secret.txt");
        assertRefused("out/new/deep.txt");
        assertThat(outside.resolve("new")).doesNotExist();
    }

    @Test
    void aLinkThatStaysInsideIsFollowed() throws IOException {
        vault.write("real/a.txt", TEXT);
        link(inside.resolve("alias"), inside.resolve("real"));

        assertThat(vault.read("alias/a.txt")).isEqualTo(TEXT);
        vault.write("alias/b.txt", TEXT);
        assertThat(vault.read("real/b.txt")).isEqualTo(TEXT);
    }

    @Test
    void theFolderItselfMayBeReachedThroughALink() throws IOException {
        link(temp.resolve("alias"), inside);
        final FolderVault aliased = FolderVault.of(temp.resolve("alias"));

        aliased.write("a.txt", TEXT);

        assertThat(vault.read("a.txt")).isEqualTo(TEXT);
    }

    @Test
    void aFolderThatIsNotThereIsNoVault() {
        assertThatExceptionOfType(IOException.class)
                .isThrownBy(() -> FolderVault.of(temp.resolve("nowhere")));
    }

    private void assertRefused(String name) {
        assertThat(vault.exists(name)).isFalse();
        assertThatExceptionOfType(IOException.class).isThrownBy(() -> vault.open(name));
        assertThatExceptionOfType(IOException.class).isThrownBy(() -> vault.write(name, TEXT));
    }

    /** Windows lets not every user make links: there these tests are skipped, and say so. */
    private static void link(Path link, Path target) throws IOException {
        assumeThatCode(() -> Files.createSymbolicLink(link, target)).doesNotThrowAnyException();
    }
}
