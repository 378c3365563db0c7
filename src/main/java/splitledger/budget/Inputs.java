package splitledger.budget;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
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
import splitledger.study.Protocol.FromFinding;
import splitledger.study.Protocol.Given;
import splitledger.study.Protocol.Input;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.NotCorrected;
import splitledger.study.Protocol.Readings;
import splitledger.study.Protocol.RowVariable;
import splitledger.study.Protocol.Spread;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * Gives each symbol of the measurement equation its value with roots, for one compound and one
 * place.
 */
final class Inputs {
    private final Study study;
    private final Measurand measurand;
    private final List<Finding> findings;

    Inputs(Study study, Measurand measurand, List<Finding> findings) {
        this.study = study;
        this.measurand = measurand;
        this.findings = findings;
    }

    /**
     * All inputs but {@code found}.
     *
     * @param compound whose findings are taken; empty for a budget without compounds
     * @param rows whose row variables are taken, their median over {@code rows} if {@code median},
     *     else their mean
     * @param label unique name of the result, so that scatter of different results is independent
     */
    Outcome<SortedMap<String, Uncertain>> of(
            String compound, Rows rows, boolean median, String label) {
        final SortedMap<String, Uncertain> all = new TreeMap<>();
        for (Map.Entry<String, Input> e : measurand.inputs().entrySet()) {
            final Outcome<Uncertain> one =
                    one(e.getKey(), e.getValue(), compound, rows, median, label);
            if (one instanceof Outcome.NotComputed<Uncertain> not) {
                return Outcome.not(not.reason(), not.detail());
            }
            if (one instanceof Outcome.Computed<Uncertain> computed) {
                all.put(e.getKey(), computed.value());
            }
        }
        measurand.correlations().forEach(group -> GivenInputs.join(group, all));
        return Outcome.of(all);
    }

    /** Whether any input is a finding of a compound. */
    boolean useFindings() {
        return measurand.inputs().values().stream()
                .anyMatch(i -> i instanceof FromFinding || i instanceof Spread);
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
                    .findFirst();
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
        return "not corrected, as the protocol says";
    }

    /**
     * The widest scatter that a spread input of the equation brings to the sample, if there is one.
     */
    Optional<Effect> widestSpread() {
        return measurand.inputs().values().stream()
                .filter(Spread.class::isInstance)
                .map(i -> effect(((Spread) i).quantity()))
                .reduce((a, b) -> a.contains(b) ? a : b);
    }

    private Outcome<Uncertain> one(
            String symbol, Input input, String compound, Rows rows, boolean median, String label) {
        if (input instanceof Given given) {
            return Outcome.of(GivenInputs.of(symbol, given));
        }
        if (input instanceof Readings readings) {
            return Outcome.of(GivenInputs.of(symbol, readings));
        }
        if (input instanceof RowVariable variable) {
            return variable(symbol, variable, rows, median, label);
        }
        if (input instanceof Spread spread) {
            return spread(spread, compound, label);
        }
        if (input instanceof FromFinding from) {
            return finding(from.quantity(), compound)
                    .flatMap(
                            f ->
                                    f.answer() instanceof Answer.Estimate e
                                            ? e.quantity()
                                            : Optional.empty())
                    .<Outcome<Uncertain>>map(Outcome::of)
                    .orElseGet(
                            () ->
                                    Outcome.not(
                                            Reason.NO_FINDING,
                                            "this study gives no " + from.quantity()));
        }
        if (input instanceof NotCorrected) {
            return Outcome.of(Uncertain.exact(1, "1"));
        }
        throw new IllegalStateException("an input of an unknown kind: " + symbol);
    }

    private Outcome<Uncertain> variable(
            String symbol, RowVariable variable, Rows rows, boolean median, String label) {
        final double[] values =
                rows.stream()
                        .mapToDouble(row -> study.table().number(variable.column(), row))
                        .filter(v -> !Double.isNaN(v))
                        .toArray();
        if (values.length == 0) {
            return Outcome.not(
                    Reason.NO_ROWS, "no row of it has a number in column " + variable.column());
        }
        final double value = median ? median(values) : Moments.ofAll(values).mean();
        if (variable.standardUncertainty() == 0) {
            return Outcome.of(Uncertain.exact(value, variable.unit()));
        }
        final String id = "row/" + symbol + "/" + label;
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

    private Outcome<Uncertain> spread(Spread spread, String compound, String label) {
        final Optional<Finding> found = finding(spread.quantity(), compound);
        if (found.isEmpty() || !(found.get().answer() instanceof Answer.Estimate e)) {
            final String why =
                    found.map(Finding::answer)
                            .map(
                                    a ->
                                            a instanceof Answer.NotEstimable not
                                                    ? ": " + not.detail()
                                                    : "")
                            .orElse("");
            return Outcome.not(Reason.NO_FINDING, "this study gives no " + spread.quantity() + why);
        }
        final double relative = "%".equals(e.unit()) ? e.value() / 100 : e.value();
        final double u = spread.value() * relative / Math.sqrt(spread.meanOf().orElse(1));
        final Pool pool =
                new Pool(
                        "spread/" + spread.quantity() + "/" + compound,
                        e.degreesOfFreedom(),
                        source(spread));
        final Root root =
                Root.normal(
                        pool.id() + "/" + label,
                        pool,
                        effect(spread.quantity()),
                        ActsOn.SAMPLE,
                        source(spread));
        return Outcome.of(Uncertain.of(spread.value(), "1", root, u));
    }

    private Optional<Finding> finding(String quantity, String compound) {
        return findings.stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().compound().equals(compound) && f.key().condition().isEmpty())
                .findFirst();
    }

    private static Effect effect(String quantity) {
        return quantity.endsWith("intermediate")
                ? Effect.DAY
                : quantity.endsWith("injection") ? Effect.STROKE : Effect.PREPARATION;
    }

    private static double median(double[] values) {
        final double[] sorted = values.clone();
        Arrays.sort(sorted);
        final int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
