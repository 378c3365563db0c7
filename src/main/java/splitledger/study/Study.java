package splitledger.study;

import java.util.List;
import java.util.Optional;

/**
 * All that goes into an evaluation.
 *
 * @param protocol what is wanted
 * @param compounds which peaks
 * @param table the injections, exclusions already taken out
 * @param inputs every file that was read, in order of role and name
 * @param flags what reading noticed
 * @param choices what reading decided
 * @param standards how the calibrants were made, if the protocol tells it
 * @param everything the injections with those that the protocol excludes, if it excludes any
 */
public record Study(
        Protocol protocol,
        Compounds compounds,
        InjectionTable table,
        List<InputFile> inputs,
        List<Flag> flags,
        List<Choice> choices,
        Optional<Standards> standards,
        Optional<InjectionTable> everything) {
    public Study {
        inputs = List.copyOf(inputs);
        flags = List.copyOf(flags);
        choices = List.copyOf(choices);
    }

    /** A study that does not tell how its calibrants were made. */
    public Study(
            Protocol protocol,
            Compounds compounds,
            InjectionTable table,
            List<InputFile> inputs,
            List<Flag> flags,
            List<Choice> choices) {
        this(
                protocol,
                compounds,
                table,
                inputs,
                flags,
                choices,
                Optional.empty(),
                Optional.empty());
    }

    /** The same study with nothing excluded. */
    public Optional<Study> withExcluded() {
        return everything.map(
                all ->
                        new Study(
                                protocol,
                                compounds,
                                all,
                                inputs,
                                flags,
                                choices,
                                standards,
                                Optional.empty()));
    }
}
