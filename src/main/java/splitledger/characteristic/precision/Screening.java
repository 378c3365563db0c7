package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.characteristic.Digits;
import splitledger.statistics.GroupSpread;
import splitledger.statistics.Grubbs;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.SeriesFlags;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;

/**
 * What looks unusual in the repeated rows of one compound. Flags only: nothing is left out by the
 * program. Each test is made at a risk of 1 % of a false alarm.
 */
final class Screening {
    private static final double RISK = 0.01;
    private static final int MOST_FOR_PAIR = 20;
    private static final int PER_OUTLIER = 5;

    private final InjectionTable table;
    private final String compound;
    private final ScreenedRows rows;
    private final List<Flag> flags = new ArrayList<>();

    private Screening(InjectionTable table, String compound, ScreenedRows rows) {
        this.table = table;
        this.compound = compound;
        this.rows = rows;
    }

    /** All flags. */
    static List<Flag> of(InjectionTable table, String compound, ScreenedRows rows) {
        final Screening own = new Screening(table, compound, rows);
        own.injections();
        if (rows.conditions().size() > 2) {
            own.conditions();
        } else if (rows.conditions().size() == 1) {
            own.single("results", rows.results());
        }
        own.series();
        return List.copyOf(own.flags);
    }

    /** Injections within preparations: one variance far above the others. */
    private void injections() {
        final List<ScreenedRows.Group> repeated =
                rows.preparations().stream().filter(p -> p.values().size() > 1).toList();
        cochran(repeated, "preparation", "its injections scatter");
    }

    /** Results within sets of conditions, and the sets among each other. */
    private void conditions() {
        final List<ScreenedRows.Group> sets = rows.conditions();
        cochran(
                sets.stream().filter(s -> s.values().size() > 1).toList(),
                "conditions",
                "results within it scatter");
        single("sets of conditions", sets);
        if (sets.stream().allMatch(s -> s.values().size() > 1)) {
            mandel(sets);
        }
    }

    private void cochran(List<ScreenedRows.Group> groups, String what, String words) {
        if (groups.size() < 2) {
            return;
        }
        final double[] variances =
                groups.stream().mapToDouble(g -> Moments.ofAll(g.array()).variance()).toArray();
        final double size =
                groups.stream().mapToInt(g -> g.values().size()).sum() / (double) groups.size();
        ifComputed(
                GroupSpread.cochran(variances, size),
                largest -> {
                    if (largest.p() < RISK) {
                        final ScreenedRows.Group group = groups.get(largest.group());
                        flag(
                                group,
                                what,
                                words
                                        + " more than elsewhere: Cochran's C "
                                        + Digits.three(largest.statistic())
                                        + ", p "
                                        + p(largest.p())
                                        + " ("
                                        + GroupSpread.SOURCE.work()
                                        + ")");
                    }
                });
    }

    /** One value, a pair, or several far from the others. */
    private void single(String what, List<ScreenedRows.Group> groups) {
        final double[] means = groups.stream().mapToDouble(ScreenedRows.Group::mean).toArray();
        final List<Integer> told = new ArrayList<>();
        ifComputed(Grubbs.single(means), s -> suspects(groups, s, "Grubbs' G ", told));
        if (means.length <= MOST_FOR_PAIR) {
            ifComputed(
                    Grubbs.pair(means), s -> suspects(groups, s, "Grubbs' ratio for two ", told));
        }
        final int most = means.length / PER_OUTLIER;
        if (most > 1) {
            ifComputed(
                    Grubbs.deviates(means, most, RISK),
                    d ->
                            Arrays.stream(d.rows())
                                    .filter(i -> !told.contains(i))
                                    .forEach(
                                            i ->
                                                    flag(
                                                            groups.get(i),
                                                            what,
                                                            "one of several values far from the others: generalised extreme"
                                                                    + " studentised deviates at risk 1 % (Rosner, Technometrics"
                                                                    + " 25 (1983) 165)")));
        }
    }

