package splitledger.intake.drafting;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.StudyReader;
import splitledger.study.Study;

/**
 * Whether the tables can be read as a draft says, with an answer put in for every question.
 *
 * @param study what was read, for counting only; empty if it could not be
 * @param problems why not
 */
public record Trial(Optional<Study> study, List<Problem> problems) {
    public Trial {
        problems = List.copyOf(problems);
    }

    /**
     * Tries a draft.
     *
     * @param vault holds the tables
     * @param protocolName name in the vault of the protocol to be
     * @throws IOException if a table cannot be read
     */
    public static Trial of(Draft draft, Vault vault, String protocolName) throws IOException {
        final Optional<String> text = draft.trial();
        if (text.isEmpty()) {
            return new Trial(Optional.empty(), List.of());
        }
        try {
            final Vault with =
                    new With(vault, protocolName, text.get().getBytes(StandardCharsets.UTF_8));
            return new Trial(Optional.of(StudyReader.read(with, protocolName)), List.of());
        } catch (ProblemException e) {
            return new Trial(Optional.empty(), e.problems());
        }
    }

    /** A vault with one more file, in memory. */
    private record With(Vault vault, String name, byte[] bytes) implements Vault {
        @Override
        public InputStream open(String wanted) throws IOException {
            return wanted.equals(name) ? new ByteArrayInputStream(bytes) : vault.open(wanted);
        }

        @Override
        public void write(String wanted, byte[] content) throws IOException {
            throw new IOException("'" + wanted + "' is only read on trial");
        }

        @Override
        public boolean exists(String wanted) {
            return wanted.equals(name) || vault.exists(wanted);
        }
    }
}
