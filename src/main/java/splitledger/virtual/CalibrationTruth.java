package splitledger.virtual;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import splitledger.statistics.Quantiles;
import splitledger.study.Key;

/** True values of the line, of what it predicts, and of limits that hang on it. */
final class CalibrationTruth {
    private static final String CALIBRATION = "calibration";
    private static final double ONE_SIDED = 0.99;

    private final TruthSheet sheet;
    private final Design design;
    private final Scatter scatter;
    private final List<Injection> calibrants;
    private final Set<String> levels = new LinkedHashSet<>();
    private final Set<String> instruments = new LinkedHashSet<>();
    private final Set<String> setUps = new LinkedHashSet<>();

    CalibrationTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
        this.scatter = new Scatter(sheet);
        this.calibrants = sheet.injections(CALIBRATION);
        for (Injection i : calibrants) {
            levels.add(i.flask().level());
            instruments.add(i.instrument());
            setUps.add(i.setUp());
        }
    }

    void add() {
        if (calibrants.isEmpty()) {
            return;
        }
        for (String target : design.targets()) {
            final int peak = sheet.peaks().of(target);
            if (sheet.isLinear()) {
                line(target, peak);
                sensitivity(target, peak);
            }
            stock(peak).ifPresent(stock -> predicted(target, peak, stock));
        }
    }

    /**
     * Error that all levels share, as true over stated amount.
     *
     * @return empty if levels differ in it: then no line in stated amounts is the true one
     */
    private OptionalDouble stock(int peak) {
        final double[] factors =
                levels.stream().mapToDouble(l -> sheet.solutions().stock(l, peak)).toArray();
        for (double factor : factors) {
            if (factor != factors[0]) {
                return OptionalDouble.empty();
            }
        }
        return OptionalDouble.of(factors[0]);
    }

    /** Response per true amount at work, on average over all that scatters. */
    private double slope(int peak) {
        final double[] one = sheet.peaks().nothing();
        one[peak] = 1;
        design.standard().ifPresent(s -> one[sheet.peaks().of(s.compound())] = s.amount().value());
        return sheet.response(sheet.atWork(one), peak);
    }

    /** The same on the day and the setting of the calibration, where there was but one. */
    private double slopeOfTheDay(int peak) {
        final Injection first = calibrants.get(0);
        final double own = slope(peak) * sheet.physics().onInstrument(first.instrument(), peak);
        if (sheet.hasStandard() || setUps.size() > 1) {
            return own;
        }
        return own
                * sheet.physics().dayGain(first)
                * (sheet.workingRatio() / sheet.physics().ratio(first));
    }

    private void line(String target, int peak) {
        if (instruments.size() > 1) {
            return;
        }
        final String perAmount = sheet.responseUnit() + "/(mg/L)";
        final double slope = slopeOfTheDay(peak);
        final double impurity = design.impurities().getOrDefault(target, 0.0);
        final OptionalDouble stock = stock(peak);
        if (stock.isPresent()) {
            sheet.add(
                    Key.of(CALIBRATION, target, "slope", ""),
                    slope * stock.getAsDouble(),
                    perAmount);
            sheet.add(
                    Key.of(CALIBRATION, target, "intercept", ""),
                    slope * impurity,
                    sheet.responseUnit());
            scatters(target, peak, slope * stock.getAsDouble());
        }
    }

    /** The two parts of the scatter of preparation means, each of m injections. */
    private void scatters(String target, int peak, double slope) {
        final OptionalDouble injections = injectionsEach();
        if (injections.isEmpty() || !scatter.isSteady()) {
            return;
        }
        final double m = injections.getAsDouble();
        final double[] standard = sheet.peaks().nothing();
        double constant = design.integration().constant().value() / Math.sqrt(m);
        double ofStandard = 0;
        if (sheet.hasStandard()) {
            design.standard()
                    .ifPresent(s -> standard[sheet.peaks().of(s.compound())] = s.amount().value());
            final double area = sheet.standard(sheet.atWork(standard));
            ofStandard = design.integration().constant().value() / area;
            constant /= area;
        }
        final double proportional =
                TruthSheet.root(
                        scatter.dilution(),
                        TruthSheet.root(scatter.proportional(peak), ofStandard) / Math.sqrt(m));
        sheet.add(
                Key.of(CALIBRATION, target, "signal-sd-constant", ""),
                constant,
                sheet.responseUnit());
        sheet.add(
                Key.of(CALIBRATION, target, "signal-sd-proportional", ""),
                TruthSheet.PERCENT * proportional,
                "%");
        if (proportional == 0) {
            sheet.add(
                    Key.of(CALIBRATION, target, "residual-sd", ""), constant, sheet.responseUnit());
        } else if (constant == 0 && !design.impurities().containsKey(target)) {
            sheet.add(
                    Key.of(CALIBRATION, target, "residual-sd", ""),
                    proportional * slope,
                    sheet.responseUnit() + "/(mg/L)");
        }
        spiked(target, constant * Math.sqrt(m) / slope, peak, ofStandard);
    }

    /** Injections of each preparation, where all have as many. */
    private OptionalDouble injectionsEach() {
        final Map<String, Integer> counts = new LinkedHashMap<>();
        calibrants.forEach(i -> counts.merge(i.flask().label(), 1, Integer::sum));
        final Set<Integer> different = new LinkedHashSet<>(counts.values());
        return different.size() == 1
                ? OptionalDouble.of(different.iterator().next())
                : OptionalDouble.empty();
    }

    /**
     * The spiked form of the US method detection limit: t(n-1, 0.99) times the standard deviation
     * of n spiked preparations of one level, in amounts. Only with an internal standard: without
     * one, days are in it.
     *
     * @param constant standard deviation of an injection, mg/L
     */
    private void spiked(String target, double constant, int peak, double ofStandard) {
        final List<Injection> spikes = sheet.injections("spike-low");
        final Set<Flask> flasks = sheet.flasks("spike-low");
        final Set<String> at = new LinkedHashSet<>();
        flasks.forEach(f -> at.add(f.level()));
        if (!sheet.hasStandard() || at.size() != 1 || flasks.size() < 2) {
            return;
        }
        final double m = (double) spikes.size() / flasks.size();
        final double amount =
                design.levels()
                        .getOrDefault(at.iterator().next(), Map.of())
                        .getOrDefault(target, 0.0);
        if (m != Math.rint(m) || !(amount > 0)) {
            return;
        }
        final double whole = amount + design.impurities().getOrDefault(target, 0.0);
        final double sd =
                TruthSheet.root(
                        constant / Math.sqrt(m),
                        amount * design.preparation().dilution().fraction(),
                        whole * design.preparation().standardAddition().fraction(),
                        whole
                                * TruthSheet.root(scatter.proportional(peak), ofStandard)
                                / Math.sqrt(m));
        sheet.add(
                Key.of("detection", target, "method-detection-limit", "").with("form", "spiked"),
                Quantiles.t(ONE_SIDED, flasks.size() - 1.0) * sd,
                "mg/L");
    }

    /** Slope on an instrument relative to that on the first one. */
    private void sensitivity(String target, int peak) {
        final String first = calibrants.get(0).instrument();
        for (String other : instruments) {
            if (!other.equals(first)) {
                sheet.add(
                        Key.of(CALIBRATION, target, "sensitivity-ratio", "")
                                .with("factor", "instrument")
                                .with("group", other)
                                .with("reference", first),
                        sheet.physics().onInstrument(other, peak)
                                / sheet.physics().onInstrument(first, peak),
                        "1");
            }
        }
    }

    /**
     * What a line in stated amounts should find in the flask: what it was meant to hold, before the
     * scatter of preparations. That scatter, seen among the calibrants, is in the interval of an
     * amount, which therefore is one of the content that such a preparation stands for, not of what
     * happens to be in this flask. Without an internal standard a day's gain would be taken for
     * amount; then there is no such value unless days do not differ.
     */
    private void predicted(String target, int peak, double stock) {
        if (scatter.gain() != 0) {
            return;
        }
        for (Flask flask : sheet.flasks("sample")) {
            final double[] made = sheet.solutions().meant(flask);
            final double standard =
                    design.standard()
                            .map(s -> sheet.standard(made) / s.amount().value())
                            .orElse(1.0);
            sheet.add(
                    Key.of(CALIBRATION, target, "predicted-amount", "")
                            .with("preparation", flask.label()),
                    Peaks.sum(made[peak], 0) / standard / stock,
                    "mg/L");
        }
    }
}
