package splitledger.statistics;

import java.util.OptionalInt;

/**
 * Days, preparations and injections of a mean, each with its own scatter and its own price. With d
 * days, p preparations a day and m injections a preparation the mean has the variance sd(day)^2/d +
 * sd(preparation)^2/(d p) + sd(injection)^2/(d p m) and costs d (c(day) + p (c(preparation) + m
 * c(injection))).
 *
 * @param dayScatter standard deviation between days, at least 0
 * @param preparationScatter between preparations of a day, at least 0
 * @param injectionScatter between injections of a preparation, at least 0
 * @param dayCost at least 0
 * @param preparationCost at least 0
 * @param injectionCost above 0
 */
public record Allocation(
        double dayScatter,
        double preparationScatter,
        double injectionScatter,
        double dayCost,
        double preparationCost,
        double injectionCost) {
    /** The closed form. */
    public static final Source SOURCE =
            new Source(
                    "Cochran, Sampling Techniques, 3rd ed., Wiley 1977, from memory",
                    "ch. 10, subsampling in several stages");

    /** Numbers beyond this are not tried. */
    private static final int MOST = 1000;

    public Allocation {
        for (double part :
                new double[] {
                    dayScatter, preparationScatter, injectionScatter, dayCost, preparationCost
                }) {
            if (!(part >= 0)) {
                throw new IllegalArgumentException("part = " + part + ", must be >= 0");
            }
        }
        if (!(injectionCost > 0)) {
            throw new IllegalArgumentException(
                    "injectionCost = " + injectionCost + ", must be > 0");
        }
    }

    /**
     * Whole numbers.
     *
     * @param days number of them
     * @param preparations a day
     * @param injections a preparation
     */
    public record Counts(int days, int preparations, int injections) {}

    /**
     * Preparations a day that give the smallest variance for a price, not rounded:
     * sd(preparation)/sd(day) sqrt(c(day)/c(preparation)); infinite if days do not scatter or
     * preparations cost nothing.
     */
    public double preparationsADay() {
        return ratio(preparationScatter, dayScatter, dayCost, preparationCost);
    }

    /** Injections a preparation, likewise. */
    public double injectionsAPreparation() {
        return ratio(injectionScatter, preparationScatter, preparationCost, injectionCost);
    }

    private static double ratio(double inner, double outer, double outerCost, double innerCost) {
        if (inner == 0 || outerCost == 0) {
            return 0;
        }
        return outer == 0 || innerCost == 0
                ? Double.POSITIVE_INFINITY
                : inner / outer * Math.sqrt(outerCost / innerCost);
    }

    /** Variance of the mean. */
    public double variance(Counts n) {
        final double days = n.days();
        return dayScatter * dayScatter / days
                + preparationScatter * preparationScatter / (days * n.preparations())
                + injectionScatter * injectionScatter / (days * n.preparations() * n.injections());
    }

    /** Price. */
    public double cost(Counts n) {
        return n.days()
                * (dayCost + n.preparations() * (preparationCost + n.injections() * injectionCost));
    }

    /**
     * The cheapest whole numbers whose mean has at most this variance; among equally cheap ones
     * that with the smallest variance. Every number of preparations and injections up to {@code
     * most} is tried; the days follow from the variance.
     *
     * @param wanted variance, above 0
     * @param most preparations a day and injections a preparation
     */
    public Counts cheapest(double wanted, int most) {
        if (!(wanted > 0)) {
            throw new IllegalArgumentException("wanted = " + wanted + ", must be > 0");
        }
        Counts best = new Counts(0, 0, 0);
        double price = Double.POSITIVE_INFINITY;
        for (int p = 1; p <= most; p++) {
            for (int m = 1; m <= most; m++) {
                final OptionalInt days = days(wanted, p, m);
                if (days.isEmpty()) {
                    continue;
                }
                final Counts n = new Counts(days.getAsInt(), p, m);
                final double cost = cost(n);
                if (cost < price || (cost == price && variance(n) < variance(best))) {
                    best = n;
                    price = cost;
                }
            }
        }
        if (best.days() == 0) {
            throw new IllegalArgumentException(
                    "wanted = " + wanted + ", is not reached with " + MOST + " days");
        }
        return best;
    }

    private OptionalInt days(double wanted, int preparations, int injections) {
        final double one = variance(new Counts(1, preparations, injections));
        final double days = Math.max(1, Math.ceil(one / wanted * (1 - 1e-12)));
        return days <= MOST ? OptionalInt.of((int) days) : OptionalInt.empty();
    }
}
