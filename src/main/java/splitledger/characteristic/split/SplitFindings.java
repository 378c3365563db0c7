package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.propagation.Uncertain;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Computed;
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

    /**
     * What is kept at a setting.
     *
     * @param told the ratio as the table has it
     * @param log logarithm of response times ratio, less that of the reference
     * @param uncertainty of {@code log}
     * @param parts {@code log} with its causes; without any where there is none
     */
    record Kept(
            double told,
            double log,
            double uncertainty,
            double degreesOfFreedom,
            Uncertain parts,
            Optional<NotComputed<GeneralLeastSquares>> not) {

        /** In percent of the reference. */
        double percent() {
            return 100 * FastMath.exp(log);
        }

        /** The ends of the interval, in percent. */
        double end(double factor) {
            return 100 * FastMath.exp(log + factor * uncertainty);
        }

        private Answer answer(double coverage) {
            if (not.isPresent()) {
                return Answers.not("%", not.get());
            }
            if (Double.isInfinite(degreesOfFreedom)) {
                return new Answer.Statistic(percent(), "%");
            }
            return scaled(percent(), this, 1, "%", coverage);
        }
    }

    /** A value in proportion to e^(sign * log), with the interval of the logarithm. */
    static Answer scaled(double value, Kept kept, int sign, String unit, double coverage) {
        final double t = Quantiles.coverageFactor(coverage, kept.degreesOfFreedom());
        final double up = value * FastMath.exp(t * kept.uncertainty());
        final double down = value * FastMath.exp(-t * kept.uncertainty());
        return new Answer.Estimate(
                value,
                unit,
                Math.abs(sign * value * kept.uncertainty()),
                kept.degreesOfFreedom(),
                down,
                up,
                coverage,
                Answer.Law.ENDS,
                Optional.of(kept.parts().scaled(sign * value, unit).at(value)));
    }

    /** Every setting against the reference; the reference itself is exact. */
    List<Kept> kept() {
        final List<Double> others =
                setUps.settings().stream().filter(s -> s != options.reference()).toList();
        final double add = setUps.conventionOffset();
        final List<Double> ratios = others.stream().map(s -> s + add).toList();
        final Outcome<GeneralLeastSquares> levels = fit.levels(ratios);
        final List<Kept> all = new ArrayList<>();
        for (double told : setUps.settings()) {
            if (told == options.reference()) {
                all.add(
                        new Kept(
                                told,
                                0,
                                0,
                                Double.POSITIVE_INFINITY,
                                Uncertain.exact(0, "1"),
                                Optional.empty()));
            } else {
                all.add(one(told, others.indexOf(told), ratios, levels));
            }
        }
        return all;
    }

    private Kept one(double told, int k, List<Double> ratios, Outcome<GeneralLeastSquares> levels) {
        if (!(levels instanceof Computed<GeneralLeastSquares> c)) {
            return none(told, (NotComputed<GeneralLeastSquares>) levels);
        }
        final GeneralLeastSquares f = c.value();
        final double log = f.coefficients().get(k);
        final double[] parts = fit.levelParts(ratios, f, k);
        if (f.degreesOfFreedom() > 0) {
            return kept(told, log, f.unscaled().get(k).get(k), f, parts);
        }
        // every setting set up once: scatter about the line, which holds any bend as well
        return line.fold(
                l -> kept(told, log, f.unscaled().get(k).get(k), l, parts), n -> none(told, n));
    }

    /** A level with the scatter of a fit. */
    private Kept kept(
            double told,
            double log,
            double unscaled,
            GeneralLeastSquares scatter,
            double... parts) {
        final double freedom = scatter.degreesOfFreedom();
        return new Kept(
                told,
                log,
                Math.sqrt(Math.max(0, scatter.scale() * unscaled)),
                freedom,
                roots.of(log, of, scatter.scale(), freedom, parts),
                Optional.empty());
    }

    private static Kept none(double told, NotComputed<GeneralLeastSquares> why) {
        return new Kept(
                told,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Uncertain.exact(0, "1"),
                Optional.of(why));
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
