package splitledger.spark;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A folder of a Hadoop file system keeps to the rules of every vault. */
class HadoopVaultTest {
    @TempDir Path folder;

    private HadoopVault vault() throws IOException {
        final Path inner = Files.createDirectories(folder.resolve("inner"));
        return new HadoopVault(
                FileSystem.getLocal(new Configuration()),
                new org.apache.hadoop.fs.Path(inner.toUri()));
    }

    @Test
    void whatIsWrittenIsReadAndNothingElseLiesThere() throws IOException {
        final HadoopVault vault = vault();
        vault.write("a/b: c.txt", "first".getBytes(UTF_8));
        vault.write("a/b: c.txt", "second".getBytes(UTF_8));

        assertThat(vault.read("a/b: c.txt")).asString(UTF_8).isEqualTo("second");
        assertThat(vault.exists("a/b: c.txt")).isTrue();
        assertThat(vault.exists("a")).isFalse();
        try (Stream<Path> all = Files.walk(folder)) {
            assertThat(all.filter(Files::isRegularFile)).hasSize(1);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"../out.txt", "a/../../out.txt", "/out.txt", "file:/out.txt", "."})
    void aNameThatLeadsOutIsRefused(String name) throws IOException {
        final HadoopVault vault = vault();
        Files.writeString(folder.resolve("out.txt"), "not yours");

        assertThat(vault.exists(name)).isFalse();
        assertThatThrownBy(() -> vault.write(name, new byte[1])).isInstanceOf(IOException.class);
        assertThatThrownBy(() -> vault.read(name)).isInstanceOf(IOException.class);
        assertThat(folder.resolve("out.txt")).hasContent("not yours");
    }

    @Test
    void aLinkThatLeadsOutIsRefused() throws IOException {
        final HadoopVault vault = vault();
        Files.writeString(folder.resolve("out.txt"), "not yours");
        Files.createSymbolicLink(folder.resolve("inner/link"), folder);

        assertThat(vault.exists("link/out.txt")).isFalse();
        assertThatThrownBy(() -> vault.read("link/out.txt")).isInstanceOf(IOException.class);
        assertThatThrownBy(() -> vault.write("link/out.txt", new byte[1]))
                .isInstanceOf(IOException.class);
        assertThat(folder.resolve("out.txt")).hasContent("not yours");
    }

    @Test
    void aNameThatIsNotThereIsToldAsSuch() throws IOException {
        final HadoopVault vault = vault();

        assertThatThrownBy(() -> vault.open("none")).isInstanceOf(NoSuchFileException.class);
    }
}
