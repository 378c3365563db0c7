package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Responses;
import splitledger.propagation.Pool;
import splitledger.propagation.ScatterLine;
import splitledger.propagation.UncertainLine;
import splitledger.propagation.WeightedLine;
import splitledger.statistics.InjectionShare;
import splitledger.statistics.LineFit;
import splitledger.statistics.LineFitter;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.PreparationFit;
import splitledger.statistics.ScatterFit;
import splitledger.statistics.ScatterFitter;
import splitledger.statistics.ScatterLaw;
import splitledger.statistics.Weighting;
import splitledger.study.Choice;
import splitledger.study.Doubles;
import splitledger.study.Study;

/** One calibration fit on its way: fits, falls back, and records what was decided. */
final class CalibrationFitting {
    private static final String ESTIMATED = ", variance model";
    private static final String PLAIN = ", unweighted";
    private static final String SCATTER_SOURCE =
            "Rocke and Lorenzato, Technometrics 37 (1995) 176; Davidian and Carroll, J. Am. Stat. Assoc. 82 (1987) 1079 (from"
                    + " memory)";

    private final Study study;
    private final Calibrants calibrants;
    private final AmountErrors errors;
    private final CalibrationFit.Wanted wanted;
    private final Responses responses;
    private final List<Choice> choices = new ArrayList<>();
    private final double[] x;
    private final double[] y;

    CalibrationFitting(
            Study study,
            Calibrants calibrants,
            AmountErrors errors,
            CalibrationFit.Wanted wanted,
            Responses responses) {
        this.study = study;
        this.calibrants = calibrants;
        this.errors = errors;
        this.wanted = wanted;
        this.responses = responses;
        this.x = calibrants.amounts();
        this.y = calibrants.means();
    }

    CalibrationFit fit() {
        final Optional<Outcome<UncertainLine>> none = tooFew();
        if (none.isPresent()) {
            return done(none.get(), ESTIMATED, ones());
        }
        if (calibrants.injectionsAveraged() == 1) {
            choose(
                    "The mean of m injections of an unknown is given the scatter s/sqrt(m)",
                    "every calibrant preparation was injected once, so that the scatter of preparation and of"
                            + " injection cannot be told apart",
                    "Draper and Smith, Applied Regression Analysis, 3rd ed. (from memory)");
        }
        if (!wanted.weights().isEmpty()) {
            choose("Weights " + wanted.weights(), "stated in the protocol", "");
        }
        return switch (wanted.weights()) {
            case "" -> estimated();
            case "none" -> plain();
            default -> weighted();
        };
    }

    private Optional<Outcome<UncertainLine>> tooFew() {
        final int p = wanted.mean().parameters();
        if (x.length == 0) {
            return Optional.of(
                    Outcome.not(
                            Reason.NO_ROWS,
                            "no calibrant has a response, an amount and a preparation for this compound"));
        }
        final String needs =
                "a "
                        + wanted.words()
                        + " needs preparations at "
                        + Math.max(p, 2)
                        + " levels or more and "
                        + (p + 1)
                        + " in all, found ";
        if (calibrants.levels() < Math.max(p, 2)) {
            return Optional.of(
                    Outcome.not(
                            Reason.TOO_FEW_LEVELS,
                            needs
                                    + calibrants.levels()
                                    + (calibrants.levels() == 1 ? " level with " : " levels with ")
                                    + x.length
                                    + (x.length == 1 ? " preparation" : " preparations")));
        }
        return x.length < p + 1
                ? Optional.of(Outcome.not(Reason.TOO_FEW_PREPARATIONS, needs + x.length))
                : Optional.empty();
    }

    private CalibrationFit estimated() {
        final ScatterFitter fitter = ScatterFitter.withDefaults().withMean(wanted.mean());
        return PreparationFit.of(fitter, x, y, squares(), counts())
                .fold(
                        found -> {
                            choices.add(ofScatter(found.fit()));
                            final InjectionShare share =
                                    once() ? new InjectionShare(1, 1, 0) : found.share();
                            final double[] shares =
                                    Arrays.stream(counts())
                                            .mapToDouble(found.share()::of)
                                            .toArray();
                            return done(found.fit(), share, false, ESTIMATED, shares);
                        },
                        this::plainInstead);
    }

    /** Too little for two parts of the scatter, or none at all. */
    private CalibrationFit plainInstead(NotComputed<PreparationFit> not) {
        if (not.reason() != Reason.NO_SCATTER) {
            choose(
                    "The scatter is taken to be the same at every level",
                    "to estimate a constant and a proportional part of it " + not.detail(),
                    SCATTER_SOURCE);
        }
        return plain();
    }

