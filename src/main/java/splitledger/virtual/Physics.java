package splitledger.virtual;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;

/**
 * What needle, liner, split and detector do to the compounds of an injection. Everything that is
 * the same for all injections is worked out once.
 */
final class Physics {
    private static final double CARBON = 12.011;
    private static final double HUNDRED_DEGREES = 100;
    private static final int LOW_RATIO_POWER = 4;

    private final Design design;
    private final Streams streams;
    private final Peaks peaks;
    private final List<LinerLoss> losses;
    private final double[] boilingPoints;
    private final double[] responses;
    private final double[] scatters;
    private final double[] needle;
    private final double[] exponents;
    private final boolean idealSplit;
    private final Map<String, double[]> kept = new HashMap<>();
    private final Map<String, double[]> instruments = new HashMap<>();
    private final Map<String, Double> gains = new HashMap<>();
    private final double[] certain;
    private final double flowFactor;
    private final int standard;

    Physics(Design design, Peaks peaks, Streams streams) {
        this.design = design;
        this.streams = streams;
        this.peaks = peaks;
        this.losses = LinerLoss.of(design, peaks);
        this.standard = peaks.of(design.standardName());
        final int n = peaks.size();
        boilingPoints = new double[n];
        responses = new double[n];
        scatters = new double[n];
        needle = new double[n];
        exponents = new double[n];
        certain = new double[n];
        Arrays.fill(certain, 1);
        boolean ideal = design.split().lowDeviation().value() == 0;
        for (int i = 0; i < n; i++) {
            boilingPoints[i] = design.compound(peaks.name(i)).boilingPoint();
            responses[i] = response(design.compound(peaks.name(i)));
            scatters[i] = scatter(boilingPoints[i]);
            needle[i] = inNeedle(boilingPoints[i]);
            exponents[i] = exponent(boilingPoints[i]);
            ideal &= exponents[i] == 1;
        }
        idealSplit = ideal;
        flowFactor =
                streams.factor(design.split().meterGain(), "meter gain")
                        / streams.factor(design.split().columnFlow(), "column flow");
        kept.put("", allKept(""));
        for (Plan.Batch batch : design.batches()) {
            kept.computeIfAbsent(batch.occasion(), this::allKept);
            batch.instruments().forEach(i -> instruments.computeIfAbsent(i, this::onInstrument));
        }
        for (Plan.Day day : design.days()) {
            gain(day.label(), "");
            design.instrumentLabels().forEach(i -> gain(day.label(), i));
        }
    }

    private void gain(String day, String instrument) {
        final Parameter scatter = design.detector().dayGain();
        gains.put(
                day + "/" + instrument,
                instrument.isEmpty()
                        ? streams.factor(scatter, "gain", day)
                        : streams.factor(scatter, "gain", day, instrument));
    }

    private double[] onInstrument(String instrument) {
        final double[] factors = new double[peaks.size()];
        for (int i = 0; i < factors.length; i++) {
            factors[i] =
                    i == standard
                            ? 1
                            : streams.factor(
                                    design.instruments(), "instrument", instrument, peaks.name(i));
        }
        return factors;
    }

    private double[] allKept(String occasion) {
        final double[] shares = new double[peaks.size()];
        Arrays.setAll(shares, i -> kept(boilingPoints[i], occasion));
        return shares;
    }

    double boilingPoint(int peak) {
        return boilingPoints[peak];
    }

    List<LinerLoss> losses() {
        return losses;
    }

    /** Draw of an injection's discrimination, common to its peaks. */
    double tilt(String flask, String number) {
        return design.discrimination().scatter().value() == 0
                ? 0
                : streams.normal("discrimination", flask, number);
    }

    /** The ratio that really acts, total to column: as set, with the error of its setting. */
    double ratio(Injection injection) {
        if (injection.onColumn()) {
            return 1;
        }
        return trueRatio(
                injection.split()
                        * streams.factor(
                                design.inlet().splitSettingScatter(), "split", injection.setUp()));
    }

    /**
     * The ratio that really flows where one was set by meter and stated column flow: vent and
     * column flow each with the error of the study, and a leak that is in neither.
     */
    double trueRatio(double set) {
        return (flowFactor == 1 ? set : 1 + flowFactor * (set - 1)) + design.split().leak().value();
    }

    /** True vent flow over true column flow, relative to what meter and stated flow say. */
    double flowFactor() {
        return flowFactor;
    }

    /** Exponent of the response in the true ratio. */
    double exponent(double boilingPoint) {
        final Effects.Split s = design.split();
        return s.exponent().value()
                + s.exponentSlope().value()
                        * (boilingPoint - s.exponentAt().value())
                        / HUNDRED_DEGREES;
    }

    /**
     * What the split passes on beside the share 1 / r: (r / r_work)^(1 - exponent) times 1 - D / (1
     * + (r / r_low)^4). A form of our own; 1 at every ratio for an ideal split.
     */
    double passed(int peak, double ratio) {
        if (idealSplit) {
            return 1;
        }
        final double relative = ratio / design.inlet().splitRatio().value();
        final double bent = exponents[peak] == 1 ? 1 : FastMath.pow(relative, 1 - exponents[peak]);
        final double low = FastMath.pow(ratio / design.split().lowRatio().value(), LOW_RATIO_POWER);
        return bent * (1 - design.split().lowDeviation().fraction() / (1 + low));
    }

