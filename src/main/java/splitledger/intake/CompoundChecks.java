package splitledger.intake;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import splitledger.study.Compounds.Compound;

/** Whether the tables have the compounds that the protocol asks for. */
final class CompoundChecks {
    private CompoundChecks() {}

    /**
     * Every compound must be in a table, and in every wide table.
     *
     * @param present compounds of the study that the tables have
     * @param areas the tables of areas
     */
    static void present(
            Candidates candidates, Set<String> present, List<RawTable> areas, Reading reading) {
        final String files =
                areas.stream().map(t -> t.spec().file()).collect(Collectors.joining(", "));
        for (String compound : candidates.named()) {
            if (!present.contains(compound)) {
                reading.problem(
                        Missing.compound(compound, candidates, reading.ignoredPeaks(), files));
            }
        }
        final List<Compound> range = candidates.range();
        if (!range.isEmpty() && range.stream().noneMatch(c -> present.contains(c.name()))) {
            reading.problem(
                    candidates.ladderPlace(),
                    "a ladder of which " + files + " has no member",
                    "members of the ladder in the tables",
                    "write the names in the compound table as in the tables");
        }
        for (RawTable table : areas) {
            if (table.spec().wide()) {
                final Set<String> own = Assembly.present(List.of(table));
                for (Compound member : range) {
                    if (present.contains(member.name()) && !own.contains(member.name())) {
                        reading.problem(
                                Missing.compound(
                                        member.name(), candidates, List.of(), table.spec().file()));
                    }
                }
            }
        }
    }
}