    private CalibrationFit plain() {
        final double[] ones = ones();
        return ScatterFitter.withDefaults()
                .withMean(wanted.mean())
                .withForm(ScatterLaw.Form.CONSTANT)
                .fit(x, y, ones)
                .fold(
                        fit -> {
                            final double[] means = Arrays.stream(x).map(fit::at).toArray();
                            final InjectionShare share =
                                    once()
                                            ? new InjectionShare(1, 1, 0)
                                            : InjectionShare.of(
                                                    fit.law(),
                                                    means,
                                                    squares(),
                                                    counts(),
                                                    calibrants.injectionsAveraged());
                            return done(fit, share, true, PLAIN, ones);
                        },
                        not ->
                                not.reason() == Reason.NO_SCATTER && wanted.mean() == MeanLaw.LINE
                                        ? byWeights(Weighting.NONE, PLAIN)
                                        : done(
                                                Outcome.not(not.reason(), not.detail()),
                                                PLAIN,
                                                ones));
    }

    private CalibrationFit weighted() {
        final Weighting asked =
                Arrays.stream(Weighting.values())
                        .filter(w -> w.code().equals(wanted.weights()))
                        .findFirst()
                        .orElse(Weighting.NONE);
        final String words = ", weights " + asked.code();
        return wanted.mean() == MeanLaw.LINE
                ? byWeights(asked, words)
                : done(
                        Outcome.not(
                                Reason.NOT_IN_MODEL,
                                "weights "
                                        + asked.code()
                                        + " are for a line with an intercept; leave the option weights out: the growth of"
                                        + " the scatter is then found from the preparations"),
                        words,
                        ones());
    }

    private CalibrationFit byWeights(Weighting weighting, String words) {
        final Outcome<LineFit> fit = LineFitter.withDefaults().withWeighting(weighting).fit(x, y);
        return done(
                fit.fold(
                        line -> Outcome.of(uncertain(line)),
                        not -> Outcome.not(not.reason(), not.detail())),
                words,
                ones());
    }

    private UncertainLine uncertain(LineFit line) {
        final String id = Calibration.ID + "/" + calibrants.name();
        final double freedom = line.degreesOfFreedom();
        return new WeightedLine(
                id,
                line,
                study.protocol().conventions().amountUnit(),
                responses.unit(),
                new Pool(id, freedom, "scatter of calibrant preparations about the line"),
                calibrants.injectionScatter(line.weighting()),
                calibrants.injectionsAveraged(),
                errors.parts(line));
    }

    private CalibrationFit done(
            ScatterFit fit, InjectionShare share, boolean given, String words, double[] shares) {
        final ScatterLine line =
                new ScatterLine(
                        Calibration.ID + "/" + calibrants.name(),
                        fit,
                        share,
                        given,
                        study.protocol().conventions().coverage(),
                        study.protocol().conventions().amountUnit(),
                        responses.unit());
        return done(Outcome.of(line.with(errors.parts(fit, shares))), words, shares);
    }

    private CalibrationFit done(Outcome<UncertainLine> outcome, String words, double[] shares) {
        return new CalibrationFit(outcome, wanted.words() + words, Doubles.of(shares), choices);
    }

    private Choice ofScatter(ScatterFit fit) {
        final ScatterLaw law = fit.law();
        final String unit = responses.unit().equals("1") ? "" : " " + responses.unit();
        final String constant = Digits.two(Math.sqrt(law.constant())) + unit;
        final String part = Digits.two(100 * Math.sqrt(law.proportional())) + " %";
        final String found =
                switch (law.form()) {
                    case CONSTANT ->
                            "The preparations scatter by "
                                    + constant
                                    + " at every level: all count alike";
                    case PROPORTIONAL ->
                            "The preparations scatter by "
                                    + part
                                    + " of the response at every level: each counts by the inverse square of its response";
                    case BOTH ->
                            "The preparations scatter by "
                                    + constant
                                    + " and by "
                                    + part
                                    + " of the response: each counts by the inverse of the variance at its level";
                };
        return new Choice(
                Calibration.ID,
                calibrants.compound(),
                found,
                "a constant and a proportional part of the scatter are always found together, by restricted maximum"
                        + " likelihood from "
                        + x.length
                        + " preparations, and either may come out as 0; weights that a test chooses first make intervals too"
                        + " narrow",
                SCATTER_SOURCE);
    }

    private void choose(String what, String why, String source) {
        choices.add(new Choice(Calibration.ID, calibrants.compound(), what, why, source));
    }

    private boolean once() {
        return calibrants.injectionsAveraged() == 1;
    }

    private double[] ones() {
        final double[] ones = new double[x.length];
        Arrays.fill(ones, 1);
        return ones;
    }

    private double[] squares() {
        return calibrants.preparations().stream()
                .mapToDouble(p -> p.responses().squares())
                .toArray();
    }

    private int[] counts() {
        return calibrants.preparations().stream().mapToInt(p -> p.responses().count()).toArray();
    }
}
