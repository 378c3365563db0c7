package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.statistics.InternalStandardGain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.RandomStream;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.SharedScatter;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Compounds.Compound;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * What the scatter of injections of one preparation has in common for all peaks of an injection,
 * and what an internal standard makes of it; from areas, whatever the response is.
 */
final class SharedFindings {
    private static final String METHOD = "detrended-log-areas";
    private static final double PERCENT = 100;
    private static final long SEED = 20260210L;
    private static final int REPLICATIONS = 400;
    private static final int LEAST_REPLICATIONS = 60;
    private static final int COMPOUNDS_TOGETHER = 12_000;
    private static final double BY = 100;

    private final Study study;
    private final InjectionTable table;
    private final double coverage;
    private final Map<String, double[]> residuals = new LinkedHashMap<>();
    private final double degreesOfFreedom;
    private final Rows rows;

    private SharedFindings(
            Study study, Rows all, PrecisionLayouts layouts, Map<String, Integer> places) {
        this.study = study;
        this.table = study.table();
        this.coverage = study.protocol().conventions().coverage();
        final Map<String, Map<String, Double>> areas = new LinkedHashMap<>();
        final Map<String, Integer> first = new LinkedHashMap<>();
        all.stream()
                .filter(row -> table.state(row) == State.MEASURED && table.area(row) > 0)
                .filter(row -> !table.label("preparation", row).isEmpty())
                .forEach(
                        row -> {
                            first.putIfAbsent(table.injection(row), row);
                            areas.computeIfAbsent(table.injection(row), i -> new LinkedHashMap<>())
                                    .put(table.compound(row), table.area(row));
                        });
        final List<List<Integer>> repeated =
                Screening.grouped(List.copyOf(first.values()), layouts::cells).values().stream()
                        .filter(p -> p.size() > 1)
                        .toList();
        final List<Integer> used = repeated.stream().flatMap(List::stream).toList();
        degreesOfFreedom = used.size() - repeated.size() - 1;
        rows = Rows.of(used.stream().mapToInt(r -> r).toArray());
        if (degreesOfFreedom > 0) {
            final ScatterFactor labels =
                    ScatterFactor.of("preparation", used.stream().map(layouts::cells).toList());
            final double[] order =
                    used.stream()
                            .mapToDouble(r -> places.getOrDefault(table.injection(r), 0))
                            .toArray();
            final List<Map<String, Double>> perRow =
                    used.stream().map(r -> areas.get(table.injection(r))).toList();
            for (String compound : study.compounds().all()) {
                if (perRow.stream().allMatch(r -> r.containsKey(compound))) {
                    final double[] logs =
                            perRow.stream()
                                    .mapToDouble(
                                            r -> FastMath.log(r.getOrDefault(compound, Double.NaN)))
                                    .toArray();
                    residuals.put(compound, SharedScatter.detrended(logs, order, labels));
                }
            }
        }
    }

    /** Findings of every target. */
    static List<Finding> of(
            Study study, Rows rows, PrecisionLayouts layouts, Map<String, Integer> places) {
        final SharedFindings own = new SharedFindings(study, rows, layouts, places);
        final List<Finding> findings = new ArrayList<>(own.shared());
        study.compounds()
                .internalStandard()
                .map(InternalStandard::compound)
                .ifPresent(
                        standard ->
                                study.compounds()
                                        .targets()
                                        .forEach(t -> findings.add(own.gain(t, standard))));
        return findings;
    }

    private List<Finding> shared() {
        final List<String> names = List.copyOf(residuals.keySet());
        final int replications =
                Math.max(
                        LEAST_REPLICATIONS,
                        Math.min(REPLICATIONS, COMPOUNDS_TOGETHER / Math.max(1, names.size())));
        final Outcome<SharedScatter> found =
                degreesOfFreedom > 0
                        ? SharedScatter.of(
                                List.copyOf(residuals.values()),
                                boilingPoints(names),
                                degreesOfFreedom,
                                coverage,
                                replications,
                                RandomStream.of(SEED, names.size()))
                        : Outcome.not(
                                Reason.TOO_FEW_INJECTIONS,
                                "needs preparations that were injected twice, in all 10 injections");
        final List<Finding> findings = new ArrayList<>();
        for (String target : study.compounds().targets()) {
            final int place = names.indexOf(target);
            final Key key = Key.of(Repeatability.ID, target, "share-common-mode", METHOD);
            findings.add(
                    found.fold(
                            s ->
                                    place < 0
                                            ? Finding.of(key, missing(target), rows, "")
                                            : Finding.of(
                                                    key, share(s, place), rows, words(s, place)),
                            not -> Finding.of(key, Answers.not("%", not), rows, "")));
        }
        return findings;
    }

