package splitledger.budget;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import splitledger.budget.Sources.Source;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Budget;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.MethodsCompared;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;

/** The findings of results and budgets. */
final class Results {
    static final String LAW = "law of propagation";

    private final Study study;
    private final Measurand measurand;
    private final BudgetMaker maker;
    private final BelowLimits limits;
    private final Conformity conformity;
    private final OtherMethods methods;

    Results(Study study, Measurand measurand, BudgetMaker maker, List<Finding> findings) {
        this.study = study;
        this.measurand = measurand;
        this.maker = maker;
        this.limits =
                new BelowLimits(
                        measurand, findings, maker, study.protocol().conventions().coverage());
        this.conformity = new Conformity(measurand);
        this.methods = new OtherMethods(measurand.unit());
    }

    /** Completes the inputs of one result with what was found. */
    interface Completing {
        /** Inputs by symbol; {@code sample} names what results share conditions with. */
        Outcome<SortedMap<String, Uncertain>> inputs(Source source, String sample, Uncertain found);
    }

    /** A result with its uncertainty for every preparation, and the mean of each sample. */
    List<Finding> ofSources(
            List<Source> sources, Map<String, List<Source>> samples, Completing completing) {
        final List<Finding> results = new ArrayList<>();
        final Map<Key, Uncertain> made = new LinkedHashMap<>();
        final Map<Key, String> labels = new LinkedHashMap<>();
        samples.forEach((label, members) -> members.forEach(m -> labels.put(m.key(), label)));
        for (Source source : sources) {
            final String sample = labels.getOrDefault(source.key(), source.key().conditionText());
            results.addAll(ofSource(source, sample, completing, made));
        }
        samples.forEach((label, members) -> results.addAll(ofSample(label, members, made)));
        return results;
    }

    private List<Finding> ofSource(
            Source source, String sample, Completing completing, Map<Key, Uncertain> made) {
        if (!(source.found() instanceof Outcome.Computed<Uncertain> found)) {
            return source.found()
                    .fold(
                            x -> List.<Finding>of(),
                            not ->
                                    all(
                                            source.key(),
                                            Answers.not(measurand.unit(), not),
                                            source.rows()));
        }
        return completing
                .inputs(source, sample, found.value())
                .fold(
                        inputs -> computed(source, inputs, made),
                        not ->
                                all(
                                        source.key(),
                                        Answers.not(measurand.unit(), not),
                                        source.rows()));
    }

    private List<Finding> computed(
            Source source, SortedMap<String, Uncertain> inputs, Map<Key, Uncertain> made) {
        final Uncertain result;
        try {
            result = maker.propagate(inputs).result();
        } catch (ArithmeticException e) {
            return all(
                    source.key(),
                    Answers.not(
                            measurand.unit(),
                            Reason.NO_FINITE_VALUE,
                            String.valueOf(e.getMessage())),
                    source.rows());
        }
        made.put(source.key(), result);
        final List<Trail.Step> steps = new ArrayList<>(source.trail().steps());
        steps.addAll(maker.trail(inputs, result.value()).steps());
        final Optional<BelowLimits.Below> below =
                limits.below(source.key().compound(), source.found(), inputs);
        if (below.isPresent() && below.get().words()) {
            return limits.instead(source.key(), result, source.rows(), below.get());
        }
        final String note = below.map(b -> joined(source.note(), b.detail())).orElse(source.note());
        final List<Finding> findings =
                new ArrayList<>(
                        estimates(source.key(), result, source.rows(), note, new Trail(steps)));
        findings.addAll(conformity.of(source.key(), result, source.rows()));
        return findings;
    }

    /** The mean of a sample's preparations, with what they share counted as shared. */
    private List<Finding> ofSample(String label, List<Source> members, Map<Key, Uncertain> made) {
        final List<Uncertain> own =
                members.stream().map(m -> made.get(m.key())).filter(Objects::nonNull).toList();
        final Key key =
                Key.of(Budgets.ID, members.get(0).key().compound(), "result", LAW)
                        .with("sample", label);
        final Rows rows =
                Rows.of(members.stream().flatMapToInt(m -> m.rows().stream()).sorted().toArray());
        if (own.isEmpty()) {
            return all(
                    key,
                    Answers.not(
                            measurand.unit(),
                            Reason.NO_FINITE_VALUE,
                            "no preparation gave a result"),
                    rows);
        }
        final double[] weights = new double[own.size()];
        Arrays.fill(weights, 1.0 / weights.length);
        final double mean = own.stream().mapToDouble(Uncertain::value).sum() / weights.length;
        final Uncertain result = Uncertain.combine(mean, measurand.unit(), weights, own);
        final String note =
                "mean of "
                        + own.size()
                        + (own.size() == 1 ? " preparation" : " preparations")
                        + (own.size() < members.size()
                                ? ", " + (members.size() - own.size()) + " gave no value"
                                : "");
        final List<Finding> findings =
                new ArrayList<>(estimates(key, result, rows, note, Trail.NONE));
        findings.addAll(conformity.of(key, result, rows));
        return findings;
    }