    /**
     * Areas before the detector's own effects.
     *
     * @param amounts mg/L; {@code NaN} where a compound is not there
     * @param volume uL
     * @param ratio that really acts, total to column
     * @param tilt draw of the discrimination
     * @return pA*s; {@code NaN} where there is no such peak
     */
    double[] areas(
            double[] amounts, Injection injection, double volume, double ratio, double tilt) {
        return injection.onColumn()
                ? onColumn(amounts, volume)
                : areas(
                        amounts,
                        volume,
                        ratio,
                        injection.temperature(),
                        injection.occasion(),
                        tilt);
    }

    /** Areas of a cold injection onto the column, without any scatter. */
    double[] expectedOnColumn(double[] amounts) {
        return onColumn(amounts, design.inlet().injectedVolume().value());
    }

    private double[] onColumn(double[] amounts, double volume) {
        final double[] areas = new double[amounts.length];
        for (int i = 0; i < areas.length; i++) {
            areas[i] = amounts[i] * volume * responses[i];
        }
        return areas;
    }

    private double[] areas(
            double[] amounts,
            double volume,
            double ratio,
            double temperature,
            String occasion,
            double tilt) {
        final double[] injected = new double[amounts.length];
        for (int i = 0; i < injected.length; i++) {
            injected[i] = amounts[i] * volume / ratio * needle[i] * passed(i, ratio);
        }
        double[] left = injected;
        if (!losses.isEmpty()) {
            left = injected.clone();
            for (LinerLoss loss : losses) {
                loss.act(injected, left, ratio, temperature);
            }
        }
        final double[] shares = kept.getOrDefault(occasion, certain);
        final double[] areas = new double[left.length];
        for (int i = 0; i < areas.length; i++) {
            areas[i] = left[i] * shares[i] * FastMath.exp(tilt * scatters[i]) * responses[i];
        }
        return areas;
    }

    /**
     * Areas without any scatter, at the working volume.
     *
     * @param ratio that really acts, total to column
     */
    double[] expected(double[] amounts, double ratio, double temperature, String occasion) {
        return areas(
                amounts, design.inlet().injectedVolume().value(), ratio, temperature, occasion, 0);
    }

    /** Detector: gain, drift, the instrument's own response, saturation; in place. */
    void detect(double[] areas, Injection injection, int position) {
        final Design.Detector d = design.detector();
        final double gain = dayGain(injection) * (1 + d.drift().fraction() * position);
        final double against = 1 + d.driftAgainstStandard().fraction() * position;
        final double[] own = instruments.getOrDefault(injection.instrument(), certain);
        for (int i = 0; i < areas.length; i++) {
            areas[i] = areas[i] * gain * own[i] * (i == standard ? 1 : against);
            areas[i] = saturated(areas[i]);
        }
    }

    /** Gain of the detector on the day of an injection. */
    double dayGain(Injection injection) {
        return gains.getOrDefault(injection.day() + "/" + injection.instrument(), 1.0);
    }

    /** Response of a compound on an instrument, relative to that of all instruments. */
    double onInstrument(String instrument, int peak) {
        return instruments.getOrDefault(instrument, certain)[peak];
    }

    private double saturated(double area) {
        final double limit = design.detector().saturation().value();
        return limit == Double.POSITIVE_INFINITY ? area : area / (1 + area / limit);
    }

    /**
     * Share of a compound that passes the inlet: 1 - D / (1 + exp(-(b - m)/w)), b its boiling
     * point. A form of our own that is smooth, near 1 for what boils low and never above it.
     */
    double kept(double boilingPoint, String occasion) {
        final Design.Discrimination d = design.discrimination();
        final double lost = d.occasions().getOrDefault(occasion, d.heavyEndLoss()).fraction();
        return share(lost, boilingPoint, d.midpoint().value(), d.width().value());
    }

    /** The same of the needle. */
    private double inNeedle(double boilingPoint) {
        final Effects.Needle n = design.needle();
        return n.loss().value() == 0
                ? 1
                : share(n.loss().fraction(), boilingPoint, n.midpoint().value(), n.width().value());
    }

    private static double share(double lost, double boilingPoint, double midpoint, double width) {
        final double above = (boilingPoint - midpoint) / width;
        return 1 - lost / (1 + FastMath.exp(-above));
    }

    /** Share of a compound that passes needle and inlet. */
    double transferred(int peak, String occasion) {
        return kept(boilingPoints[peak], occasion) * needle[peak];
    }

    double scatter(int peak) {
        return scatters[peak];
    }

    double response(int peak) {
        return responses[peak];
    }

    /** Relative standard deviation of a compound's discrimination between injections. */
    private double scatter(double boilingPoint) {
        final Design.Discrimination d = design.discrimination();
        return d.scatter().fraction() * (boilingPoint - d.scatterFrom().value()) / HUNDRED_DEGREES;
    }

    /**
     * Area of 1 ng on the column, pA*s: response of carbon x effective carbon x (1 + deviation).
     */
    private double response(Design.Compound known) {
        return design.detector().response().value()
                * known.carbonNumber()
                * CARBON
                / known.molarMass()
                * streams.factor(design.detector().responseDeviation(), "response", known.name());
    }
}
