package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Reporting.Evidence;
import splitledger.study.Reporting.Specification;
import splitledger.study.Rows;
import splitledger.study.Trail;

/**
 * Results against specifications and against values from outside. A result conforms with a guard
 * band w = t(1 - risk, nu) u if it keeps that distance to each limit (JCGM 106:2012, 8.3); the
 * conformance probability is the share of the distribution of the measurand within the limits,
 * Student's t about the result (7.2). E_n = (x - X) / sqrt(U^2 + U_ref^2) and zeta = (x - X) /
 * sqrt(u^2 + u_ref^2) (ISO 13528:2015, 9.6 and 9.7, from memory).
 */
final class Conformity {
    private static final String GUARDED = "guard band, JCGM 106:2012";
    private static final String COMPARED = "ISO 13528:2015, from memory";

    private final Measurand measurand;

    Conformity(Measurand measurand) {
        this.measurand = measurand;
    }

    /** What can be said of one result. */
    List<Finding> of(Key key, Uncertain result, Rows rows) {
        final List<Finding> findings = new ArrayList<>();
        measurand.reporting().specifications().stream()
                .filter(s -> s.of().map(key.compound()::equals).orElse(true))
                .findFirst()
                .ifPresent(s -> findings.addAll(specified(key, result, rows, s)));
        measurand.reporting().evidence().stream()
                .filter(e -> e.of().equals(key.compound()))
                .filter(e -> key.condition().containsValue(e.result()))
                .forEach(e -> findings.addAll(compared(key, result, rows, e)));
        return findings;
    }

    /** Values from outside whose result is not there: each says so. */
    static List<Finding> unanswered(Measurand measurand, List<Finding> results) {
        final List<Finding> findings = new ArrayList<>();
        for (Evidence e : measurand.reporting().evidence()) {
            final boolean answered =
                    results.stream()
                            .anyMatch(
                                    f ->
                                            f.key().compound().equals(e.of())
                                                    && e.name()
                                                            .equals(
                                                                    f.key()
                                                                            .condition()
                                                                            .get("evidence")));
            for (String quantity : answered ? List.<String>of() : List.of("e-n", "zeta")) {
                findings.add(
                        Finding.of(
                                Key.of(Budgets.ID, e.of(), quantity, COMPARED)
                                        .with("evidence", e.name()),
                                new Answer.NotEstimable(
                                        "1",
                                        "no-finding",
                                        "there is no result of " + e.result() + " with a value"),
                                Rows.NONE,
                                ""));
            }
        }
        return findings;
    }

    private List<Finding> specified(Key key, Uncertain result, Rows rows, Specification s) {
        final double u = result.standardUncertainty();
        final double nu = result.degreesOfFreedom();
        final double x = result.value();
        final double guard = Quantiles.t(1 - s.risk(), nu) * u;
        final double least = s.atLeast().orElse(Double.NEGATIVE_INFINITY);
        final double most = s.atMost().orElse(Double.POSITIVE_INFINITY);
        final double probability = below(most, x, u, nu) - below(least, x, u, nu);
        final String text = words(s);
        final List<Finding> findings = new ArrayList<>();
        findings.add(
                Finding.of(
                        named(key, "conformance-probability", GUARDED),
                        new Answer.Statistic(Math.max(0, probability), "1"),
                        rows,
                        text));
        findings.add(
                Finding.of(
                        named(key, "guard-band", GUARDED),
                        new Answer.Statistic(guard, measurand.unit()),
                        rows,
                        "distance to the limit that a result must keep, risk "
                                + Trail.digits(s.risk())));
        final boolean accepted = x <= most - guard && x >= least + guard;
        final boolean rejected = x >= most + guard || x <= least - guard;
        findings.add(
                Finding.of(
                        named(key, "conforms", GUARDED),
                        accepted || rejected
                                ? new Answer.Statistic(accepted ? 1 : 0, "1")
                                : new Answer.NotEstimable(
                                        "1",
                                        "undecided",
                                        "nearer to a limit than the guard band: neither conformity nor"
                                                + " non-conformity is shown"),
                        rows,
                        accepted
                                ? "conforms: " + text
                                : rejected ? "does not conform: " + text : text));
        return findings;
    }

    /** Probability that the measurand lies below a limit. */
    private static double below(double limit, double x, double u, double nu) {
        if (Double.isInfinite(limit)) {
            return limit > 0 ? 1 : 0;
        }
        if (u == 0) {
            return x <= limit ? 1 : 0;
        }
        return 1 - Quantiles.tTail((limit - x) / u, nu);
    }

    private List<Finding> compared(Key key, Uncertain result, Rows rows, Evidence e) {
        final double u = result.standardUncertainty();
        final double expanded = Quantiles.coverageFactor(0.95, result.degreesOfFreedom()) * u;
        final double difference = result.value() - e.value();
        final double both = Math.sqrt(u * u + e.standardUncertainty() * e.standardUncertainty());
        final double wide = Math.sqrt(expanded * expanded + e.expanded() * e.expanded());
        final String against =
                "against "
                        + e.name()
                        + " ("
                        + e.kind().replace('-', ' ')
                        + (e.source().isEmpty() ? "" : ", " + e.source())
                        + "): "
                        + Trail.digits(e.value())
                        + " "
                        + measurand.unit()
                        + ", u = "
                        + Trail.digits(e.standardUncertainty());
        return List.of(
                score(
                        named(key, "e-n", COMPARED).with("evidence", e.name()),
                        difference,
                        wide,
                        rows,
                        against
                                + "; within -1 and 1: the two agree within their expanded uncertainties"),
                score(
                        named(key, "zeta", COMPARED).with("evidence", e.name()),
                        difference,
                        both,
                        rows,
                        against
                                + "; beyond 2: questionable, beyond 3: the uncertainties do not explain the difference"));
    }

    private static Finding score(Key key, double difference, double scale, Rows rows, String note) {
        return Finding.of(
                key,
                scale > 0
                        ? new Answer.Statistic(difference / scale, "1")
                        : new Answer.NotEstimable(
                                "1", "no-scatter", "neither value has an uncertainty"),
                rows,
                note);
    }

    private String words(Specification s) {
        final String unit = " " + measurand.unit();
        final StringBuilder text = new StringBuilder();
        s.atLeast().ifPresent(v -> text.append("at least ").append(Trail.digits(v)).append(unit));
        s.atMost()
                .ifPresent(
                        v ->
                                text.append(text.length() > 0 ? ", " : "")
                                        .append("at most ")
                                        .append(Trail.digits(v))
                                        .append(unit));
        return text + (s.source().isEmpty() ? "" : " (" + s.source() + ")");
    }

    private static Key named(Key key, String quantity, String method) {
        final SortedMap<String, String> condition = new TreeMap<>(key.condition());
        return new Key(key.characteristic(), key.compound(), condition, quantity, method);
    }
}
