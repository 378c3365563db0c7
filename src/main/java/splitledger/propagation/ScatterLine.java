package splitledger.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.AmountPrediction;
import splitledger.statistics.AmountPredictor;
import splitledger.statistics.InjectionShare;
import splitledger.statistics.InversePrediction;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.Quantiles;
import splitledger.statistics.ScatterFit;

/**
 * A calibration with the scatter s^2 = s0^2 + (s1 mu)^2 of preparation means.
 *
 * <p>Coefficients and unknowns take their size from one pool. Its degrees of freedom are n - p
 * where the law of scatter was given; where both parts were estimated, they are those for which
 * Student's t is the coverage factor of {@link AmountPredictor}: each coefficient has its own, and
 * {@link #near} and {@link #predict} give those of a response about the fit at an amount. The roots
 * have the same names everywhere, so that results correlate through the calibration.
 *
 * <p>The mean of m injections has the share 1 + lambda (1/m - 1/m0) of the law's variance ({@link
 * InjectionShare}): the preparation's 1 - lambda/m0 and the injections' lambda/m. Immutable.
 *
 * <p>Longer than other files: half of it answers {@link UncertainLine} in a line or two each.
 */
public final class ScatterLine implements UncertainLine {
    private static final double MOST_FREE = 1e6;

    private final String id;
    private final ScatterFit fit;
    private final InjectionShare share;
    private final boolean given;
    private final double coverage;
    private final AmountPredictor predictor;
    private final String amountUnit;
    private final String responseUnit;
    private final CurveParts amounts;
    private final OptionalDouble freedom;

    private ScatterLine(ScatterLine of, CurveParts amounts, OptionalDouble freedom) {
        this.id = of.id;
        this.fit = of.fit;
        this.share = of.share;
        this.given = of.given;
        this.coverage = of.coverage;
        this.predictor = of.predictor;
        this.amountUnit = of.amountUnit;
        this.responseUnit = of.responseUnit;
        this.amounts = amounts;
        this.freedom = freedom;
    }

    /**
     * A calibration whose calibrants' amounts are taken as exact.
     *
     * @param id unique name, part of the names of its roots
     * @param fit on means of preparations
     * @param share of a mean of m injections; without degrees of freedom preparation and injection
     *     are not told apart
     * @param given whether the law of scatter was given, not estimated
     * @param coverage for which degrees of freedom give the factor
     * @param amountUnit unit of x
     * @param responseUnit unit of y
     */
    public ScatterLine(
            String id,
            ScatterFit fit,
            InjectionShare share,
            boolean given,
            double coverage,
            String amountUnit,
            String responseUnit) {
        this.id = id;
        this.fit = fit;
        this.share = share;
        this.given = given;
        this.coverage = coverage;
        this.predictor =
                given
                        ? AmountPredictor.withGivenLaw(fit, coverage)
                        : AmountPredictor.of(fit, coverage);
        this.amountUnit = amountUnit;
        this.responseUnit = responseUnit;
        this.amounts = CurveParts.none(fit.mean());
        this.freedom = OptionalDouble.empty();
    }

    /** The same with what errors of the calibrants' amounts add. */
    public ScatterLine with(CurveParts errors) {
        return new ScatterLine(this, errors, freedom);
    }

    /** The fit. */
    public ScatterFit fit() {
        return fit;
    }

    private ScatterRoots roots() {
        return new ScatterRoots(id, fit, amounts, amountUnit, responseUnit);
    }

    /** How the variance of a mean depends on its number of injections. */
    public InjectionShare share() {
        return share;
    }

    /** Whether the law of scatter was given, not estimated. */
    public boolean isGiven() {
        return given;
    }

    /** Coverage factors and intervals at the line's coverage. */
    public AmountPredictor predictor() {
        return predictor;
    }

    @Override
    public String amountUnit() {
        return amountUnit;
    }

    @Override
    public String responseUnit() {
        return responseUnit;
    }

    @Override
    public MeanLaw law() {
        return fit.mean();
    }

    @Override
    public double mean(double amount) {
        return fit.at(amount);
    }

    @Override
    public double slopeAt(double amount) {
        return fit.slopeAt(amount);
    }

    @Override
    public double fitVariance(double amount) {
        return fit.meanVariance(amount);
    }

    @Override
    public double scatter(double amount) {
        return fit.law().variance(fit.at(amount));
    }

    @Override
    public double scatterFreedom(double amount) {
        if (given) {
            return fit.freedom();
        }
        // no number where the scatter is 0
        final double nu = fit.scatter(amount).degreesOfFreedom();
        return nu > 1 ? Math.min(nu, MOST_FREE) : 1;
    }

    @Override
    public double read(double response) {
        return fit.amountOf(response);
    }

    @Override
    public Uncertain intercept() {
        return law() == MeanLaw.THROUGH_ORIGIN ? Uncertain.exact(0, responseUnit) : coefficient(0);
    }

    @Override
    public Uncertain slope() {
        return coefficient(law() == MeanLaw.THROUGH_ORIGIN ? 0 : 1);
    }

    /** Coefficient k, in the order of the mean's formula. */
    public Uncertain coefficient(int k) {
        final double nu =
                given
                        ? fit.freedom()
                        : freedom.orElseGet(
                                () -> predictor.freedomFor(predictor.coefficientFactor(k)));
        return roots().coefficient(k, nu);
    }

