package splitledger.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import splitledger.base.ProblemException;
import splitledger.qualification.AccuracyTable;
import splitledger.qualification.Qualification;

/** Makes the stored page of accuracies. Argument: the file. */
public final class AccuracyTableMain {
    private AccuracyTableMain() {}

    /** Makes it. */
    public static void main(String[] args) throws IOException, ProblemException {
        final String page = AccuracyTable.markdown(Qualification.run());
        Files.write(Path.of(args[0]), page.getBytes(StandardCharsets.UTF_8));
    }
}
