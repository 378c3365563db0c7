package splitledger.virtual;

import java.util.Map;
import splitledger.study.Key;

/**
 * True recoveries: what the procedure of the design recovers of whatever holds a test portion, and
 * what the hot inlet lets through of a solution that is also injected cold onto the column.
 */
final class RecoveryTruth {
    private static final String OF = "recovery";

    private final TruthSheet sheet;
    private final Design design;

    RecoveryTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
    }

    void add() {
        for (Plan.Batch batch : design.batches("spike")) {
            for (String level : batch.levels()) {
                spikes(batch, level);
            }
        }
        for (Plan.Batch batch : design.batches("transfer")) {
            batch.levels().forEach(this::transfer);
        }
    }

    private void spikes(Plan.Batch batch, String level) {
        final Map<String, Double> added = design.levels().getOrDefault(level, Map.of());
        for (String target : design.targets()) {
            if (added.getOrDefault(target, 0.0) > 0) {
                final double share = batch.oils().isEmpty() ? 1 : design.recovery(target);
                final Key all = key(target, "procedure");
                sheet.add(all.with("level", level), share, "1");
                sheet.add(all, share, "1");
            }
        }
    }

    /** Without a standard the areas are compared after multiplication by the ratio that was set. */
    private void transfer(String level) {
        final double[] amounts = sheet.solutions().intended(level, "", 0);
        final double[] hot = sheet.atWork(amounts);
        final double[] cold = sheet.physics().expectedOnColumn(amounts);
        final double ratio = sheet.hasStandard() ? 1 : design.inlet().splitRatio().value();
        for (String target : design.targets()) {
            final int peak = sheet.peaks().of(target);
            if (amounts[peak] > 0) {
                final Key all = key(target, "transfer");
                final double share = sheet.response(hot, peak) * ratio / sheet.response(cold, peak);
                sheet.add(all.with("level", level), share, "1");
                sheet.add(all, share, "1");
            }
        }
    }

    private static Key key(String compound, String kind) {
        return Key.of(OF, compound, OF, "").with("kind", kind);
    }
}
