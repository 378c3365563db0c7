package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.Numbers;
import splitledger.characteristic.Responses;
import splitledger.statistics.Moments;
import splitledger.statistics.VarianceEstimate;
import splitledger.statistics.Weighting;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * The calibrants of one compound: preparations with their amounts and the injections of each.
 *
 * @param name unique name of what is fitted to them: the compound, and the group if there is one
 * @param compound its name
 * @param preparations in order of the table
 * @param leftOut rows that could not serve, with the reason
 */
record Calibrants(
        String name, String compound, List<Preparation> preparations, List<Flag> leftOut) {
    Calibrants {
        preparations = List.copyOf(preparations);
        leftOut = List.copyOf(leftOut);
    }

    /**
     * One preparation.
     *
     * @param label of the preparation
     * @param level its level's label; empty if the table names none
     * @param amount in the amount unit
     * @param responses one an injection
     * @param rows of the table
     */
    record Preparation(
            String label, String level, double amount, Moments responses, List<Integer> rows) {}

    /** Collects them. */
    static Calibrants of(Study study, Responses responses, Rows rows, String compound) {
        final InjectionTable table = study.table();
        final Responses.Picked picked = responses.pick(rows, compound, true);
        final List<Flag> leftOut = new ArrayList<>(picked.leftOut());
        final Map<String, Preparation> byLabel = new LinkedHashMap<>();
        for (Responses.Response r : picked.used()) {
            final double amount = table.number("amount", r.row());
            if (Double.isNaN(amount)) {
                leftOut.add(
                        new Flag(
                                table.place(r.row()),
                                "injection " + r.injection() + ", " + compound,
                                "left out of the calibration: no amount stated"));
                continue;
            }
            final Preparation one =
                    new Preparation(
                            r.preparation(),
                            table.label("level", r.row()),
                            amount,
                            Moments.of(r.value()),
                            List.of(r.row()));
            byLabel.merge(amount + " " + r.preparation(), one, Calibrants::together);
        }
        return new Calibrants(compound, compound, List.copyOf(byLabel.values()), leftOut);
    }

    /** The same for a line of its own. */
    Calibrants named(String group) {
        return new Calibrants(compound + "/" + group, compound, preparations, leftOut);
    }

    /** Amounts, one a preparation. */
    double[] amounts() {
        return preparations.stream().mapToDouble(Preparation::amount).toArray();
    }

    /** Mean responses, one a preparation. */
    double[] means() {
        return preparations.stream().mapToDouble(p -> p.responses().mean()).toArray();
    }

    /** All rows. */
    Rows rows() {
        return Rows.of(
                preparations.stream()
                        .flatMap(p -> p.rows().stream())
                        .mapToInt(Integer::intValue)
                        .toArray());
    }

    /** Number of different amounts. */
    long levels() {
        return preparations.stream().mapToDouble(Preparation::amount).distinct().count();
    }

    /** Smallest and largest amount. */
    double[] range() {
        return new double[] {
            preparations.stream().mapToDouble(Preparation::amount).min().orElse(Double.NaN),
            preparations.stream().mapToDouble(Preparation::amount).max().orElse(Double.NaN)
        };
    }

    /** Preparations by the label of their level, or by their amount where no level is named. */
    Map<String, List<Preparation>> byLevel() {
        final Map<String, List<Preparation>> levels = new LinkedHashMap<>();
        for (Preparation p : preparations) {
            final String label = p.level().isEmpty() ? Numbers.text(p.amount()) : p.level();
            levels.computeIfAbsent(label, l -> new ArrayList<>()).add(p);
        }
        return levels;
    }

    /** Harmonic mean of the numbers of injections a preparation. */
    double injectionsAveraged() {
        final double sum =
                preparations.stream().mapToDouble(p -> 1.0 / p.responses().count()).sum();
        return preparations.size() / sum;
    }

    /**
     * Scatter of injections within preparations under a variance law; empty if nothing was injected
     * twice.
     */
    Optional<VarianceEstimate> injectionScatter(Weighting law) {
        double squares = 0;
        int df = 0;
        for (Preparation p : preparations) {
            if (p.responses().count() > 1) {
                squares += p.responses().squares() / law.variance(p.amount());
                df += p.responses().count() - 1;
            }
        }
        return df > 0 ? Optional.of(new VarianceEstimate(squares / df, df)) : Optional.empty();
    }

    private static Preparation together(Preparation a, Preparation b) {
        final List<Integer> rows = new ArrayList<>(a.rows());
        rows.addAll(b.rows());
        return new Preparation(
                a.label(),
                a.level(),
                a.amount(),
                a.responses().with(b.responses()),
                List.copyOf(rows));
    }
}
