package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Digits;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.PrecisionFigures;
import splitledger.statistics.Quantiles;
import splitledger.statistics.ScatterComponent;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.ScatterMoments;
import splitledger.statistics.ScatterReml;
import splitledger.statistics.ScatterStructure;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Rows;

/** Takes the scatter of one compound apart, by moments and by restricted likelihood. */
public final class PrecisionFindings {
    /** Method of the findings that come from mean squares; budgets take these. */
    public static final String MOMENTS = "moments";

    static final String REML = "reml";

    /** What every compound has a row of, whatever its data can tell. */
    private static final List<String> ALWAYS =
            List.of(
                    "mean",
                    "sd-injection",
                    "rsd-injection",
                    "sd-repeatability",
                    "rsd-repeatability",
                    "sd-intermediate",
                    "rsd-intermediate",
                    "sd-between",
                    "variance-share",
                    "repeatability-limit");

    private static final double PERCENT = 100;

    private final String compound;
    private final Rows rows;
    private final String unit;
    private final double coverage;
    private final PrecisionLayouts.Layout layout;
    private final PrecisionTerms terms;
    private final List<Finding> findings = new ArrayList<>();
    private final List<Choice> choices = new ArrayList<>();
    private final List<Flag> flags = new ArrayList<>();

    private PrecisionFindings(
            String compound,
            Rows rows,
            String unit,
            double coverage,
            PrecisionLayouts.Layout layout) {
        this.compound = compound;
        this.rows = rows;
        this.unit = unit;
        this.coverage = coverage;
        this.layout = layout;
        this.terms = new PrecisionTerms(compound, rows, unit, coverage, layout.meanOf());
    }

    /**
     * What was found.
     *
     * @param findings in any order, those by moments before those by likelihood
     * @param choices what was decided for this compound
     * @param flags what looks unusual
     */
    record Found(List<Finding> findings, List<Choice> choices, List<Flag> flags) {
        Found {
            findings = List.copyOf(findings);
            choices = List.copyOf(choices);
            flags = List.copyOf(flags);
        }
    }

    /** Rows for a compound without any response. */
    static List<Finding> none(String compound, String unit) {
        final Answer none =
                Answers.not(unit, Reason.NO_ROWS, "no row of this compound has a response");
        final List<Finding> all = new ArrayList<>();
        ALWAYS.forEach(q -> all.add(Finding.of(key(compound, q, MOMENTS), none, Rows.NONE, "")));
        all.addAll(SeriesFindings.none(compound, none));
        return all;
    }

    /**
     * Takes it apart.
     *
     * @param y responses, one a row
     * @param unit of the responses
     */
    static Found of(
            String compound,
            Rows rows,
            double[] y,
            String unit,
            double coverage,
            PrecisionLayouts.Layout layout) {
        final PrecisionFindings own = new PrecisionFindings(compound, rows, unit, coverage, layout);
        layout.design()
                .<Outcome<ScatterMoments>>fold(
                        design -> ScatterMoments.of(design, y),
                        not -> Outcome.not(not.reason(), not.detail()))
                .fold(
                        m -> {
                            own.all(m, y);
                            return true;
                        },
                        not -> {
                            ALWAYS.forEach(q -> own.add(q, MOMENTS, Answers.not(unit, not), ""));
                            return false;
                        });
        final List<Finding> all = new ArrayList<>(own.findings);
        all.addAll(own.terms.findings());
        return new Found(all, own.choices, own.flags);
    }

    private void all(ScatterMoments moments, double[] y) {
        final ScatterStructure structure = moments.design().structure();
        final VarianceEstimate ofMean = moments.meanVariance();
        add(
                "mean",
                MOMENTS,
                Answers.student(
                        moments.mean(), unit, ofMean.sd(), ofMean.degreesOfFreedom(), coverage),
                "mean of all "
                        + layout.rows()
                        + " rows; its uncertainty holds what differs between the labels of this study");
        spreads(new Components.ByMoments(moments), moments, structure, ofMean);
        terms.shares(moments, structure);
        for (ScatterFactor term : structure.terms()) {
            if (term.levels() == 2 && !term.name().equals(ScatterStructure.PREPARATION)) {
                terms.difference(structure, term, y);
            }
        }
        final NegativeComponents negative = new NegativeComponents(compound, moments);
        negative.choice().ifPresent(choices::add);
        flags.addAll(negative.flags());
        if (!structure.terms().isEmpty()) {
            ScatterReml.of(moments)
                    .fold(
                            reml -> {
                                spreads(
                                        new Components.ByLikelihood(reml),
                                        moments,
                                        structure,
                                        ofMean);
                                return true;
                            },
                            not -> {
                                add("sd-repeatability", REML, Answers.not(unit, not), "");
                                return false;
                            });
        }
    }