    private static String joined(String a, String b) {
        return a.isEmpty() ? b : a + "; " + b;
    }

    /**
     * The result of a budget by both methods.
     *
     * @param given whether the key has its result already
     */
    List<Finding> ofBudget(Key key, boolean given, Outcome<Budget> outcome) {
        return outcome.fold(
                budget -> {
                    final List<Finding> findings = new ArrayList<>();
                    if (!given) {
                        findings.addAll(
                                estimates(
                                        key,
                                        budget.result(),
                                        Rows.NONE,
                                        MethodsCompared.warning(budget),
                                        budget.trail()));
                    }
                    findings.addAll(methods.of(key, budget));
                    return findings;
                },
                not -> given ? List.of() : all(key, Answers.not(measurand.unit(), not), Rows.NONE));
    }

    /** The result of a level under a decision about the recovery. */
    Finding under(Key key, String way, Uncertain result) {
        return Finding.of(
                key.with("recovery", way),
                Answers.student(result, study.protocol().conventions().coverage()),
                Rows.NONE,
                way.equals("correct")
                        ? "divided by the recovery, whose uncertainty is in it"
                        : "not divided by the recovery; its uncertainty, and its deviation where shown, are in it");
    }

    private List<Finding> estimates(
            Key key, Uncertain result, Rows rows, String note, Trail trail) {
        final double coverage = study.protocol().conventions().coverage();
        final double k = maker.factor(result);
        final double expanded = k * result.standardUncertainty();
        final List<Finding> findings = new ArrayList<>();
        final String below =
                BelowZero.words(
                        result.value(),
                        result.value() - expanded,
                        result.unit(),
                        maker.usesFound());
        final String words = note.isEmpty() || below.isEmpty() ? note + below : note + "; " + below;
        findings.add(Finding.of(key, Answers.student(result, coverage), rows, words).with(trail));
        findings.add(
                statistic(
                        key,
                        "combined-standard-uncertainty",
                        result.standardUncertainty(),
                        result.unit(),
                        rows));
        findings.add(degreesOfFreedom(key, result, rows));
        findings.add(statistic(key, "coverage-factor", k, "1", rows));
        findings.add(statistic(key, "expanded-uncertainty", expanded, result.unit(), rows));
        final Key relative = quantity(key, "relative-expanded-uncertainty", LAW);
        findings.add(
                result.value() == 0
                        ? Finding.of(
                                relative,
                                Answers.not(
                                        "%",
                                        Reason.MEAN_NEAR_ZERO,
                                        "the result is 0: a relative value means nothing"),
                                rows,
                                "")
                        : statistic(
                                key,
                                "relative-expanded-uncertainty",
                                100 * expanded / Math.abs(result.value()),
                                "%",
                                rows));
        return findings;
    }

    private static Finding degreesOfFreedom(Key key, Uncertain result, Rows rows) {
        final String name = "effective-degrees-of-freedom";
        final double df = result.degreesOfFreedom();
        if (Double.isInfinite(df)) {
            return Finding.of(
                    quantity(key, name, LAW),
                    new Answer.NotEstimable(
                            "1", "infinite", "infinite: every contribution is taken as known"),
                    rows,
                    "");
        }
        return statistic(key, name, df, "1", rows);
    }

    static List<Finding> all(Key key, Answer none, Rows rows) {
        final List<Finding> findings = new ArrayList<>();
        findings.add(Finding.of(key, none, rows, ""));
        findings.add(Finding.of(quantity(key, "expanded-uncertainty", LAW), none, rows, ""));
        return findings;
    }

    private static Finding statistic(Key key, String name, double value, String unit, Rows rows) {
        return Finding.of(quantity(key, name, LAW), new Answer.Statistic(value, unit), rows, "");
    }

    static Key quantity(Key key, String name, String method) {
        return new Key(key.characteristic(), key.compound(), key.condition(), name, method);
    }
}
