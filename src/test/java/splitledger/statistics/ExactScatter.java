package splitledger.statistics;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Mean squares of a one-way layout in decimal arithmetic of 60 digits: an oracle for doubles. */
record ExactScatter(double within, double between) {
    private static final MathContext DIGITS = new MathContext(60);

    static ExactScatter of(double[] y, List<String> treatment) {
        final Map<String, List<BigDecimal>> groups = new LinkedHashMap<>();
        final List<BigDecimal> all = new ArrayList<>();
        for (int i = 0; i < y.length; i++) {
            final BigDecimal exact = new BigDecimal(y[i]);
            groups.computeIfAbsent(treatment.get(i), t -> new ArrayList<>()).add(exact);
            all.add(exact);
        }
        final BigDecimal mean = mean(all);
        BigDecimal within = BigDecimal.ZERO;
        BigDecimal between = BigDecimal.ZERO;
        for (List<BigDecimal> group : groups.values()) {
            final BigDecimal own = mean(group);
            for (BigDecimal v : group) {
                within = within.add(v.subtract(own).pow(2), DIGITS);
            }
            between =
                    between.add(
                            own.subtract(mean).pow(2).multiply(BigDecimal.valueOf(group.size())),
                            DIGITS);
        }
        return new ExactScatter(
                over(within, y.length - groups.size()), over(between, groups.size() - 1));
    }

    private static BigDecimal mean(List<BigDecimal> values) {
        return values.stream()
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .divide(BigDecimal.valueOf(values.size()), DIGITS);
    }

    private static double over(BigDecimal sum, int n) {
        return sum.divide(BigDecimal.valueOf(n), DIGITS).doubleValue();
    }
}