    private static Answer missing(String compound) {
        return Answers.not(
                "%", Reason.NOT_DETECTED, "an injection has no area above 0 of " + compound);
    }

    private double[] boilingPoints(List<String> names) {
        final double[] points = new double[names.size()];
        for (int i = 0; i < points.length; i++) {
            final String name = names.get(i);
            final OptionalDouble known =
                    study.compounds().known().stream()
                            .filter(c -> c.name().equals(name))
                            .map(Compound::boilingPoint)
                            .findFirst()
                            .orElse(OptionalDouble.empty());
            if (known.isEmpty()) {
                return new double[0];
            }
            points[i] = known.getAsDouble();
        }
        return points;
    }

    private Answer share(SharedScatter s, int place) {
        final double t = Quantiles.coverageFactor(coverage, degreesOfFreedom);
        final double lower = PERCENT * s.lower().get(place);
        final double upper = PERCENT * s.upper().get(place);
        return new Answer.Estimate(
                PERCENT * s.shares().get(place),
                "%",
                (upper - lower) / (2 * t),
                degreesOfFreedom,
                lower,
                upper,
                coverage,
                Answer.Law.ENDS,
                Optional.empty());
    }

    /** Where to look, and what areas cannot tell. */
    private String words(SharedScatter s, int place) {
        final double share = s.shares().get(place);
        final String where =
                share > 0.5
                        ? "most of the scatter is shared by all peaks of an injection: look at the volume injected, the split"
                                + " and the detector's gain, which areas alone cannot tell apart"
                        : "most of the scatter is this peak's own: look at integration, overlap, adsorption, and"
                                + " discrimination that changes from injection to injection";
        final boolean grows = s.growthLower() > 0 || s.growthUpper() < 0;
        return where
                + (grows
                        ? "; the shared part "
                                + (s.growth() > 0 ? "grows" : "falls")
                                + " by "
                                + Digits.three(Math.abs(BY * PERCENT * s.growth()))
                                + " % of itself per 100 degC of boiling point: the inlet, not the volume alone (temperature,"
                                + " needle, liner packing)"
                        : "")
                + "; from "
                + residuals.size()
                + " compounds";
    }

    private Finding gain(String target, String standard) {
        final Key key = Key.of(Repeatability.ID, target, "internal-standard-gain", METHOD);
        final double[] own = residuals.get(target);
        final double[] other = residuals.get(standard);
        if (own == null || other == null) {
            final Answer none =
                    Answers.not(
                            "1",
                            Reason.TOO_FEW_INJECTIONS,
                            "needs preparations that were injected twice, with areas of "
                                    + target
                                    + " and "
                                    + standard
                                    + " in every injection");
            return Finding.of(key, none, rows, "");
        }
        return InternalStandardGain.of(own, other, degreesOfFreedom, coverage)
                .fold(
                        g ->
                                Finding.of(
                                        key,
                                        Answers.spread(
                                                g.ratio(),
                                                "1",
                                                (g.upper() - g.lower())
                                                        / (2
                                                                * Quantiles.coverageFactor(
                                                                        coverage,
                                                                        degreesOfFreedom)),
                                                degreesOfFreedom,
                                                g.lower(),
                                                g.upper(),
                                                coverage),
                                        rows,
                                        effect(g, standard)),
                        not -> Finding.of(key, Answers.not("1", not), rows, ""));
    }

    private static String effect(InternalStandardGain g, String standard) {
        final String evidence =
                "; correlation of the logarithms "
                        + Digits.three(g.correlation())
                        + ", needed more than "
                        + Digits.three(g.needed());
        return switch (g.effect()) {
            case HELPS -> "dividing by " + standard + " makes injections agree better" + evidence;
            case HARMS ->
                    "dividing by "
                            + standard
                            + " makes injections agree worse: its own scatter is added and little is shared"
                            + evidence;
            case UNDECIDED ->
                    "whether dividing by " + standard + " helps or harms is not decided" + evidence;
        };
    }
}
