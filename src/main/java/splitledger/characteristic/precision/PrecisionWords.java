package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import splitledger.characteristic.Responses;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.ScatterStructure;
import splitledger.statistics.ScatterStructure.Confounded;
import splitledger.statistics.ScatterStructure.Kind;
import splitledger.statistics.ScatterStructure.Relation;
import splitledger.study.Choice;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.Study;
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

    /** What was injected, with the labels of its factors counted. */
    static String injected(Study study, Rows rows, List<String> factors) {
        final InjectionTable table = study.table();
        final long injections = rows.stream().mapToObj(table::injection).distinct().count();
        final long preparations =
                rows.stream().mapToObj(r -> table.label("preparation", r)).distinct().count();
        final String byFactor =
                factors.stream()
                        .map(
                                f ->
                                        rows.stream()
                                                        .mapToObj(
                                                                r ->
                                                                        PrecisionLayouts.cell(
                                                                                table, f, r))
                                                        .distinct()
                                                        .count()
                                                + " of "
                                                + f)
                        .collect(Collectors.joining(", "));
        return injections
                + " injections of "
                + preparations
                + " preparations"
                + (byFactor.isEmpty() ? "." : "; labels: " + byFactor + ".");
    }

    /** How it was evaluated. */
    static String how(Responses responses, List<PrecisionLayouts.Layout> patterns) {
        return "The response is the "
                + responses.words()
                + ". "
                + patterns.stream().findFirst().map(PrecisionWords::tree).orElse("")
                + (patterns.size() > 1
                        ? " (Rows are missing for some compounds; this is the structure of the first.)"
                        : "")
                + " Variances by the method of moments, sequential mean squares set equal to their expectations, with intervals"
                + " by the modified large sample method (Burdick and Graybill, Confidence Intervals on Variance Components,"
                + " 1992, from memory); beside them by restricted likelihood (Patterson and Thompson, Biometrika 58 (1971)"
                + " 545) with profile intervals. A factor with fewer than 5 labels gives a bound of its own scatter, with 2"
                + " labels their difference; what came out for it counts in the intermediate precision. Nothing is left out by the"
                + " program: what looks unusual is flagged, each test at a risk of 1 %.";
    }
}