    private void suspects(
            List<ScreenedRows.Group> groups,
            Grubbs.Suspect suspect,
            String name,
            List<Integer> told) {
        if (suspect.p() < RISK) {
            for (int i : suspect.rows()) {
                if (!told.contains(i)) {
                    told.add(i);
                    flag(
                            groups.get(i),
                            "",
                            "lies far from the others: "
                                    + name
                                    + Digits.three(suspect.statistic())
                                    + ", p "
                                    + p(suspect.p())
                                    + " ("
                                    + Grubbs.SOURCE.work()
                                    + ")");
                }
            }
        }
    }

    private void mandel(List<ScreenedRows.Group> sets) {
        final double size =
                sets.stream().mapToInt(s -> s.values().size()).sum() / (double) sets.size();
        final double h = GroupSpread.hCritical(sets.size(), RISK);
        final double k = GroupSpread.kCritical(sets.size(), size, RISK);
        ifComputed(
                GroupSpread.mandel(sets.stream().map(ScreenedRows.Group::array).toList()),
                all -> {
                    for (int i = 0; i < all.size(); i++) {
                        if (Math.abs(all.get(i).h()) > h) {
                            flag(sets.get(i), "", mandel("h", all.get(i).h(), h, "its mean lies"));
                        }
                        if (all.get(i).k() > k) {
                            flag(sets.get(i), "", mandel("k", all.get(i).k(), k, "it scatters"));
                        }
                    }
                });
    }

    private static String mandel(String name, double found, double critical, String words) {
        return words
                + " apart from the others: Mandel's "
                + name
                + " "
                + Digits.three(found)
                + ", beyond "
                + Digits.three(critical)
                + " at risk 1 % ("
                + GroupSpread.SOURCE.work()
                + ")";
    }

    /** Steps and likeness of neighbours in run order. */
    private void series() {
        final List<ScreenedRows.Group> inOrder = rows.inRunOrder();
        final double[] means = inOrder.stream().mapToDouble(ScreenedRows.Group::mean).toArray();
        ifComputed(
                SeriesFlags.step(means),
                step -> {
                    if (step.p() < RISK) {
                        flag(
                                inOrder.get(step.before()),
                                "",
                                "from here on "
                                        + (step.difference() > 0 ? "higher" : "lower")
                                        + " by "
                                        + Digits.three(Math.abs(step.difference()))
                                        + ": a step in run order, p at most "
                                        + p(step.p())
                                        + "; look for what was changed (liner, septum, syringe, gas, solution)");
                    }
                });
        ifComputed(
                SeriesFlags.neighbours(means),
                n -> {
                    if (n.lagOne() > 0 && n.p() < RISK) {
                        flag(
                                inOrder.get(0),
                                "",
                                "neighbours in run order are alike: autocorrelation "
                                        + Digits.three(n.lagOne())
                                        + ", p "
                                        + p(n.p())
                                        + "; taken as independent, the standard error of their mean is too small by a factor of "
                                        + Digits.three(n.inflation()));
                    }
                });
    }

    private void flag(ScreenedRows.Group group, String what, String words) {
        flags.add(
                new Flag(
                        table.place(group.row()),
                        compound + ", " + (what.isEmpty() ? "" : what + " ") + group.label(),
                        words));
    }

    private static <T> void ifComputed(Outcome<T> outcome, java.util.function.Consumer<T> then) {
        if (outcome instanceof Outcome.Computed<T> computed) {
            then.accept(computed.value());
        }
    }

    private static String p(double p) {
        return p < 1e-4 ? "below 0.0001" : Digits.three(Math.rint(p * 1e5) / 1e5);
    }

    /** Groups of equal keys, in order of first occurrence. */
    static <T> Map<String, List<T>> grouped(
            List<T> items, java.util.function.Function<T, String> key) {
        final Map<String, List<T>> groups = new LinkedHashMap<>();
        items.forEach(i -> groups.computeIfAbsent(key.apply(i), k -> new ArrayList<>()).add(i));
        return groups;
    }
}
