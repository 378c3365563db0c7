package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.ScatterStructure;
import splitledger.statistics.ScatterStructure.Confounded;
import splitledger.statistics.ScatterStructure.Kind;
import splitledger.statistics.ScatterStructure.Relation;
import splitledger.study.Choice;
import splitledger.study.Trail;

/** The structure of a precision study in words. */
final class PrecisionWords {
    private static final String RULE = "labels of the table; nested-in overrides";

    private PrecisionWords() {}

    /** The structure that the design left. */
    static ScatterStructure structure(PrecisionLayouts.Layout layout) {
        return layout.design().fold(d -> d.structure(), n -> layout.structure());
    }

    /** All terms from the widest to the finest, as a tree in one line. */
    static String tree(PrecisionLayouts.Layout layout) {
        final ScatterStructure structure = structure(layout);
        final List<String> relations = new ArrayList<>();
        for (Relation r : structure.relations()) {
            relations.add(
                    r.factor()
                            + (r.kind() == Kind.CROSSED ? " is crossed with " : " is nested in ")
                            + r.other());
        }
        final String terms =
                structure.terms().stream()
                        .map(t -> branch(structure, t))
                        .collect(Collectors.joining("; "));
        return "Structure read from the labels: "
                + (relations.isEmpty() ? "" : String.join(", ", relations) + ". Terms: ")
                + (terms.isEmpty() ? "" : terms + "; ")
                + structure.residual()
                + " ("
                + layout.rows()
                + " rows) within "
                + (structure.terms().isEmpty()
                        ? "one set of conditions"
                        : structure.terms().get(structure.terms().size() - 1).name())
                + missing(structure)
                + ".";
    }

    private static String branch(ScatterStructure structure, ScatterFactor term) {
        return term.name()
                + " ("
                + term.levels()
                + ")"
                + Optional.ofNullable(structure.tree().get(term.name()))
                        .map(p -> " within " + p)
                        .orElse("");
    }

    /** What the rows cannot tell; begins with a semicolon, empty if nothing. */
    static String missing(ScatterStructure structure) {
        final StringBuilder words = new StringBuilder();
        for (Confounded c : structure.confounded()) {
            words.append("; ").append(c.term());
            words.append(
                    c.with().isEmpty()
                            ? " has one label and is not in it"
                            : " cannot be told from " + c.with());
        }
        return words.toString();
    }

    /** What counts as one result. */
    static String result(double meanOf) {
        return "a result is the mean of "
                + Trail.digits(meanOf)
                + (meanOf == 1 ? " injection" : " injections")
                + " of one preparation";
    }

    /** How labels of preparations were read, where they occur more than once. */
    static Optional<Choice> preparations(PrecisionLayouts.Layout layout) {
        if (!layout.crossedWith().isEmpty()) {
            return Optional.of(
                    new Choice(
                            Repeatability.ID,
                            "",
                            "A preparation counts as one solution under every "
                                    + String.join(" and ", layout.crossedWith()),
                            "its label occurs under several of them; say nested-in if labels were used again for other"
                                    + " solutions",
                            RULE));
        }
        if (layout.restarted()) {
            return Optional.of(
                    new Choice(
                            Repeatability.ID,
                            "",
                            "Labels of preparations count as numbered anew under every combination of the factors",
                            "the same labels occur under all of them; say nested-in if they mean the same solution",
                            RULE));
        }
        return Optional.empty();
    }
}
