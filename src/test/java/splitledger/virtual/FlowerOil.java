package splitledger.virtual;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import splitledger.base.ProblemException;

/** The design of the data set, as it stands or with a change. */
final class FlowerOil {
    static final Path FOLDER = Path.of("datasets", "flower-oil");

    private FlowerOil() {}

    static String text() throws IOException {
        return Files.readString(FOLDER.resolve("design.yaml"));
    }

    static Design design() throws IOException, ProblemException {
        return read(text());
    }

    /** The same design, another laboratory: every draw is a new one. */
    static Design withSeed(long seed) throws IOException, ProblemException {
        return read(text().replaceFirst("\nseed: \\d+\n", "\nseed: " + seed + "\n"));
    }

    static Design read(String text) throws ProblemException {
        return DesignReader.read("design.yaml", text.getBytes(StandardCharsets.UTF_8));
    }
}
