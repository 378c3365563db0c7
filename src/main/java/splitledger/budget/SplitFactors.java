package splitledger.budget;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.Numbers;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Protocol.SplitFactor;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Where;

/**
 * The share on column of a sample injection to that of a calibrant injection: R(calibrant) /
 * R(sample), R = total flow to column flow; times the response kept at the sample's ratio to that
 * at the calibrants', where the study found it.
 */
final class SplitFactors {
    private final Study study;
    private final List<Finding> findings;

    SplitFactors(Study study, List<Finding> findings) {
        this.study = study;
        this.findings = findings;
    }

    Outcome<Uncertain> of(SplitFactor input, Asked asked) {
        final Optional<Double> sample = ratio(asked.rows());
        final Optional<Double> calibrant = ratio(calibrants());
        if (sample.isEmpty() || calibrant.isEmpty()) {
            return Outcome.not(
                    Reason.NO_ROWS,
                    "a split factor needs one split_ratio of the calibrants and one of the result's rows");
        }
        final double factor = total(calibrant.get()) / total(sample.get());
        if (factor == 1) {
            return Outcome.of(Uncertain.exact(1, "1"));
        }
        if (input.relativeUncertainty().isPresent()) {
            final String source =
                    input.source().isEmpty() ? "stated in the protocol" : input.source();
            final Pool pool = Pool.known("split/" + sample.get() + "/" + calibrant.get(), source);
            return Outcome.of(
                    Uncertain.of(
                            factor,
                            "1",
                            Root.normal(pool.id(), pool, Effect.SPLIT, ActsOn.SAMPLE, source),
                            factor * input.relativeUncertainty().getAsDouble()));
        }
        final Optional<Uncertain> kept = kept(asked.compound(), sample.get());
        final Optional<Uncertain> before = kept(asked.compound(), calibrant.get());
        if (kept.isEmpty() || before.isEmpty()) {
            return Outcome.not(
                    Reason.NO_FINDING,
                    "the split ratios of calibrants and sample differ, and nothing says how well response follows"
                            + " them: state standard-uncertainty, or evaluate split-linearity at both ratios");
        }
        final double value = factor * kept.get().value() / before.get().value();
        return Outcome.of(
                Uncertain.combine(
                        value,
                        "1",
                        new double[] {value / kept.get().value(), -value / before.get().value()},
                        List.of(kept.get(), before.get())));
    }

    /** The response kept at a ratio; exactly all of it at the reference ratio. */
    private Optional<Uncertain> kept(String compound, double ratio) {
        final String text = Numbers.text(ratio);
        final Optional<Answer.Estimate> found =
                findings.stream()
                        .filter(
                                f ->
                                        f.key().quantity().equals("response-kept")
                                                && f.key().compound().equals(compound)
                                                && text.equals(f.key().condition().get("ratio")))
                        .map(Finding::answer)
                        .filter(Answer.Estimate.class::isInstance)
                        .map(Answer.Estimate.class::cast)
                        .findFirst();
        if (found.isEmpty()) {
            final var options = study.protocol().characteristics().get("split-linearity");
            return options != null && options.number("reference-ratio").orElse(Double.NaN) == ratio
                    ? Optional.of(Uncertain.exact(100, "%"))
                    : Optional.empty();
        }
        return Optional.of(
                found.get().quantity().orElseGet(() -> alone(found.get(), compound, text)));
    }

    private static Uncertain alone(Answer.Estimate e, String compound, String ratio) {
        final Pool pool =
                new Pool(
                        "response-kept/" + compound + "/" + ratio,
                        e.degreesOfFreedom(),
                        "response kept at the split ratio " + ratio);
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(
                Root.normal(pool.id(), pool, Effect.SPLIT, ActsOn.SAMPLE, pool.origin()),
                e.standardUncertainty());
        return Uncertain.of(e.value(), e.unit(), parts);
    }

    private double total(double asDelivered) {
        return "vent-to-column".equals(study.protocol().conventions().splitRatio())
                ? asDelivered + 1
                : asDelivered;
    }

    private Rows calibrants() {
        final var options = study.protocol().characteristics().get("calibration");
        return options == null ? Rows.NONE : study.table().rows(Where.of(options.mapping("where")));
    }

    /** The one split ratio of some rows; empty if there is none or more than one. */
    private Optional<Double> ratio(Rows rows) {
        final double[] all =
                rows.stream()
                        .mapToDouble(row -> study.table().number("split_ratio", row))
                        .filter(r -> r > 0)
                        .distinct()
                        .toArray();
        return all.length == 1 ? Optional.of(all[0]) : Optional.empty();
    }
}
