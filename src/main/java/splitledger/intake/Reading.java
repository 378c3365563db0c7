package splitledger.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.InputFile;
import splitledger.study.Place;

/** What one reading gathers on its way: problems, flags, choices and the files it has read. */
final class Reading {
    /** Where choices of this room are said to be taken. */
    static final String ROOM = "intake";

    /** How many names a message lists before it only counts. */
    static final int LISTED = 10;

    private final Set<Problem> problems = new LinkedHashSet<>();
    private final List<Flag> flags = new ArrayList<>();
    private final List<Choice> choices = new ArrayList<>();
    private final List<InputFile> inputs = new ArrayList<>();
    private final Set<String> ignoredPeaks = new TreeSet<>();

    void problem(Problem problem) {
        problems.add(problem);
    }

    void problem(Place place, String found, String expected, String hint) {
        problems.add(place.problem(found, expected, hint));
    }

    void flag(Place place, String subject, String what) {
        flags.add(new Flag(place, subject, what));
    }

    void choice(String what, String why, String source) {
        choices.add(new Choice(ROOM, "", what, why, source));
    }

    void input(InputFile file) {
        inputs.add(file);
    }

    /** Notes a peak of the tables that is not in the study, for "did you mean". */
    void ignoredPeak(String name) {
        ignoredPeaks.add(name);
    }

    /** Peaks of the tables that are not in the study. */
    Set<String> ignoredPeaks() {
        return ignoredPeaks;
    }

    /** Whether a problem was found at this place of the protocol or further in. */
    boolean touched(Place place) {
        return problems.stream()
                .filter(p -> p.file().equals(place.file()))
                .anyMatch(p -> isWithin(p.column(), place.path()));
    }

    /** How many problems there are. */
    int problems() {
        return problems.size();
    }

    /**
     * Ends the reading if anything was wrong.
     *
     * @throws ProblemException with all problems in order of file and row
     */
    void throwIfAny() throws ProblemException {
        if (!problems.isEmpty()) {
            throw new ProblemException(problems.stream().sorted().toList());
        }
    }

    List<Flag> flags() {
        return List.copyOf(flags);
    }

    List<Choice> choices() {
        return List.copyOf(choices);
    }

    /** The files, each once, in order of role and name. */
    List<InputFile> inputs() {
        return inputs.stream()
                .distinct()
                .sorted(Comparator.comparing(InputFile::role).thenComparing(InputFile::name))
                .toList();
    }

    /** The first names of a list and how many more there are. */
    static String listed(List<String> names) {
        final String shown = String.join(", ", names.subList(0, Math.min(LISTED, names.size())));
        return names.size() <= LISTED ? shown : shown + " and " + (names.size() - LISTED) + " more";
    }

    private static boolean isWithin(String path, String outer) {
        return path.equals(outer) || path.startsWith(outer + ".");
    }
}
