package splitledger.virtual;

import java.util.Set;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.study.Key;

/**
 * True values of the split experiment, for peaks that neither decompose nor are formed, under a
 * linear detector. Ratios in conditions are those of the table.
 */
final class SplitTruth {
    private static final String OF = "split-linearity";

    private final TruthSheet sheet;
    private final Design design;
    private final Effects.Split split;

    SplitTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
        this.split = design.split();
    }

    void add() {
        final TreeSet<String> stable = new TreeSet<>();
        final TreeSet<Double> ratios = new TreeSet<>();
        for (Plan.Batch batch : design.batches("split")) {
            ratios.addAll(batch.splits());
            for (String level : batch.levels()) {
                stable.addAll(sheet.peaks().map(sheet.solutions().intended(level, "", 0)).keySet());
            }
        }
        stable.removeAll(design.labile());
        if (stable.isEmpty() || ratios.isEmpty() || !sheet.isLinear()) {
            return;
        }
        final boolean bent = split.lowDeviation().value() > 0;
        if (!bent) {
            exponents(stable);
        }
        for (double ratio : ratios) {
            stable.forEach(compound -> kept(compound, ratio));
            if (split.exponentSlope().value() == 0) {
                kept("", ratio);
                effective(stable.first(), ratio);
            }
            sheet.add(
                    at(Key.of(OF, "", "expected-split-ratio", ""), ratio),
                    sheet.physics().trueRatio(ratio),
                    "1");
        }
    }

    private void exponents(Set<String> stable) {
        for (String compound : stable) {
            sheet.add(
                    Key.of(OF, compound, "split-exponent", ""),
                    sheet.physics().exponent(design.compound(compound).boilingPoint()),
                    "1");
        }
        sheet.add(
                Key.of(OF, "", "split-exponent-slope", ""),
                split.exponentSlope().value(),
                "1/(100 degC)");
        if (split.exponentSlope().value() == 0) {
            sheet.add(Key.of(OF, "", "split-exponent", ""), split.exponent().value(), "1");
            if (split.exponent().value() == 1) {
                offset();
            }
        }
    }

    /**
     * The response goes with 1 / (1 + k (R - 1) + l), R being the ratio of total to column flow as
     * set, k the true over the told quotient of vent and column flow and l the leak: with 1 / (R +
     * (1 + l)/k - 1).
     */
    private void offset() {
        sheet.add(
                Key.of(OF, "", "convention-offset", ""),
                (1 + split.leak().value()) / sheet.physics().flowFactor()
                        - 1
                        + split.table().offset(),
                "1");
    }

    private Key at(Key key, double ratio) {
        return key.with("ratio", Numbers.text(split.table().of(ratio)));
    }

    /** Response times the ratio as told, relative to the working ratio, percent. */
    private void kept(String compound, double ratio) {
        sheet.add(
                at(Key.of(OF, compound, "response-kept", ""), ratio),
                TruthSheet.PERCENT
                        * responseTimesRatio(peak(compound), ratio)
                        / responseTimesRatio(peak(compound), working()),
                "%");
    }

    private double responseTimesRatio(int peak, double set) {
        return passed(peak, set) / sheet.physics().trueRatio(set) * told(set);
    }

    /** Total to column flow, as table and protocol together say it. */
    private double told(double set) {
        return split.columns().ratio() ? split.table().of(set) + split.protocol().offset() : set;
    }

    private int peak(String compound) {
        return compound.isEmpty() ? 0 : sheet.peaks().of(compound);
    }

    private double working() {
        return design.inlet().splitRatio().value();
    }

    private double passed(int peak, double set) {
        return sheet.physics().passed(peak, sheet.physics().trueRatio(set));
    }

    /** The ratio that responses tell, if the working one is what the table says. */
    private void effective(String compound, double ratio) {
        final int peak = sheet.peaks().of(compound);
        final double relative =
                sheet.physics().trueRatio(ratio)
                        / sheet.physics().trueRatio(working())
                        * passed(peak, working())
                        / passed(peak, ratio);
        sheet.add(
                at(Key.of(OF, "", "effective-split-ratio", ""), ratio),
                told(working()) * relative,
                "1");
    }
}
