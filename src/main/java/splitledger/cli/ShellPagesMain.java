package splitledger.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.AutoComplete;

/**
 * Writes what a release brings for the shell, made from the commands: the completion script for
 * bash and zsh, and the manual page. Argument: the folder. Run by the build of a release.
 */
public final class ShellPagesMain {
    /** The completion script, below the folder. */
    static final String COMPLETION = "completion/splitledger.bash";

    /** The manual page, below the folder. */
    static final String MANUAL = "man/man1/splitledger.1";

    private ShellPagesMain() {}

    /** Writes them. */
    public static void main(String[] args) throws IOException {
        final Path folder = Path.of(args[0]);
        write(folder.resolve(COMPLETION), AutoComplete.bash("splitledger", Main.commandLine()));
        write(
                folder.resolve(MANUAL),
                ManualPage.of(Main.commandLine(), ProgramVersion.built().program()));
    }

    private static void write(Path file, String text) throws IOException {
        Files.createDirectories(file.toAbsolutePath().getParent());
        Files.write(file, text.replace("\r\n", "\n").getBytes(StandardCharsets.UTF_8));
    }
}
