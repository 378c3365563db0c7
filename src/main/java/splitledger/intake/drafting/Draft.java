package splitledger.intake.drafting;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;

/** A protocol that waits for its answers. */
public final class Draft {
    private final BiFunction<Boolean, Map<String, List<String>>, Page> writer;
    private final boolean readable;

    Draft(BiFunction<Boolean, Map<String, List<String>>, Page> writer, boolean readable) {
        this.writer = writer;
        this.readable = readable;
    }

    /**
     * The protocol with its questions.
     *
     * @param remarks by id of a characteristic, {@code results} or {@code tables}: what the tables
     *     allow and lack, a sentence each
     */
    public String text(Map<String, List<String>> remarks) {
        return writer.apply(false, remarks).text();
    }

    /**
     * The same with an answer put in for every question, to see what the tables allow; empty if
     * some question has no such answer.
     */
    public Optional<String> trial() {
        return readable ? Optional.of(writer.apply(true, Map.of()).text()) : Optional.empty();
    }

    /** How many questions there are. */
    public int questions() {
        return writer.apply(false, Map.of()).questions();
    }
}
