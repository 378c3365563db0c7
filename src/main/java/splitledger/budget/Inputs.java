package splitledger.budget;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Protocol.AmountOf;
import splitledger.study.Protocol.FromFinding;
import splitledger.study.Protocol.Given;
import splitledger.study.Protocol.Input;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.NotCorrected;
import splitledger.study.Protocol.Readings;
import splitledger.study.Protocol.RowVariable;
import splitledger.study.Protocol.SplitFactor;
import splitledger.study.Protocol.Spread;
import splitledger.study.Study;

/**
 * Gives each symbol of the measurement equation its value with roots, for one compound and one
 * place.
 */
final class Inputs {
    private final Study study;
    private final Measurand measurand;
    private final List<Finding> findings;
    private final SpreadInput spreads;
    private final SplitFactors splits;
    private final Admission admission;
    private final RecoveryInput recovery;

    Inputs(Study study, Measurand measurand, List<Finding> findings) {
        this.study = study;
        this.measurand = measurand;
        this.findings = findings;
        this.spreads = new SpreadInput(findings);
        this.splits = new SplitFactors(study, findings);
        this.admission = new Admission(study, measurand);
        this.recovery = new RecoveryInput(study, findings);
    }

    /** All inputs but {@code found}. */
    Outcome<SortedMap<String, Uncertain>> of(Asked asked) {
        final SortedMap<String, Uncertain> all = new TreeMap<>();
        for (Map.Entry<String, Input> e : measurand.inputs().entrySet()) {
            final Outcome<Uncertain> one =
                    admission.refused(e.getValue()).isPresent()
                            ? Outcome.of(Uncertain.exact(1, "1"))
                            : one(e.getKey(), e.getValue(), asked);
            if (one instanceof Outcome.NotComputed<Uncertain> not) {
                return Outcome.not(not.reason(), not.detail());
            }
            if (one instanceof Outcome.Computed<Uncertain> computed) {
                all.put(e.getKey(), ratio(e.getValue(), computed.value()));
            }
        }
        measurand.correlations().forEach(group -> GivenInputs.join(group, all));
        return Outcome.of(all);
    }

    /** Factors found in percent enter as ratios. */
    private static Uncertain ratio(Input input, Uncertain x) {
        return input instanceof FromFinding && "%".equals(x.unit()) ? x.scaled(0.01, "1") : x;
    }

    /** Whether the protocol decides to leave the recovery out altogether. */
    boolean neither() {
        return recovery.neither();
    }

    /**
     * Both ways of treating the recovery of a compound, by decision; none where it is not known.
     */
    Map<String, Uncertain> recoveries(String compound) {
        return recovery.bothWays(measurand, compound);
    }

    /** Why inputs are set to 1, by symbol, in order of the protocol. */
    Map<String, String> refused() {
        final Map<String, String> all = new LinkedHashMap<>();
        measurand
                .inputs()
                .forEach(
                        (symbol, input) ->
                                admission.refused(input).ifPresent(why -> all.put(symbol, why)));
        return all;
    }

    /** The scatter that the widest precision factor brings to a result, if there is one. */
    Optional<SpreadInput.Found> precision(String compound, double amount) {
        return measurand.inputs().values().stream()
                .filter(Spread.class::isInstance)
                .map(Spread.class::cast)
                .max(
                        (a, b) -> {
                            final Effect of = SpreadInput.effect(a.quantity());
                            final Effect other = SpreadInput.effect(b.quantity());
                            return of == other ? 0 : of.contains(other) ? 1 : -1;
                        })
                .flatMap(
                        s ->
                                spreads.found(s, compound, amount)
                                        .<Optional<SpreadInput.Found>>fold(
                                                Optional::of, not -> Optional.empty()));
    }

    /** Whether any input is a finding of a compound. */
    boolean useFindings() {
        return measurand.inputs().values().stream()
                .anyMatch(
                        i ->
                                i instanceof FromFinding
                                        || i instanceof Spread
                                        || i instanceof AmountOf);
    }

    /** The unit of an input as stated; empty if nothing states one. */
    Optional<String> unit(Input input) {
        if (input instanceof Given given) {
            return Optional.of(given.unit());
        }
        if (input instanceof Readings readings) {
            return Optional.of(readings.unit());
        }
        if (input instanceof RowVariable row) {
            return Optional.of(row.unit());
        }
        if (input instanceof FromFinding from) {
            return findings.stream()
                    .filter(f -> f.key().quantity().equals(from.quantity()))
                    .map(f -> f.answer().unit())
                    .map(u -> u.equals("%") ? "1" : u)
                    .findFirst();
        }
        if (input instanceof AmountOf) {
            return Optional.of(study.protocol().conventions().amountUnit());
        }
        return Optional.of("1");
    }

