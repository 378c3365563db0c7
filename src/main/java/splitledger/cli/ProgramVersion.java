package splitledger.cli;

import java.io.IOException;
import java.io.InputStream;
import java.util.Properties;
import picocli.CommandLine.IVersionProvider;

/**
 * What {@code --version} prints: the version of the program, the revision of the sources it was
 * built from, and the Java it runs on. The first two are written at build time into the resource
 * {@code splitledger/program.properties}; the revision is {@code unknown} if the sources were no
 * repository.
 */
public final class ProgramVersion implements IVersionProvider {
    private static final String RESOURCE = "/splitledger/program.properties";
    private static final String UNKNOWN = "unknown";

    @Override
    public String[] getVersion() throws IOException {
        final splitledger.dossier.ProgramVersion built = built();
        return new String[] {
            "splitledger " + built.program(),
            "source revision " + built.revision(),
            "Java " + System.getProperty("java.version", UNKNOWN)
        };
    }

    /** What this program was built from. */
    public static splitledger.dossier.ProgramVersion built() throws IOException {
        final Properties built = new Properties();
        try (InputStream in = ProgramVersion.class.getResourceAsStream(RESOURCE)) {
            if (in != null) {
                built.load(in);
            }
        }
        return new splitledger.dossier.ProgramVersion(
                built.getProperty("version", UNKNOWN), built.getProperty("revision", UNKNOWN));
    }
}