    @Override
    public Uncertain at(double amount) {
        final double nu = freedomAt(amount, 0);
        final List<Uncertain> coefficients = new ArrayList<>();
        for (int k = 0; k < law().parameters(); k++) {
            coefficients.add(roots().coefficient(k, nu));
        }
        return Uncertain.combine(fit.at(amount), responseUnit, law().terms(amount), coefficients);
    }

    /** Degrees of freedom that give the coverage factor; share 0: of the fit alone. */
    private double freedomAt(double amount, double ofLaw) {
        if (given) {
            return fit.freedom();
        }
        return freedom.orElseGet(() -> predictor.freedomFor(predictor.factorAt(amount, ofLaw)));
    }

    @Override
    public ScatterLine near(double amount, double m) {
        return given ? this : near(predictor.freedomFor(predictor.factorAt(amount, share.of(m))));
    }

    private ScatterLine near(double nu) {
        return given ? this : new ScatterLine(this, amounts, OptionalDouble.of(nu));
    }

    /**
     * {@inheritDoc}
     *
     * <p>Where no calibrant was injected twice, the variance of one preparation is divided by m.
     */
    @Override
    public Uncertain response(double response, double amount, double m, String label) {
        final double variance = fit.law().variance(fit.at(amount));
        final double nu = freedomAt(amount, share.of(m));
        final SortedMap<Root, Double> parts = new TreeMap<>();
        if (share.degreesOfFreedom() == 0) {
            parts.put(
                    roots().root("scatter/" + label, nu, Effect.PREPARATION, ActsOn.SAMPLE),
                    Math.sqrt(variance * share.of(m)));
        } else {
            final double own = 1 - share.lambda() / share.usual();
            parts.put(
                    roots().root("scatter/" + label, nu, Effect.PREPARATION, ActsOn.SAMPLE),
                    Math.sqrt(variance * Math.max(0, own)));
            parts.put(
                    roots().root("injection/" + label, nu, Effect.STROKE, ActsOn.SAMPLE),
                    Math.sqrt(variance * share.lambda() / m));
        }
        return Uncertain.of(response, responseUnit, parts);
    }

    @Override
    public Uncertain amount(Uncertain response, double amount) {
        final double slope = fit.slopeAt(amount);
        final int p = law().parameters();
        final double[] derivatives = new double[p + 1];
        final List<Uncertain> terms = new ArrayList<>();
        derivatives[0] = 1 / slope;
        terms.add(response);
        for (int k = 0; k < p; k++) {
            derivatives[k + 1] = -law().term(k, amount) / slope;
            terms.add(coefficient(k));
        }
        return Uncertain.combine(amount, amountUnit, derivatives, terms);
    }

    @Override
    public Outcome<Predicted> predict(double response, double m, String label, double wanted) {
        if (wanted != coverage) {
            throw new IllegalArgumentException(
                    "coverage = " + wanted + ", must be " + coverage + " as the line was made for");
        }
        final double ofLaw = share.of(m);
        return predictor
                .amount(response, ofLaw)
                .fold(
                        p -> predicted(p, response, m, label),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private Outcome<Predicted> predicted(
            AmountPrediction p, double response, double m, String label) {
        final ScatterLine here = near(p.degreesOfFreedom());
        final Uncertain y0 = here.response(response, p.amount(), m, label);
        final Uncertain amount = here.amount(y0, p.amount());
        final Outcome<AmountPrediction> all =
                amounts.isEmpty()
                        ? Outcome.of(p)
                        : withErrors(
                                response,
                                share.of(m),
                                Quantiles.coverageFactor(coverage, amount.degreesOfFreedom()));
        return all.fold(
                q -> Outcome.of(new Predicted(exact(q), y0, amount)),
                not -> Outcome.not(not.reason(), not.detail()));
    }

    /**
     * Amount by standard additions, x being the amounts added. What errors of those amounts do to
     * the line is in it: an error that all additions share goes to the amount in full.
     *
     * @return as {@link AmountPredictor#byAddition()}
     */
    public Outcome<AmountPrediction> byAddition() {
        final Outcome<AmountPrediction> alone = predictor.byAddition();
        return amounts.isEmpty()
                ? alone
                : alone.fold(
                        p -> {
                            final ScatterLine here = near(p.degreesOfFreedom());
                            final double df =
                                    here.amount(Uncertain.exact(0, responseUnit), -p.amount())
                                            .degreesOfFreedom();
                            return predictor.byAddition(
                                    roots().beside(), Quantiles.coverageFactor(coverage, df));
                        },
                        not -> alone);
    }

    /** Whether errors of the amounts move the fit. */
    public boolean isMoved() {
        return !amounts.isEmpty();
    }

    private Outcome<AmountPrediction> withErrors(double response, double ofLaw, double factor) {
        if (law() == MeanLaw.QUADRATIC) {
            final List<Uncertain> errors = roots().ofAmounts();
            return predictor.amount(
                    response,
                    ofLaw,
                    x -> Uncertain.combine(0, "1", law().terms(x), errors).variance(),
                    factor);
        }
        return predictor.amount(response, ofLaw, roots().beside(), factor);
    }

    private static InversePrediction exact(AmountPrediction p) {
        return new InversePrediction(
                p.amount(),
                p.standardUncertainty(),
                p.lineUncertainty(),
                p.responseUncertainty(),
                p.lower(),
                p.upper());
    }
}
