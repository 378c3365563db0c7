package splitledger.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Which peaks the study is about.
 *
 * @param targets compounds to be quantified, in the order of the protocol
 * @param ladder members of the homologous ladder, in order of boiling point
 * @param products decomposition products named by a characteristic
 * @param internalStandard if one is used
 * @param known what the compound table says of those above
 */
public record Compounds(
        List<String> targets,
        List<String> ladder,
        List<String> products,
        Optional<InternalStandard> internalStandard,
        List<Compound> known) {
    public Compounds {
        targets = List.copyOf(targets);
        ladder = List.copyOf(ladder);
        products = List.copyOf(products);
        known = List.copyOf(known);
    }

    /**
     * The compound added in the same amount to calibrants and samples.
     *
     * @param compound its name
     * @param amount its amount, in {@code unit}; empty if not stated
     * @param standardUncertainty of the amount, in {@code unit}; 0 if not stated
     * @param unit unit of the amount; empty if not stated
     */
    public record InternalStandard(
            String compound, OptionalDouble amount, double standardUncertainty, String unit) {}

    /**
     * One line of the compound table.
     *
     * @param name as peaks are named
     * @param boilingPoint normal boiling point, degC
     * @param source where it comes from
     * @param carbonNumber effective carbon number of a flame ionisation detector
     * @param molarMass g/mol
     */
    public record Compound(
            String name,
            OptionalDouble boilingPoint,
            String source,
            OptionalDouble carbonNumber,
            OptionalDouble molarMass) {

        /** A line without carbon number and molar mass. */
        public Compound(String name, OptionalDouble boilingPoint, String source) {
            this(name, boilingPoint, source, OptionalDouble.empty(), OptionalDouble.empty());
        }
    }

    /** What the compound table says of a name, if anything. */
    public Optional<Compound> known(String name) {
        return known.stream().filter(c -> c.name().equals(name)).findFirst();
    }

    /**
     * Targets, ladder, products and internal standard, without repeats, in this order: the order of
     * table rows.
     */
    public List<String> all() {
        final List<String> names = new ArrayList<>();
        for (List<String> part : List.of(targets, ladder, products)) {
            part.stream().filter(n -> !names.contains(n)).forEach(names::add);
        }
        internalStandard
                .map(InternalStandard::compound)
                .filter(n -> !names.contains(n))
                .ifPresent(names::add);
        return List.copyOf(names);
    }
}
