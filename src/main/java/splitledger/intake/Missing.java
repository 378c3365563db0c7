package splitledger.intake;

import java.util.Collection;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.study.Place;

/** Messages about names that the protocol has and the tables lack. */
final class Missing {
    private Missing() {}

    /**
     * A compound that a table lacks.
     *
     * @param others names in the table that are not in the study
     * @param file the table's name as written
     */
    static Problem compound(
            String compound, Candidates candidates, Collection<String> others, String file) {
        final Place place = candidates.places().getOrDefault(compound, candidates.ladderPlace());
        return place.problem(
                "the compound '" + compound + "', which " + file + " does not have",
                "a compound as the table names it",
                Nearest.to(compound, others)
                        .map(near -> "did you mean '" + near + "'?")
                        .orElse("write it as in the table; a name with a comma needs quotes here"));
    }
}
