package splitledger.budget;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Reporting.BelowLimit;
import splitledger.study.Rows;
import splitledger.study.Trail;

/** What is reported where less was found than a limit of the study, as the protocol asks. */
final class BelowLimits {
    private final Measurand measurand;
    private final List<Finding> findings;
    private final BudgetMaker maker;
    private final double coverage;

    BelowLimits(Measurand measurand, List<Finding> findings, BudgetMaker maker, double coverage) {
        this.measurand = measurand;
        this.findings = findings;
        this.maker = maker;
        this.coverage = coverage;
    }

    /**
     * A result below a limit.
     *
     * @param words whether words take its place
     * @param detail in words
     */
    record Below(boolean words, String detail) {}

    /** Whether and how a result lies below the limit; empty if it does not, or nothing is asked. */
    Optional<Below> below(
            String compound, Outcome<Uncertain> found, SortedMap<String, Uncertain> inputs) {
        final Optional<BelowLimit> asked = measurand.reporting().belowLimit();
        if (asked.isEmpty() || !(found instanceof Outcome.Computed<Uncertain> computed)) {
            return Optional.empty();
        }
        final double amount = computed.value().value();
        final Optional<Finding> limit = limit(asked.get(), compound);
        if (limit.isEmpty()) {
            return Optional.of(
                    new Below(
                            false,
                            "whether it lies below the "
                                    + asked.get().quantity().replace('-', ' ')
                                    + " cannot be told: this study gives none"));
        }
        final double value = value(limit.get()).orElseThrow();
        if (!(amount < value)) {
            return Optional.empty();
        }
        final String detail =
                "below the "
                        + asked.get().quantity().replace('-', ' ')
                        + ", "
                        + Trail.digits(value)
                        + " "
                        + limit.get().answer().unit()
                        + " ("
                        + limit.get().key().method()
                        + ")";
        final String result =
                at(value, inputs).isPresent()
                        ? ": "
                                + Trail.digits(at(value, inputs).getAsDouble())
                                + " "
                                + measurand.unit()
                        : "";
        return Optional.of(new Below(asked.get().words(), detail + result));
    }

    /** The findings whose place words take; the upper bound is one-sided. */
    List<Finding> instead(Key key, Uncertain result, Rows rows, Below below) {
        final String detail = below.detail() + "; no value is reported, as the protocol asks";
        final double upper =
                result.value()
                        + Quantiles.t(coverage, result.degreesOfFreedom())
                                * result.standardUncertainty();
        return List.of(
                Finding.of(
                        key,
                        new Answer.Bound(
                                OptionalDouble.empty(),
                                measurand.unit(),
                                OptionalDouble.empty(),
                                OptionalDouble.of(upper),
                                coverage,
                                "below-limit",
                                detail),
                        rows,
                        detail),
                Results.all(
                                key,
                                new Answer.NotEstimable(measurand.unit(), "below-limit", detail),
                                rows)
                        .get(1));
    }

    /** The result that the limit itself would give. */
    private OptionalDouble at(double limit, SortedMap<String, Uncertain> inputs) {
        final Uncertain found = inputs.get(BudgetMaker.FOUND);
        if (found == null) {
            return OptionalDouble.empty();
        }
        final SortedMap<String, Uncertain> moved = new TreeMap<>(inputs);
        moved.put(BudgetMaker.FOUND, Uncertain.exact(limit, found.unit()));
        try {
            return OptionalDouble.of(maker.propagate(moved).result().value());
        } catch (ArithmeticException e) {
            return OptionalDouble.empty();
        }
    }

    /** The largest limit that fits. */
    private Optional<Finding> limit(BelowLimit asked, String compound) {
        return findings.stream()
                .filter(f -> f.key().quantity().equals(asked.quantity()))
                .filter(f -> f.key().compound().equals(compound) && f.key().condition().isEmpty())
                .filter(f -> asked.method().map(f.key().method()::equals).orElse(true))
                .filter(f -> value(f).isPresent())
                .max((a, b) -> Double.compare(value(a).orElseThrow(), value(b).orElseThrow()));
    }

    private static OptionalDouble value(Finding f) {
        if (f.answer() instanceof Answer.Estimate e) {
            return OptionalDouble.of(e.value());
        }
        return f.answer() instanceof Answer.Bound b ? b.value() : OptionalDouble.empty();
    }
}