    /**
     * Whether its uncertainty comes from data of this study; empty if that is not plain from it.
     */
    static Optional<Boolean> fromData(Input input) {
        return input instanceof Given
                ? Optional.of(false)
                : input instanceof Readings ? Optional.of(true) : Optional.empty();
    }

    /** Where an input's number comes from, in words. */
    static String source(Input input) {
        if (input instanceof Given given) {
            return given.source().isEmpty() ? "stated in the protocol" : given.source();
        }
        if (input instanceof Readings readings) {
            return GivenInputs.words(readings);
        }
        if (input instanceof RowVariable row) {
            return row.source().isEmpty()
                    ? "column " + row.column() + " of the tables"
                    : row.source();
        }
        if (input instanceof Spread spread) {
            return "finding " + spread.quantity() + " of this study";
        }
        if (input instanceof FromFinding finding) {
            return "finding " + finding.quantity() + " of this study";
        }
        if (input instanceof AmountOf) {
            return "amounts found by the calibration of this study";
        }
        if (input instanceof SplitFactor factor) {
            return factor.source().isEmpty() ? "split ratios of the tables" : factor.source();
        }
        return "not corrected, as the protocol says";
    }

    /**
     * The widest scatter that a spread input of the equation brings to the sample, if there is one.
     */
    Optional<Effect> widestSpread() {
        return measurand.inputs().values().stream()
                .filter(Spread.class::isInstance)
                .map(i -> SpreadInput.effect(((Spread) i).quantity()))
                .reduce((a, b) -> a.contains(b) ? a : b);
    }

    private Outcome<Uncertain> one(String symbol, Input input, Asked asked) {
        if (input instanceof Given given) {
            return Outcome.of(GivenInputs.of(symbol, given));
        }
        if (input instanceof Readings readings) {
            return Outcome.of(GivenInputs.of(symbol, readings));
        }
        if (input instanceof RowVariable variable) {
            return variable(symbol, variable, asked);
        }
        if (input instanceof Spread spread) {
            return spreads.of(spread, source(spread), asked);
        }
        if (input instanceof FromFinding from) {
            return RecoveryInput.is(from)
                    ? recovery.of(from, asked.compound())
                    : NamedFinding.of(findings, from, asked.compound());
        }
        if (input instanceof AmountOf of) {
            return amountOf(of, asked.compound());
        }
        if (input instanceof SplitFactor factor) {
            return splits.of(factor, asked);
        }
        if (input instanceof NotCorrected) {
            return Outcome.of(Uncertain.exact(1, "1"));
        }
        throw new IllegalStateException("an input of an unknown kind: " + symbol);
    }

    /** The mean of the amounts found in the preparations of some rows, by the line of the study. */
    private Outcome<Uncertain> amountOf(AmountOf of, String compound) {
        final SortedSet<String> labels = Sources.labels(study, study.table().rows(of.rows()));
        final List<Uncertain> found = new ArrayList<>();
        findings.stream()
                .filter(f -> Sources.isAmount(f, compound))
                .filter(f -> labels.contains(f.key().conditionText()))
                .map(Finding::answer)
                .filter(Answer.Estimate.class::isInstance)
                .forEach(a -> ((Answer.Estimate) a).quantity().ifPresent(found::add));
        if (found.isEmpty()) {
            return Outcome.not(
                    Reason.NO_FINDING,
                    "nothing was found in the rows of amount-of: integrate these peaks, or state the value");
        }
        final double[] weights = new double[found.size()];
        Arrays.fill(weights, 1.0 / weights.length);
        final double mean = found.stream().mapToDouble(Uncertain::value).sum() / weights.length;
        return Outcome.of(Uncertain.combine(mean, found.get(0).unit(), weights, found));
    }

    private Outcome<Uncertain> variable(String symbol, RowVariable variable, Asked asked) {
        final double[] values =
                asked.rows().stream()
                        .mapToDouble(row -> study.table().number(variable.column(), row))
                        .filter(v -> !Double.isNaN(v))
                        .toArray();
        if (values.length == 0) {
            return Outcome.not(
                    Reason.NO_ROWS, "no row of it has a number in column " + variable.column());
        }
        final double value = asked.median() ? median(values) : Moments.ofAll(values).mean();
        if (variable.standardUncertainty() == 0) {
            return Outcome.of(Uncertain.exact(value, variable.unit()));
        }
        final String id = "row/" + symbol + "/" + asked.label();
        final Root root =
                Root.normal(
                        id,
                        Pool.known(id, source(variable)),
                        Effect.REFERENCE_VALUE,
                        ActsOn.SAMPLE,
                        source(variable));
        return Outcome.of(
                Uncertain.of(value, variable.unit(), root, variable.standardUncertainty()));
    }

    private static double median(double[] values) {
        final double[] sorted = values.clone();
        Arrays.sort(sorted);
        final int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
