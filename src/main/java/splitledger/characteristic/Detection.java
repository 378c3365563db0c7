package splitledger.characteristic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import splitledger.propagation.UncertainLine;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/** How little can be told from nothing, by two documents' own definitions. */
public final class Detection implements Characteristic {
    static final String ID = "detection";

    private static final Card CARD =
            new Card(
                    ID,
                    "Detection limits",
                    "How little can be told from nothing?",
                    List.of(
                            new Option(
                                    "where",
                                    Form.WHERE,
                                    List.of(),
                                    true,
                                    "Calibrants and blanks; injections without an amount above 0 are the blanks."),
                            new Option(
                                    "blanks",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "The blanks, where they are other rows."),
                            new Option(
                                    "spiked",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "Low-level spiked preparations for the US method detection limit.")),
                    List.of(
                            estimate(
                                    "detection-limit",
                                    "Amount that is detected, by its document's definition."),
                            estimate(
                                    "quantification-limit",
                                    "Amount that is quantified, by its document's definition."),
                            new Quantity(
                                    "method-detection-limit",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("form"),
                                    "A critical value at a false-positive risk of 1 %.")),
                    List.of(Calibration.ID));

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows where = study.table().rows(Where.of(options.mapping("where")));
        final Rows blanks = chosen(study, options, "blanks").orElseGet(() -> blanks(study, where));
        final Rows spiked = chosen(study, options, "spiked").orElse(Rows.NONE);
        final Responses responses = Responses.of(study);
        final List<Finding> findings = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        for (String compound : study.compounds().targets()) {
            final Optional<UncertainLine> line = Optional.ofNullable(earlier.lines().get(compound));
            findings.addAll(
                    CalibrationLimits.of(study, compound, line, lowest(study, where, compound)));
            final MethodDetectionLimit mdl =
                    new MethodDetectionLimit(study, responses, compound, line);
            findings.addAll(mdl.findings(spiked, blanks));
            flags.addAll(mdl.leftOut());
        }
        final Question question =
                new Question(
                        ID,
                        CARD.title(),
                        CARD.question(),
                        injected(study, where, blanks, spiked),
                        how());
        return new Contribution(question, findings, List.of(), List.of(), flags, new TreeMap<>());
    }

    private static Optional<Rows> chosen(Study study, Tree.Mapping options, String option) {
        return options.get(option).map(t -> study.table().rows(Where.of(options.mapping(option))));
    }

    /** Rows of the injections in which no target has an amount above 0. */
    private static Rows blanks(Study study, Rows where) {
        final Set<String> calibrants =
                where.stream()
                        .filter(row -> study.table().number("amount", row) > 0)
                        .mapToObj(study.table()::injection)
                        .collect(Collectors.toSet());
        return where.only(row -> !calibrants.contains(study.table().injection(row)));
    }

    /** Smallest amount above 0 among the calibrants; infinite if none. */
    private static double lowest(Study study, Rows rows, String compound) {
        return rows.stream()
                .filter(row -> study.table().compound(row).equals(compound))
                .mapToDouble(row -> study.table().number("amount", row))
                .filter(a -> a > 0)
                .min()
                .orElse(Double.POSITIVE_INFINITY);
    }

    private static String injected(Study study, Rows where, Rows blanks, Rows spiked) {
        return injections(study, where.only(row -> blanks.stream().noneMatch(b -> b == row)))
                + " calibration injections, "
                + injections(study, blanks)
                + " of blanks, "
                + injections(study, spiked)
                + " of low-level spiked preparations.";
    }

    private static long injections(Study study, Rows rows) {
        return rows.stream().mapToObj(study.table()::injection).distinct().count();
    }

    private static String how() {
        return "Each limit follows its own document and only what that document defines. ICH Q2(R2), approach by standard"
                + " deviation of the response and slope: 3.3 and 10 times sigma/slope (from memory). US 40 CFR 136 Appendix"
                + " B revision 2: the larger of t(n-1, 0.99) s of spiked preparations and mean (not below 0) + t(n-1, 0.99) s of"
                + " blanks (from memory); it is a critical value at a false-positive risk of 1 %, not an amount detected"
                + " with certainty. The limits of different documents answer different questions and need not agree.";
    }

    private static Quantity estimate(String name, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, "amount", List.of(), meaning);
    }
}
