package splitledger.virtual;

import java.util.OptionalDouble;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.study.Key;
import splitledger.study.Tree;

/** True breakdown on the basis of areas at each inlet temperature; rate and activation energy. */
final class LossTruth {
    private static final String OF = "losses";
    private static final double COLDEST = 0;
    private static final double HOTTEST = 600;
    private static final int HALVINGS = 60;

    private final TruthSheet sheet;
    private final Design design;

    LossTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
    }

    void add() {
        for (LinerLoss loss : sheet.physics().losses()) {
            add(loss);
        }
    }

    private void add(LinerLoss loss) {
        final String parent = loss.loss().parent();
        final TreeSet<Double> temperatures = new TreeSet<>();
        for (Plan.Batch batch : design.batches("inlet-temperature")) {
            for (String level : batch.levels()) {
                final double[] amounts = sheet.solutions().intended(level, "", 0);
                if (!(amounts[sheet.peaks().of(parent)] > 0)) {
                    continue;
                }
                temperatures.addAll(batch.temperatures());
                if (sheet.isLinear()) {
                    batch.temperatures().forEach(t -> breakdown(loss, amounts, t));
                    limit(parent).ifPresent(limit -> highest(loss, amounts, limit));
                }
            }
        }
        if (temperatures.isEmpty()) {
            return;
        }
        final double middle = (temperatures.first() + temperatures.last()) / 2;
        sheet.add(
                Key.of(OF, parent, "activation-energy", ""),
                loss.loss().activationEnergy().value(),
                "kJ/mol");
        sheet.add(
                Key.of(OF, parent, "apparent-rate", "")
                        .with("inlet_temperature", Numbers.text(middle)),
                loss.rate(middle),
                "1/s");
    }

    private void breakdown(LinerLoss loss, double[] amounts, double temperature) {
        sheet.add(
                Key.of(OF, loss.loss().parent(), "breakdown", "")
                        .with("inlet_temperature", Numbers.text(temperature)),
                share(loss, amounts, temperature),
                "%");
    }

    /** Areas of the products over these and the parent's, percent. */
    private double share(LinerLoss loss, double[] amounts, double temperature) {
        final double[] areas = sheet.at(amounts, temperature);
        double products = 0;
        for (String product : loss.loss().products().keySet()) {
            products += Peaks.sum(areas[sheet.peaks().of(product)], 0);
        }
        return TruthSheet.PERCENT
                * products
                / (products + areas[sheet.peaks().of(loss.loss().parent())]);
    }

    /** A limit for the breakdown that the design's own block asks for, percent. */
    private OptionalDouble limit(String parent) {
        if (design.protocol().get("requirements").orElse(Tree.Mapping.EMPTY)
                instanceof Tree.Sequence list) {
            for (Tree item : list.items()) {
                if (item instanceof Tree.Mapping r
                        && r.text("quantity").orElse("").equals("breakdown")
                        && r.text("of").orElse(parent).equals(parent)
                        && r.text("at-most").orElse("").endsWith("%")) {
                    final String number = r.text("at-most").orElse("").replace("%", "").strip();
                    return new Tree.Scalar(r.place(), number, false).number();
                }
            }
        }
        return OptionalDouble.empty();
    }

    /** The temperature at which breakdown reaches the limit: it grows with temperature. */
    private void highest(LinerLoss loss, double[] amounts, double limit) {
        double low = COLDEST;
        double high = HOTTEST;
        if (share(loss, amounts, low) > limit || share(loss, amounts, high) < limit) {
            return;
        }
        for (int i = 0; i < HALVINGS; i++) {
            final double middle = (low + high) / 2;
            if (share(loss, amounts, middle) > limit) {
                high = middle;
            } else {
                low = middle;
            }
        }
        sheet.add(Key.of(OF, loss.loss().parent(), "highest-inlet-temperature", ""), low, "degC");
    }
}
