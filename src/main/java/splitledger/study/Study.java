package splitledger.study;

import java.util.List;

/**
 * All that goes into an evaluation.
 *
 * @param protocol what is wanted
 * @param compounds which peaks
 * @param table the injections, exclusions already taken out
 * @param inputs every file that was read, in order of role and name
 * @param flags what reading noticed
 * @param choices what reading decided
 */
public record Study(
        Protocol protocol,
        Compounds compounds,
        InjectionTable table,
        List<InputFile> inputs,
        List<Flag> flags,
        List<Choice> choices) {
    public Study {
        inputs = List.copyOf(inputs);
        flags = List.copyOf(flags);
        choices = List.copyOf(choices);
    }
}
