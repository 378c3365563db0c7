package splitledger.intake;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.study.Compounds;
import splitledger.study.Compounds.Compound;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Place;

/**
 * The compounds that the protocol asks for, before the tables are known: which members of a ladder
 * range there are, only the tables tell.
 *
 * @param targets to be quantified
 * @param ladder members by name, in order of the protocol
 * @param range members that a range may have, in order of boiling point
 * @param products named by characteristics, targets and ladder apart
 * @param internalStandard if one is used
 * @param table lines of the compound table by name
 * @param places where each name stands in the protocol
 * @param ladderPlace where the range stands
 */
record Candidates(
        List<String> targets,
        List<String> ladder,
        List<Compound> range,
        List<String> products,
        Optional<InternalStandard> internalStandard,
        Map<String, Compound> table,
        Map<String, Place> places,
        Place ladderPlace) {

    /** Names that the tables must have, in order. */
    Set<String> named() {
        final Set<String> names = new LinkedHashSet<>(targets);
        names.addAll(ladder);
        names.addAll(products);
        internalStandard.ifPresent(i -> names.add(i.compound()));
        return names;
    }

    /** Every name that may belong to the study. */
    Set<String> possible() {
        final Set<String> names = named();
        range.forEach(c -> names.add(c.name()));
        return names;
    }

    /** The compounds of the study, given the names that the tables have. */
    Compounds among(Collection<String> present) {
        final List<String> members = new ArrayList<>(ladder);
        range.stream().map(Compound::name).filter(present::contains).forEach(members::add);
        final List<String> ordered = byBoilingPoint(members);
        final Compounds compounds =
                new Compounds(targets, ordered, products, internalStandard, List.of());
        final List<Compound> known = new ArrayList<>();
        for (String name : compounds.all()) {
            final Compound line = table.get(name);
            if (line != null) {
                known.add(line);
            }
        }
        return new Compounds(targets, ordered, products, internalStandard, known);
    }

    /** In order of boiling point where all are known, otherwise as they stand. */
    private List<String> byBoilingPoint(List<String> names) {
        final boolean all =
                names.stream()
                        .allMatch(
                                n ->
                                        Optional.ofNullable(table.get(n))
                                                .map(c -> c.boilingPoint().isPresent())
                                                .orElse(false));
        return all
                ? names.stream().sorted(Comparator.comparingDouble(this::boilingPoint)).toList()
                : List.copyOf(names);
    }

    private double boilingPoint(String name) {
        return Optional.ofNullable(table.get(name))
                .map(c -> c.boilingPoint().orElse(Double.NaN))
                .orElse(Double.NaN);
    }
}
