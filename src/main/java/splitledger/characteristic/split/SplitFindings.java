package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.base.Numbers;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.RatioFit;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Trail;

/**
 * Exponent, equivalence, response kept and largest deviation of one compound or of all together.
 */
final class SplitFindings {
    static final String METHOD = "generalised-least-squares";
    private static final int LEAST_SETTINGS = 4;
    private static final double LEAST_RANGE = 10;
    private static final double ROUNDING = 1e-9;

    private final SplitSetUps setUps;
    private final SplitOptions options;
    private final double coverage;
    private final String compound;
    private final List<String> of;
    private final RatioFit fit;
    private final Outcome<GeneralLeastSquares> line;
    private final SplitRoots roots;

    /**
     * Of one compound, or of several together.
     *
     * @param compound its name; empty for all together
     * @param of the compounds that count equally
     * @param roots causes of the set-ups
     */
    SplitFindings(
            SplitSetUps setUps,
            SplitOptions options,
            double coverage,
            String compound,
            List<String> of,
            SplitRoots roots) {
        this.setUps = setUps;
        this.options = options;
        this.coverage = coverage;
        this.compound = compound;
        this.of = List.copyOf(of);
        this.roots = roots;
        this.fit = setUps.fit(setUps.mean(of));
        this.line = minimum().<Outcome<GeneralLeastSquares>>map(n -> n).orElseGet(fit::line);
    }

    /** What the design lacks for an exponent, if anything. */
    private Optional<NotComputed<GeneralLeastSquares>> minimum() {
        final List<Double> settings = setUps.settings();
        if (settings.size() < LEAST_SETTINGS) {
            return Optional.of(
                    new NotComputed<>(
                            Reason.TOO_FEW_SETTINGS,
                            "needs " + LEAST_SETTINGS + " settings, found " + settings.size()));
        }
        final double range = settings.get(settings.size() - 1) / settings.get(0);
        return range < LEAST_RANGE * (1 - ROUNDING)
                ? Optional.of(
                        new NotComputed<>(
                                Reason.TOO_FEW_SETTINGS,
                                "needs ratios of a tenfold range, found " + Trail.digits(range)))
                : Optional.empty();
    }

    /** The fitted exponent, or why there is none. */
    Outcome<GeneralLeastSquares> line() {
        return line;
    }

    /** Its name; empty for all together. */
    String compound() {
        return compound;
    }

    /** The set-ups of this compound. */
    RatioFit fit() {
        return fit;
    }

    /** Its findings. */
    List<Finding> all() {
        final List<Finding> all = new ArrayList<>();
        all.add(exponent());
        all.add(equivalence());
        final List<Kept> kept = kept();
        for (Kept k : kept) {
            all.add(finding(at("response-kept", k.told()), k.answer(coverage), keptNote(k)));
        }
        all.add(largest(kept));
        return all;
    }

    private Finding exponent() {
        final String note =
                once()
                        ? "every setting was set up once: the scatter of settings is taken from the distance to the"
                                + " line, so that a bend cannot be told from scatter"
                        : "degrees of freedom count set-ups, not injections";
        final Answer answer =
                line.fold(
                        f ->
                                Answers.student(
                                        f.coefficients().get(0),
                                        f.uncertainty(1),
                                        f.degreesOfFreedom(),
                                        coverage,
                                        roots.of(
                                                f.coefficients().get(0),
                                                of,
                                                f.scale(),
                                                f.degreesOfFreedom(),
                                                fit.lineParts(f))),
                        n -> Answers.not("1", n));
        return finding(key("split-exponent"), answer, note);
    }

    private boolean once() {
        return setUps.settings().stream().allMatch(s -> setUps.at(s).size() == 1);
    }

    /**
     * The larger p of two one-sided tests against the margins (D. J. Schuirmann, J. Pharmacokinet.
     * Biopharm. 15 (1987) 657, from memory).
     */
    private Finding equivalence() {
        final Answer answer =
                line.fold(
                        f -> {
                            final double off = Math.abs(f.coefficients().get(0) - 1);
                            final double room = options.margin() - off;
                            final double u = f.uncertainty(1);
                            final double p =
                                    u > 0
                                            ? Quantiles.tTail(room / u, f.degreesOfFreedom())
                                            : room > 0 ? 0 : 1;
                            return new Answer.Statistic(p, "1");
                        },
                        n -> Answers.not("1", n));
        return finding(
                key("split-exponent-equivalence-p"),
                answer,
                "margin " + Trail.digits(options.margin()) + " about 1");
    }

    /** Every setting against the reference. */
    List<Kept> kept() {
        return new KeptResponses(setUps, options, of, fit, line, roots).all();
    }

    private String keptNote(Kept kept) {
        return kept.told() == options.reference()
                ? "the reference itself"
                : "response times ratio, in percent of that at the ratio "
                        + Trail.digits(options.reference());
    }

    /**
     * The largest distance from the reference over all settings, with a bound that holds for all of
     * them at once (Bonferroni: each at the risk divided by their number).
     */
    private Finding largest(List<Kept> kept) {
        final List<Kept> others =
                kept.stream()
                        .filter(k -> k.not().isEmpty() && !Double.isInfinite(k.degreesOfFreedom()))
                        .toList();
        final Key key = key("largest-split-deviation");
        if (others.isEmpty()) {
            return finding(
                    key,
                    kept.stream()
                            .flatMap(k -> k.not().stream())
                            .findFirst()
                            .map(n -> Answers.not("%", n))
                            .orElse(
                                    Answers.not(
                                            "%",
                                            Reason.TOO_FEW_SETTINGS,
                                            "needs 2 settings, found " + kept.size())),
                    "");
        }
        double value = 0;
        double bound = 0;
        for (Kept k : others) {
            final double t =
                    Quantiles.t(1 - (1 - coverage) / (2 * others.size()), k.degreesOfFreedom());
            value = Math.max(value, Math.abs(k.percent() - 100));
            bound = Math.max(bound, Math.max(Math.abs(k.end(t) - 100), Math.abs(k.end(-t) - 100)));
        }
        return finding(
                key,
                new Answer.Bound(
                        OptionalDouble.of(value),
                        "%",
                        OptionalDouble.empty(),
                        OptionalDouble.of(bound),
                        coverage,
                        "simultaneous-bound",
                        "a bound for " + others.size() + " settings at once"),
                "no setting is farther off than the bound, against the ratio "
                        + Trail.digits(options.reference()));
    }

    private Key key(String quantity) {
        return Key.of(SplitLinearity.ID, compound, quantity, METHOD);
    }

    private Key at(String quantity, double told) {
        return key(quantity).with("ratio", Numbers.text(told));
    }

    private Finding finding(Key key, Answer answer, String note) {
        final Rows rows = setUps.rows(of);
        return Finding.of(key, answer, rows, note);
    }
}
