package splitledger.characteristic.discrimination;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.statistics.Moments;
import splitledger.statistics.Quantiles;
import splitledger.study.Choice;
import splitledger.study.Compounds.Compound;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * What peak widths and vials tell about heavy peaks that are low: a cold place broadens them, a
 * solution that has precipitated differs from vial to vial, a loss in needle or inlet does neither.
 * The rules and their limits are our own.
 */
final class LadderWidths {
    /** How many times wider than the trend of the lighter members a peak is called broad. */
    private static final double BROAD = 1.5;

    private static final double LEVEL = 0.005;
    private static final int LEAST_MEMBERS = 6;
    private static final String RULE =
            "rule of this program; signatures: common practice, no source";

    private final Study study;
    private final Rows rows;
    private final List<Compound> members;

    /** Rows of a ladder with its members, lightest first. */
    LadderWidths(Study study, Rows rows, List<Compound> members) {
        this.study = study;
        this.rows = rows;
        this.members = List.copyOf(members);
    }

    /**
     * In words.
     *
     * @param low whether the heaviest members are shown to be low
     * @param reference the member that the others are compared with
     */
    List<Choice> choices(boolean low, String reference) {
        final List<Choice> all = new ArrayList<>();
        growth().ifPresent(g -> all.add(low ? lowAnd(g) : notLow(g)));
        if (low) {
            vials(reference).ifPresent(all::add);
        }
        return all;
    }

    /**
     * Width of the heaviest member over what the trend of the lighter two thirds lets expect.
     *
     * @param times how many times as wide
     * @param broad whether it is called broad
     */
    private record Growth(String member, double times, boolean broad) {}

    /** Nothing without widths of {@link #LEAST_MEMBERS} members. */
    private Optional<Growth> growth() {
        final List<double[]> points = new ArrayList<>();
        String heaviest = "";
        for (Compound member : members) {
            final double[] logs = logs(member.name());
            if (logs.length > 0 && member.boilingPoint().isPresent()) {
                points.add(
                        new double[] {
                            member.boilingPoint().getAsDouble(), Moments.ofAll(logs).mean()
                        });
                heaviest = member.name();
            }
        }
        if (points.size() < LEAST_MEMBERS) {
            return Optional.empty();
        }
        final List<double[]> light = points.subList(0, Math.max(4, points.size() * 2 / 3));
        final double[] last = points.get(points.size() - 1);
        double x = 0;
        double y = 0;
        for (double[] p : light) {
            x += p[0] / light.size();
            y += p[1] / light.size();
        }
        double sxx = 0;
        double sxy = 0;
        for (double[] p : light) {
            sxx += (p[0] - x) * (p[0] - x);
            sxy += (p[0] - x) * (p[1] - y);
        }
        if (!(sxx > 0)) {
            return Optional.empty();
        }
        final double slope = sxy / sxx;
        double squares = 0;
        for (double[] p : light) {
            final double e = p[1] - y - slope * (p[0] - x);
            squares += e * e;
        }
        final double freedom = light.size() - 2.0;
        final double off = last[1] - y - slope * (last[0] - x);
        final double u =
                Math.sqrt(
                        squares
                                / freedom
                                * (1 + 1.0 / light.size() + (last[0] - x) * (last[0] - x) / sxx));
        final boolean broad =
                off > FastMath.log(BROAD) && off > Quantiles.t(1 - LEVEL, freedom) * u;
        return Optional.of(new Growth(heaviest, FastMath.exp(off), broad));
    }

    private double[] logs(String member) {
        final InjectionTable table = study.table();
        return rows.stream()
                .filter(r -> table.compound(r).equals(member) && table.number("width", r) > 0)
                .mapToDouble(r -> FastMath.log(table.number("width", r)))
                .toArray();
    }

    private static String told(Growth g) {
        return g.member()
                + " is "
                + Digits.three(g.times())
                + " times as wide as the trend of the lighter members lets expect";
    }

