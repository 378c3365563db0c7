package splitledger.propagation;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.InversePrediction;
import splitledger.statistics.InversePrediction.Beside;
import splitledger.statistics.LineFit;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.statistics.Weighting;

/**
 * A line fitted with given weights, or one that its points lie on exactly.
 *
 * <p>Two independent roots carry the line: its level at the mean amount and its slope; both take
 * their size from the residual scatter of preparation means (pool of n - 2 degrees of freedom). The
 * response of an unknown takes its scatter from the same pool, so that a pure calibration budget
 * has exactly n - 2 degrees of freedom. Errors of the calibrants' amounts that do not show in that
 * scatter come on top, as further roots of intercept and slope ({@link LineParts}).
 *
 * @param id unique name, part of the names of its roots
 * @param line the fit on means of preparations
 * @param amountUnit unit of x
 * @param responseUnit unit of y
 * @param pool variance of a preparation's mean about the line
 * @param injection scatter of injections within preparations under the line's variance law; empty
 *     if nothing was injected twice
 * @param injectionsAveraged number q of injections behind each calibrant's mean (harmonic mean if
 *     they differ)
 * @param amounts what errors of the calibrants' amounts add to intercept and slope
 */
public record WeightedLine(
        String id,
        LineFit line,
        String amountUnit,
        String responseUnit,
        Pool pool,
        Optional<VarianceEstimate> injection,
        double injectionsAveraged,
        LineParts amounts)
        implements UncertainLine {

    /** A line whose calibrants' amounts are taken as exact. */
    public WeightedLine(
            String id,
            LineFit line,
            String amountUnit,
            String responseUnit,
            Pool pool,
            Optional<VarianceEstimate> injection,
            double injectionsAveraged) {
        this(
                id,
                line,
                amountUnit,
                responseUnit,
                pool,
                injection,
                injectionsAveraged,
                LineParts.NONE);
    }

    @Override
    public MeanLaw law() {
        return MeanLaw.LINE;
    }

    @Override
    public double mean(double amount) {
        return line.at(amount);
    }

    @Override
    public double slopeAt(double amount) {
        return line.slope();
    }

    @Override
    public double fitVariance(double amount) {
        return line.lineVariance(amount);
    }

    @Override
    public double scatter(double amount) {
        return line.residualSd() * line.residualSd() * line.weighting().variance(amount);
    }

    @Override
    public double scatterFreedom(double amount) {
        return line.degreesOfFreedom();
    }

    @Override
    public double read(double response) {
        return line.slope() == 0
                ? Double.NaN
                : line.xMean() + (response - line.yMean()) / line.slope();
    }

    /** Itself: with given weights the degrees of freedom are the same everywhere. */
    @Override
    public UncertainLine near(double amount, double m) {
        return this;
    }

    @Override
    public Uncertain intercept() {
        final double slopePart = line.residualSd() / Math.sqrt(line.sxx());
        final SortedMap<Root, Double> parts = new TreeMap<>(amounts.intercept());
        parts.put(levelRoot(), line.residualSd() / Math.sqrt(line.sumOfWeights()));
        parts.put(slopeRoot(), -line.xMean() * slopePart);
        return Uncertain.of(line.intercept(), responseUnit, parts);
    }

    @Override
    public Uncertain slope() {
        final String unit =
                "1".equals(amountUnit) ? responseUnit : responseUnit + "/(" + amountUnit + ")";
        final SortedMap<Root, Double> parts = new TreeMap<>(amounts.slope());
        parts.put(slopeRoot(), line.residualSd() / Math.sqrt(line.sxx()));
        return Uncertain.of(line.slope(), unit, parts);
    }

    @Override
    public Uncertain at(double amount) {
        return Uncertain.combine(
                line.at(amount),
                responseUnit,
                new double[] {1, amount},
                List.of(intercept(), slope()));
    }

    /**
     * The mean of {@code m} injections of one preparation with its scatter: residual variance plus
     * what fewer (less what more) injections change, s^2 + s_i^2 (1/m - 1/q), each under the line's
     * variance law at {@code amount}. Where calibrants were injected once, s^2/m: then the scatter
     * of preparation and of injection cannot be told apart.
     *
     * @param response mean response
     * @param amount at which the law is taken
     * @param m injections averaged, {@code >= 1}
     * @param label unique name of the preparation
     */
    @Override
    public Uncertain response(double response, double amount, double m, String label) {
        final double law = line.weighting().variance(amount);
        final double own = line.residualSd() * line.residualSd();
        final SortedMap<Root, Double> parts = new TreeMap<>();
        if (injection.isEmpty()) {
            parts.put(scatterRoot(label), Math.sqrt(law * own / m));
            return Uncertain.of(response, responseUnit, parts);
        }
        final double within = injection.get().variance();
        final double change = within * (1 / m - 1 / injectionsAveraged);
        if (change <= 0) {
            parts.put(scatterRoot(label), Math.sqrt(law * Math.max(own + change, within / m)));
        } else {
            parts.put(scatterRoot(label), Math.sqrt(law * own));
            parts.put(injectionRoot(label), Math.sqrt(law * change));
        }
        return Uncertain.of(response, responseUnit, parts);
    }

    @Override
    public Outcome<Predicted> predict(double response, double m, String label, double coverage) {
        if (line.slope() == 0) {
            return Outcome.not(Outcome.Reason.NO_FINITE_VALUE, "the slope is 0");
        }
        final double x0 = line.xMean() + (response - line.yMean()) / line.slope();
        if (line.weighting() == Weighting.INVERSE && x0 < 0) {
            return Outcome.not(
                    Outcome.Reason.NO_FINITE_VALUE,
                    "the amount is below 0, where weights 1/x have no scatter");
        }
        final Uncertain y0 = response(response, x0, m, label);
        final Uncertain amount = amount(y0, x0);
        final double t = Quantiles.coverageFactor(coverage, amount.degreesOfFreedom());
        final double scatter = response(response, 1, m, label).variance();
        final Outcome<InversePrediction> exact =
                InversePrediction.of(line, response, scatter, t, beside());
        return exact.fold(
                interval -> Outcome.of(new Predicted(interval, y0, amount)),
                not -> Outcome.not(not.reason(), not.detail()));
    }

    @Override
    public Uncertain amount(Uncertain response, double amount) {
        final double b = line.slope();
        return Uncertain.combine(
                amount,
                amountUnit,
                new double[] {1 / b, -1 / b, -amount / b},
                List.of(response, intercept(), slope()));
    }

    /** The part of the line's variances that errors of the calibrants' amounts make. */
    private Beside beside() {
        final Uncertain a = Uncertain.of(line.intercept(), responseUnit, amounts.intercept());
        final Uncertain b = Uncertain.of(line.slope(), responseUnit, amounts.slope());
        return new Beside(a.variance(), a.covariance(b), b.variance());
    }

    private Root levelRoot() {
        return root("line-level", pool, Effect.PREPARATION, ActsOn.CALIBRANT);
    }

    private Root slopeRoot() {
        return root("line-slope", pool, Effect.PREPARATION, ActsOn.CALIBRANT);
    }

    private Root scatterRoot(String label) {
        return root("scatter/" + label, pool, Effect.PREPARATION, ActsOn.SAMPLE);
    }

    private Root injectionRoot(String label) {
        final double df = injection.map(VarianceEstimate::degreesOfFreedom).orElse(1.0);
        final Pool own =
                new Pool(id + "/injections", df, "scatter of repeated injections of calibrants");
        return root("injection/" + label, own, Effect.STROKE, ActsOn.SAMPLE);
    }

    private Root root(String name, Pool of, Effect effect, ActsOn actsOn) {
        return Root.normal(id + "/" + name, of, effect, actsOn, of.origin());
    }
}
