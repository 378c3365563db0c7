package splitledger.virtual;

import java.util.ArrayList;
import java.util.List;
import splitledger.statistics.Quantiles;
import splitledger.study.Key;

/**
 * True scatters of the response, divided by the test portion where there is one, at the mean
 * composition of the repeatability experiment.
 */
final class PrecisionTruth {
    private static final String OF = "repeatability";

    private final TruthSheet sheet;
    private final Design design;
    private final Scatter scatter;

    PrecisionTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
        this.scatter = new Scatter(sheet);
    }

    void add() {
        for (Plan.Batch batch : design.batches(OF)) {
            final boolean oneSolution = batch.oils().size() <= 1 && batch.levels().size() <= 1;
            if (oneSolution && !(batch.oils().isEmpty() && batch.levels().isEmpty())) {
                design.targets().forEach(target -> add(batch, target));
            }
        }
    }

    /** Relative standard deviations of one target's response, by cause. */
    private record Parts(
            double mean,
            String unit,
            double injection,
            double preparation,
            double day,
            double analyst,
            double dayByAnalyst,
            double instrument,
            double injectionsEach) {
        double repeatability() {
            return TruthSheet.root(preparation, injection / Math.sqrt(injectionsEach));
        }

        double intermediate() {
            return TruthSheet.root(repeatability(), day, analyst, dayByAnalyst, instrument);
        }
    }

    private void add(Plan.Batch batch, String target) {
        final int peak = sheet.peaks().of(target);
        final double portion = portion(batch);
        final double[] amounts = amounts(batch, portion);
        if (!(amounts[peak] > 0)) {
            return;
        }
        final double[] areas = sheet.atWork(amounts);
        final double per = batch.oils().isEmpty() ? 1 : portion;
        final Parts parts = parts(batch, peak, areas, portion, per);
        if (scatter.isSteady() && sheet.isLinear()) {
            scatters(target, parts);
            shares(target, parts);
            nothing(batch, target, parts);
        }
        drift(target);
        carryOver(target);
        standard(target, peak, areas);
    }

    private double portion(Plan.Batch batch) {
        final Design.Range range = design.preparation().portion();
        return batch.oils().isEmpty() ? 1 : (range.from() + range.to()) / 2;
    }

    private double[] amounts(Plan.Batch batch, double portion) {
        return sheet.solutions()
                .withImpurities(
                        sheet.solutions()
                                .intended(first(batch.levels()), first(batch.oils()), portion));
    }

    private static String first(List<String> labels) {
        return labels.isEmpty() ? "" : labels.get(0);
    }

    private Parts parts(Plan.Batch batch, int peak, double[] areas, double portion, double per) {
        final Design.Preparation p = design.preparation();
        final boolean oil = !batch.oils().isEmpty();
        return new Parts(
                sheet.response(areas, peak) / per,
                oil ? sheet.responseUnit() + "/mg" : sheet.responseUnit(),
                scatter.injection(peak, areas),
                TruthSheet.root(
                        scatter.dilution(),
                        oil ? p.balance().value() / portion : 0,
                        oil ? p.flaskVolume().value() / p.volume().value() : 0),
                TruthSheet.root(oil ? p.between().fraction() : 0, scatter.gain()),
                oil ? p.analysts().fraction() : 0,
                oil ? p.dayByAnalyst().fraction() : 0,
                batch.instruments().isEmpty() ? 0 : design.instruments().fraction(),
                batch.injections());
    }

    private void scatters(String target, Parts p) {
        final double mean = p.mean();
        add(target, "mean", mean, p.unit());
        add(target, "sd-injection", mean * p.injection(), p.unit());
        add(target, "rsd-injection", TruthSheet.PERCENT * p.injection(), "%");
        add(target, "sd-repeatability", mean * p.repeatability(), p.unit());
        add(target, "rsd-repeatability", TruthSheet.PERCENT * p.repeatability(), "%");
        add(target, "sd-intermediate", mean * p.intermediate(), p.unit());
        add(target, "rsd-intermediate", TruthSheet.PERCENT * p.intermediate(), "%");
        add(
                target,
                "repeatability-limit",
                Quantiles.coverageFactor(0.95, Double.POSITIVE_INFINITY)
                        * Math.sqrt(2)
                        * mean
                        * p.repeatability(),
                p.unit());
        between(target, "day", p.day(), p);
        between(target, "analyst", p.analyst(), p);
        if (p.dayByAnalyst() > 0) {
            between(target, "day:analyst", p.dayByAnalyst(), p);
        }
        if (p.instrument() > 0) {
            between(target, "instrument", p.instrument(), p);
        }
        between(target, "preparation", p.preparation(), p);
    }

    private void between(String target, String factor, double relative, Parts p) {
        sheet.add(
                Key.of(OF, target, "sd-between", "").with("factor", factor),
                p.mean() * relative,
                p.unit());
    }

    /** Shares of the variance of a result of m injections under intermediate conditions. */
    private void shares(String target, Parts p) {
        share(target, "day", p.day(), p);
        share(target, "analyst", p.analyst(), p);
        if (p.dayByAnalyst() > 0) {
            share(target, "day:analyst", p.dayByAnalyst(), p);
        }
        if (p.instrument() > 0) {
            share(target, "instrument", p.instrument(), p);
        }
        share(target, "preparation", p.preparation(), p);
        share(target, "injection", p.injection() / Math.sqrt(p.injectionsEach()), p);
    }

    private void share(String target, String factor, double relative, Parts p) {
        final double part = relative / p.intermediate();
        if (p.intermediate() > 0) {
            sheet.add(
                    Key.of(OF, target, "variance-share", "").with("factor", factor),
                    TruthSheet.PERCENT * part * part,
                    "%");
        }
    }

    /** Combinations of factors that the design gives no effect of their own. */
    private void nothing(Plan.Batch batch, String target, Parts p) {
        final boolean analysts = batch.analysts().size() > 1;
        final boolean instruments = batch.instruments().size() > 1;
        final List<String> factors = new ArrayList<>();
        if (analysts && p.dayByAnalyst() == 0) {
            factors.add("day:analyst");
        }
        if (instruments) {
            factors.add("day:instrument");
        }
        if (analysts && instruments) {
            factors.addAll(List.of("analyst:instrument", "day:analyst:instrument"));
        }
        for (String factor : factors) {
            between(target, factor, 0, p);
            share(target, factor, 0, p);
        }
    }

    private void drift(String target) {
        final Design.Detector d = design.detector();
        final double common = sheet.hasStandard() ? 0 : d.drift().value();
        add(target, "drift-per-injection", common + d.driftAgainstStandard().value(), "%");
    }

    private void carryOver(String target) {
        add(target, "carry-over", design.inlet().carryOver().value(), "%");
    }

    /** What dividing by the internal standard gains; the part that all peaks share. */
    private void standard(String target, int peak, double[] areas) {
        if (!scatter.isSteady() || !sheet.isLinear()) {
            return;
        }
        final double alone = scatter.injectionOfArea(peak, areas);
        if (sheet.hasStandard() && alone > 0) {
            add(target, "internal-standard-gain", scatter.injection(peak, areas) / alone, "1");
        }
        if (design.discrimination().scatter().value() == 0 && alone > 0) {
            final double part = design.inlet().strokeScatter().fraction() / alone;
            add(target, "share-common-mode", TruthSheet.PERCENT * part * part, "%");
        }
    }

    private void add(String target, String quantity, double value, String unit) {
        sheet.add(Key.of(OF, target, quantity, ""), value, unit);
    }
}
