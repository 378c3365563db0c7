package splitledger.intake;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.Nearest;
import splitledger.study.State;
import splitledger.study.Tree;

/**
 * The words by which a table says the state of a row or a peak: the names of the states, and those
 * that the protocol adds ({@code states: {saturated: [SAT, over range]}}).
 */
final class StateWords {
    /** No words but the names. */
    static final StateWords PLAIN = new StateWords(Map.of());

    private final Map<String, State> words = new LinkedHashMap<>();

    private StateWords(Map<String, State> added) {
        Arrays.stream(State.values()).forEach(s -> words.put(s.code(), s));
        words.putAll(added);
    }

    /** Reads the words of a table. */
    static StateWords of(Tree.Mapping table, Reading reading) {
        final Tree.Mapping states = table.mapping("states");
        final Map<String, State> added = new LinkedHashMap<>();
        for (State state : State.values()) {
            for (String word : states.texts(state.code())) {
                final State before = added.putIfAbsent(word.strip(), state);
                if (before != null && before != state) {
                    reading.problem(
                            states.place(),
                            "'" + word + "' for " + before.code() + " and for " + state.code(),
                            "one meaning of a word",
                            "take it out of one of them");
                }
            }
        }
        return new StateWords(added);
    }

    /** The state that a text means, if it is one of the words. */
    Optional<State> state(String text) {
        return Optional.ofNullable(words.get(text));
    }

    /** What to do about a word that means nothing. */
    String hint(String met) {
        return Nearest.to(met, words.keySet())
                .map(near -> "did you mean '" + near + "'? ")
                .orElse("")
                .concat("or say what it means: states: {saturated: " + "'" + met + "'}");
    }

    /** The names of the states. */
    static List<String> names() {
        return Arrays.stream(State.values()).map(State::code).toList();
    }
}