    private void spreads(
            Components by,
            ScatterMoments moments,
            ScatterStructure structure,
            VarianceEstimate ofMean) {
        final int residual = structure.terms().size();
        final boolean injected = structure.residual().equals(ScatterStructure.INJECTION);
        if (injected) {
            final ScatterComponent own = by.component(residual, coverage);
            add("sd-injection", by.method(), Answers.spread(own, 1, unit, coverage), "");
            add("rsd-injection", by.method(), relative(own, moments, ofMean), "");
        } else {
            none(
                    by,
                    List.of("sd-injection", "rsd-injection"),
                    Reason.TOO_FEW_INJECTIONS,
                    "needs a preparation that was injected twice, found none");
        }
        if (structure.names().contains(ScatterStructure.PREPARATION)) {
            repeatability(by, moments, structure, ofMean);
        } else {
            none(
                    by,
                    List.of("sd-repeatability", "rsd-repeatability", "repeatability-limit"),
                    Reason.TOO_FEW_PREPARATIONS,
                    "needs 2 preparations under the same conditions, found "
                            + layout.preparations()
                            + " in all; repeated injections of one preparation do not show it");
        }
        if (structure.terms().stream()
                .anyMatch(t -> !t.name().equals(ScatterStructure.PREPARATION))) {
            final ScatterComponent sum = by.sum(structure.intermediate(layout.meanOf()), coverage);
            final String words =
                    PrecisionWords.result(layout.meanOf())
                            + "; holds "
                            + String.join(" + ", structure.names());
            add(
                    "sd-intermediate",
                    by.method(),
                    Answers.spread(sum, 1, unit, coverage),
                    words
                            + PrecisionWords.missing(structure)
                            + (by.method().equals(MOMENTS)
                                    ? new NegativeComponents(compound, moments).cut()
                                    : ""));
            add("rsd-intermediate", by.method(), relative(sum, moments, ofMean), words);
        } else {
            none(
                    by,
                    List.of("sd-intermediate", "rsd-intermediate"),
                    Reason.TOO_FEW_LEVELS,
                    "needs a factor (day, analyst, ...) with 2 labels that differ within the rows"
                            + PrecisionWords.missing(structure));
        }
        if (structure.terms().isEmpty()) {
            none(
                    by,
                    List.of("sd-between", "variance-share"),
                    Reason.TOO_FEW_LEVELS,
                    "nothing differs within the rows but "
                            + structure.residual()
                            + PrecisionWords.missing(structure));
        }
        terms.between(by, moments, structure);
    }

    private void repeatability(
            Components by,
            ScatterMoments moments,
            ScatterStructure structure,
            VarianceEstimate ofMean) {
        final ScatterComponent sum = by.sum(structure.repeatability(layout.meanOf()), coverage);
        final String words =
                "mean "
                        + Digits.four(moments.mean())
                        + " "
                        + unit
                        + "; "
                        + PrecisionWords.result(layout.meanOf());
        add("sd-repeatability", by.method(), Answers.spread(sum, 1, unit, coverage), words);
        add("rsd-repeatability", by.method(), relative(sum, moments, ofMean), words);
        if (by.method().equals(MOMENTS)) {
            final double known =
                    Quantiles.coverageFactor(coverage, Double.POSITIVE_INFINITY) * Math.sqrt(2);
            add(
                    "repeatability-limit",
                    MOMENTS,
                    new Answer.Estimate(
                            PrecisionFigures.repeatabilityLimit(sum.estimate(), coverage),
                            unit,
                            known * sum.sdUncertainty(),
                            sum.degreesOfFreedom(),
                            known * sum.sdLower(),
                            known * sum.sdUpper(),
                            coverage,
                            Answer.Law.ENDS,
                            Optional.empty()),
                    "t sqrt(2) times the standard deviation of repeatability; 2.8 times it at many degrees of freedom."
                            + " The interval is that of the limit at known standard deviation");
        }
    }

    private Answer relative(ScatterComponent sum, ScatterMoments moments, VarianceEstimate ofMean) {
        return PrecisionFigures.relative(
                        sum, moments.mean(), ofMean.sd(), ofMean.degreesOfFreedom(), coverage)
                .fold(
                        r ->
                                Answers.spread(
                                        PERCENT * r.value(),
                                        "%",
                                        PERCENT * r.standardUncertainty(),
                                        sum.degreesOfFreedom(),
                                        PERCENT * r.lower(),
                                        PERCENT * r.upper(),
                                        coverage),
                        not ->
                                Answers.not(
                                        "%",
                                        Reason.MEAN_NEAR_ZERO,
                                        not.detail() + ": a relative value means nothing"));
    }

    private void none(Components by, List<String> quantities, Reason reason, String detail) {
        if (by.method().equals(MOMENTS)) {
            quantities.forEach(q -> add(q, MOMENTS, Answers.not(unit, reason, detail), ""));
        }
    }

    private void add(String quantity, String method, Answer answer, String note) {
        findings.add(Finding.of(key(compound, quantity, method), answer, rows, note));
    }

    static Key key(String compound, String quantity, String method) {
        return Key.of(Repeatability.ID, compound, quantity, method);
    }
}
