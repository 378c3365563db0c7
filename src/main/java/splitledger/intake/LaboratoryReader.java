package splitledger.intake;

import java.util.Comparator;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.intake.ShippedTables.Solvent;
import splitledger.study.Standards.Temperature;
import splitledger.study.Tree;

/** Temperature and solvent of the standards block. */
final class LaboratoryReader {
    private static final String NUMBER = "([-+]?[0-9]+(?:\\.[0-9]+)?)";
    private static final String DEGREES = "\\s*(?:degC|\u00b0C|C|K)?\\s*";
    private static final Pattern TEMPERATURE =
            Pattern.compile(NUMBER + DEGREES + "(?:\\+-|\\+/-|\u00b1)\\s*" + NUMBER + DEGREES);

    private final Tree.Mapping standards;
    private final Reading reading;

    LaboratoryReader(Tree.Mapping standards, Reading reading) {
        this.standards = standards;
        this.reading = reading;
    }

    /** The one temperature; it may stand at the block or at solutions. */
    Optional<Temperature> temperature() {
        Optional<Temperature> found = at(standards);
        for (Tree entry : standards.entries().values()) {
            if (entry instanceof Tree.Mapping solution) {
                final Optional<Temperature> own = at(solution);
                if (own.isPresent() && found.isPresent() && !own.equals(found)) {
                    reading.problem(
                            solution.get("laboratory").orElse(solution).place(),
                            "a second temperature",
                            "one temperature for all solutions",
                            "state the limits that hold all of them once, at standards: laboratory");
                    return Optional.empty();
                }
                found = found.isPresent() ? found : own;
            }
        }
        if (found.isEmpty()) {
            reading.choice(
                    "The temperature at which calibrants were made is not considered",
                    "the protocol states no temperature (standards: laboratory)",
                    "common practice, no source");
        }
        return found;
    }

    private Optional<Temperature> at(Tree.Mapping mapping) {
        final Optional<String> text = mapping.text("laboratory");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        final Matcher matcher = TEMPERATURE.matcher(text.get().strip());
        if (!matcher.matches() || matcher.group(2).startsWith("-")) {
            reading.problem(
                    mapping.get("laboratory").orElse(mapping).place(),
                    "'" + text.get() + "'",
                    "a temperature between limits, such as 20 degC +- 3",
                    "write the middle, +- and half the width between the limits");
            return Optional.empty();
        }
        return Optional.of(
                new Temperature(
                        Double.parseDouble(matcher.group(1)),
                        Double.parseDouble(matcher.group(2))));
    }

    /**
     * Expansion of the solvent, per kelvin.
     *
     * @param needed whether a temperature makes it matter
     */
    double expansion(boolean needed) {
        final Map<String, Solvent> known = ShippedTables.solvents();
        final Optional<Tree> stated = standards.get("solvent");
        if (stated.isPresent() && stated.get() instanceof Tree.Mapping own) {
            final double value = own.number("expansion").orElse(0);
            final String source = own.text("source").orElse("stated in the protocol");
            tell(new Solvent(own.text("name").orElse(""), value, source), needed);
            return value;
        }
        if (stated.isPresent() && stated.get() instanceof Tree.Scalar name) {
            final Solvent solvent = known.get(name.text().strip());
            if (solvent == null) {
                reading.problem(
                        name.place(),
                        "the solvent '" + name.text() + "'",
                        "a solvent of the list, or its name with its expansion",
                        Nearest.hint(name.text(), known.keySet())
                                + "; or write {name: ..., expansion: 0.0012, source: ...}");
                return 0;
            }
            tell(solvent, needed);
            return solvent.expansion();
        }
        if (!needed) {
            return 0;
        }
        final Solvent largest =
                known.values().stream()
                        .max(Comparator.comparingDouble(Solvent::expansion))
                        .orElseThrow(() -> new IllegalStateException("no solvent is known"));
        reading.choice(
                "The solvent is taken to expand by "
                        + Numbers.text(largest.expansion())
                        + " per kelvin, as "
                        + largest.name()
                        + " does",
                "the protocol names no solvent (standards: solvent); this is the largest expansion"
                        + " of the list",
                largest.source());
        return largest.expansion();
    }

    private void tell(Solvent solvent, boolean needed) {
        if (needed) {
            reading.choice(
                    "The volume of "
                            + solvent.name()
                            + " expands by "
                            + Numbers.text(solvent.expansion())
                            + " per kelvin; amounts of calibrants are those at the laboratory's mean"
                            + " temperature",
                    "the solvent that the protocol names",
                    solvent.source());
        }
    }
}