    private static Choice lowAnd(Growth g) {
        return g.broad()
                ? choice(
                        "Heavy peaks are broad and low: consistent with a cold place between column and detector",
                        told(g)
                                + ". Do not call it discrimination of the inlet. Next: raise the temperature of the"
                                + " detector and its inlet, look how far the column reaches into it, repeat")
                : choice(
                        "Heavy peaks are low and keep their width: a cold place is not seen",
                        told(g)
                                + ". Loss in the needle, in the inlet and by precipitation from a cold solvent remain, and"
                                + " look alike by their widths. Next: warm and shake the vial, repeat, and inject the"
                                + " same solution cold onto the column");
    }

    private static Choice notLow(Growth g) {
        return g.broad()
                ? choice(
                        "Heavy peaks are broad but not shown to be low",
                        told(g)
                                + ": a cold place, or an oven programme that ends too early; integration misses the tails"
                                + " of such peaks first")
                : choice("Peaks keep their width over the ladder", told(g));
    }

    /** Heaviest member over reference, between vials against within them. */
    private Optional<Choice> vials(String reference) {
        final InjectionTable table = study.table();
        final String column = table.labels("vial").isPresent() ? "vial" : "preparation";
        final String heaviest = members.get(members.size() - 1).name();
        final Map<String, Map<String, double[]>> byVial = new LinkedHashMap<>();
        rows.stream()
                .filter(r -> table.area(r) > 0 && !table.label(column, r).isEmpty())
                .forEach(
                        r -> {
                            final double[] pair =
                                    byVial.computeIfAbsent(
                                                    table.label(column, r),
                                                    v -> new LinkedHashMap<>())
                                            .computeIfAbsent(
                                                    table.injection(r),
                                                    i -> new double[] {Double.NaN, Double.NaN});
                            if (table.compound(r).equals(heaviest)) {
                                pair[0] = FastMath.log(table.area(r));
                            } else if (table.compound(r).equals(reference)) {
                                pair[1] = FastMath.log(table.area(r));
                            }
                        });
        double within = 0;
        double freedom = 0;
        double square = 0;
        double sum = 0;
        double count = 0;
        int vials = 0;
        for (Map<String, double[]> vial : byVial.values()) {
            final double[] logs =
                    vial.values().stream()
                            .mapToDouble(p -> p[0] - p[1])
                            .filter(v -> !Double.isNaN(v))
                            .toArray();
            if (logs.length > 0) {
                final Moments m = Moments.ofAll(logs);
                within += m.squares();
                freedom += m.count() - 1;
                square += m.count() * m.mean() * m.mean();
                sum += m.count() * m.mean();
                count += m.count();
                vials++;
            }
        }
        if (vials < 2 || !(freedom > 0) || !(within > 0)) {
            return Optional.empty();
        }
        final double between = Math.max(0, square - sum * sum / count) / (vials - 1);
        final double p = Quantiles.fTail(between / (within / freedom), vials - 1.0, freedom);
        return Optional.of(
                p < LEVEL
                        ? choice(
                                "Heavy peaks differ from vial to vial: consistent with precipitation from the solution",
                                told(heaviest, reference, column, vials, p)
                                        + ". Needle and inlet do not know which vial it was. Next: warm and shake the"
                                        + " vials, look for solids, use a better solvent")
                        : choice(
                                "Heavy peaks do not differ from vial to vial",
                                told(heaviest, reference, column, vials, p)
                                        + ": precipitation is not seen, unless all lost the same"));
    }

    private static String told(
            String heaviest, String reference, String column, int vials, double p) {
        return heaviest
                + " over "
                + reference
                + ", "
                + vials
                + " of the column "
                + column
                + " against the scatter of their injections, p "
                + Digits.three(p);
    }

    private static Choice choice(String what, String why) {
        return new Choice(Discrimination.ID, "", what, why, RULE);
    }
}
