package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.characteristic.Responses;
import splitledger.characteristic.calibration.Calibration;
import splitledger.characteristic.calibration.GroupFits;
import splitledger.propagation.ScatterLine;
import splitledger.propagation.UncertainLine;
import splitledger.propagation.WeightedLine;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answers;
import splitledger.study.Card;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/** How little can be told from nothing, by each document's own definition. */
public final class Detection implements Characteristic {
    static final String ID = "detection";

    private static final Card CARD = DetectionCard.card();

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
        final SortedMap<String, UncertainLine> lines = earlier.lines();
        final List<String> targets = study.compounds().targets();
        final List<One> each =
                IntStream.range(0, targets.size())
                        .parallel()
                        .mapToObj(
                                i ->
                                        one(
                                                study,
                                                responses,
                                                targets.get(i),
                                                Optional.ofNullable(lines.get(targets.get(i))),
                                                new Injected(options, where, blanks, spiked),
                                                extent))
                        .toList();
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        for (One one : each) {
            findings.addAll(one.findings());
            figures.addAll(one.figures());
            flags.addAll(one.flags());
        }
        final Question question =
                new Question(
                        ID,
                        CARD.title(),
                        CARD.question(),
                        injected(study, where, blanks, spiked),
                        how());
        return new Contribution(question, findings, figures, List.of(), flags, new TreeMap<>());
    }

    /** Rows by what was injected. */
    private record Injected(Tree.Mapping options, Rows where, Rows blanks, Rows spiked) {}

    /** What one compound gives. */
    private record One(List<Finding> findings, List<Figure> figures, List<Flag> flags) {}

    private static One one(
            Study study,
            Responses responses,
            String compound,
            Optional<UncertainLine> line,
            Injected rows,
            Extent extent) {
        final double lowest = lowest(study, rows.where(), compound);
        final MethodDetectionLimit mdl = new MethodDetectionLimit(study, responses, compound, line);
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        findings.addAll(mdl.findings(rows.spiked(), rows.blanks()));
        if (line.isPresent() && line.get() instanceof ScatterLine scatter) {
            final double coverage = study.protocol().conventions().coverage();
            final DetectionLimits limits =
                    new DetectionLimits(
                            compound,
                            scatter,
                            coverage,
                            lowest,
                            DetectionLimits.Blanks.of(
                                    FoundAmounts.of(
                                            study, responses, scatter, rows.blanks(), compound)));
            findings.addAll(limits.findings());
            if (extent.errorRates()) {
                final DetectionRates rates = new DetectionRates(compound, scatter, coverage);
                limits.decisions().forEach(d -> findings.addAll(rates.of(d)));
                findings.addAll(
                        new MethodDetectionRates(compound, scatter, coverage)
                                .of(
                                        FoundAmounts.of(
                                                study, responses, scatter, rows.spiked(), compound),
                                        FoundAmounts.of(
                                                study,
                                                responses,
                                                scatter,
                                                rows.blanks(),
                                                compound)));
            }
            if (extent.figures()) {
                figures.addAll(
                        new DetectionFigures(study, compound, scatter, limits.decisions(), findings)
                                .all());
            }
        } else {
            findings.addAll(
                    CalibrationLimits.of(
                            study,
                            compound,
                            line.filter(WeightedLine.class::isInstance)
                                    .map(WeightedLine.class::cast),
                            lowest));
        }
        findings.addAll(unanswered(study, compound, line.isPresent(), findings, extent));
        final Tree.Mapping options = rows.options();
        findings.addAll(SignalToNoise.of(study, compound, options, rows.where()));
        if (line.isPresent() && options.get("verification").isPresent()) {
            final Rows at = study.table().rows(Where.of(options.mapping("verification")));
            findings.add(
                    LimitVerification.of(
                            study,
                            compound,
                            line.get(),
                            options,
                            FoundAmounts.of(study, responses, line.get(), at, compound)));
        }
        if (LimitRatios.wanted(options)) {
            final Tree.Mapping calibration =
                    study.protocol()
                            .characteristics()
                            .getOrDefault(Calibration.ID, Tree.Mapping.EMPTY);
            final GroupFits groups =
                    GroupFits.of(study, responses, rows.where(), compound, options, calibration);
            findings.addAll(
                    LimitRatios.of(compound, groups, study.protocol().conventions().coverage()));
        }
        return new One(findings, figures, mdl.leftOut());
    }

    /** Quantities that nothing above has a row of. */
    private static List<Finding> unanswered(
            Study study,
            String compound,
            boolean calibrated,
            List<Finding> findings,
            Extent extent) {
        final String unit = study.protocol().conventions().amountUnit();
        final List<Finding> more = new ArrayList<>();
        for (String quantity :
                List.of(
                        DetectionLimits.CRITICAL,
                        DetectionRates.POSITIVE,
                        DetectionRates.NEGATIVE)) {
            final boolean rate = !quantity.equals(DetectionLimits.CRITICAL);
            if ((!rate || extent.errorRates())
                    && findings.stream().noneMatch(f -> f.key().quantity().equals(quantity))) {
                more.add(
                        Finding.of(
                                Key.of(ID, compound, quantity, ""),
                                calibrated
                                        ? Answers.not(
                                                rate ? "1" : unit,
                                                Reason.NO_FINITE_VALUE,
                                                rate
                                                        ? "no document gives a limit that decisions could be made by"
                                                        : "the scatter of the calibrants is not seen")
                                        : Answers.not(
                                                rate ? "1" : unit,
                                                Reason.NO_CALIBRATION,
                                                "no calibration line for this compound"),
                                Rows.NONE,
                                ""));
            }
        }
        return more;
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
        return "Each limit follows its own document and only what that document defines, for one preparation injected as often"
                + " as the calibrants and risks of 5 % (all from memory). ISO 11843-2: critical value t sd(0)/slope, detection limit"
                + " the amount missed in 5 % of cases, with the scatter that holds there. Hubaux and Vos, Anal. Chem. 42 (1970) 849:"
                + " where the lower prediction limit meets the critical response. DIN 32645: same scatter at every level; detection"
                + " limit twice the critical value, quantification limit at a relative half-width of 1/3. Currie, Pure Appl. Chem."
                + " 67 (1995) 1699: from blanks; quantification 10 standard deviations. ICH Q2(R2), approach by standard"
                + " deviation of the response and slope: 3.3 and 10 times sigma/slope. US 40 CFR 136 Appendix"
                + " B revision 2: the larger of t(n-1, 0.99) s of spiked preparations and mean (not below 0) + t(n-1, 0.99) s of"
                + " blanks; it is a critical value at a false-positive risk of 1 %, not an amount detected"
                + " with certainty. The limits of different documents answer different questions and need not agree.";
    }
}
