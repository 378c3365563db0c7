package splitledger.intake;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Units of measurement: products and quotients of the few that occur on this bench, such as {@code
 * mg/L}, {@code pA*s} or {@code mL/min}. Factors are exact; those of psi, atm and Torr are defined
 * so (from memory: NIST Special Publication 811).
 *
 * @param factor to the unit of its kind from which all others are counted
 * @param offset added after the factor; 0 but for temperatures
 * @param kind powers by base
 */
record Units(BigDecimal factor, BigDecimal offset, SortedMap<String, Integer> kind) {
    private static final Map<String, String> PREFIXES =
            Map.ofEntries(
                    Map.entry("k", "1e3"),
                    Map.entry("h", "1e2"),
                    Map.entry("M", "1e6"),
                    Map.entry("d", "1e-1"),
                    Map.entry("c", "1e-2"),
                    Map.entry("m", "1e-3"),
                    Map.entry("u", "1e-6"),
                    Map.entry("n", "1e-9"),
                    Map.entry("p", "1e-12"),
                    Map.entry("f", "1e-15"));

    /** Unit, then factor and base; those that take prefixes have a + before. */
    private static final Map<String, String[]> KNOWN =
            Map.ofEntries(
                    known("g", "+1", "mass"),
                    known("t", "1e6", "mass"),
                    known("L", "+1", "volume"),
                    known("l", "+1", "volume"),
                    known("cm3", "1e-3", "volume"),
                    known("m3", "1e3", "volume"),
                    known("mol", "+1", "substance"),
                    known("s", "+1", "time"),
                    known("min", "60", "time"),
                    known("h", "3600", "time"),
                    known("A", "+1", "current"),
                    known("V", "+1", "voltage"),
                    known("Hz", "+1", "frequency"),
                    known("counts", "1", "counts"),
                    known("Pa", "+1", "pressure"),
                    known("bar", "+1e5", "pressure"),
                    known("psi", "6894.757293168361", "pressure"),
                    known("atm", "101325", "pressure"),
                    known("K", "1", "temperature"),
                    known("degC", "1", "temperature"),
                    known("degF", "0.55555555555555555556", "temperature"),
                    known("%", "0.01", ""),
                    known("1", "1", ""));

    private static Map.Entry<String, String[]> known(String unit, String factor, String base) {
        return Map.entry(unit, new String[] {factor, base});
    }

    private static final int LONGEST = 40;

    /** A unit as written; empty if it is not known here. */
    static Optional<Units> of(String written) {
        final String text = plain(written);
        if (text.isEmpty() || text.length() > LONGEST) {
            return Optional.empty();
        }
        BigDecimal factor = BigDecimal.ONE;
        final SortedMap<String, Integer> kind = new TreeMap<>();
        final String[] quotients = text.split("/", -1);
        for (int q = 0; q < quotients.length; q++) {
            for (String part : quotients[q].split("\\*", -1)) {
                final Optional<Map.Entry<String, BigDecimal>> one = single(part);
                if (one.isEmpty()) {
                    return Optional.empty();
                }
                final int power = q == 0 ? 1 : -1;
                factor =
                        power > 0
                                ? factor.multiply(one.get().getValue())
                                : factor.divide(one.get().getValue(), MathContext.DECIMAL128);
                if (!one.get().getKey().isEmpty()) {
                    kind.merge(one.get().getKey(), power, Integer::sum);
                }
            }
        }
        kind.values().removeIf(p -> p == 0);
        return Optional.of(new Units(factor.stripTrailingZeros(), offset(text), kind));
    }

    private static String plain(String written) {
        final String text =
                written.strip()
                        .replace('\u00b5', 'u')
                        .replace('\u03bc', 'u')
                        .replace("\u00b0", "deg")
                        .replace('\u00b7', '*')
                        .replace('\u2219', '*')
                        .replace(" ", "");
        return text.equals("areacounts") ? "counts" : text;
    }

    private static BigDecimal offset(String text) {
        return switch (text) {
            case "degC" -> new BigDecimal("273.15");
            case "degF" -> new BigDecimal("255.37222222222222222222");
            default -> BigDecimal.ZERO;
        };
    }

    private static Optional<Map.Entry<String, BigDecimal>> single(String part) {
        final String[] whole = KNOWN.get(part);
        if (whole != null) {
            return Optional.of(Map.entry(whole[1], new BigDecimal(whole[0].replace("+", ""))));
        }
        if (part.length() < 2) {
            return Optional.empty();
        }
        final String prefix = PREFIXES.get(part.substring(0, 1));
        final String[] base = KNOWN.get(part.substring(1));
        if (prefix == null || base == null || base[0].charAt(0) != '+') {
            return Optional.empty();
        }
        return Optional.of(
                Map.entry(
                        base[1],
                        new BigDecimal(base[0].substring(1)).multiply(new BigDecimal(prefix))));
    }

    /** How numbers of this unit become numbers of another; empty if they are of another kind. */
    Optional<Conversion> to(Units other) {
        if (!kind.equals(other.kind)) {
            return Optional.empty();
        }
        final BigDecimal times = factor.divide(other.factor, MathContext.DECIMAL128);
        final BigDecimal by = other.factor.divide(factor, MathContext.DECIMAL128);
        final BigDecimal plus =
                offset.subtract(other.offset).divide(other.factor, MathContext.DECIMAL128);
        final boolean whole = times.compareTo(BigDecimal.ONE) < 0 && isWhole(by);
        return Optional.of(
                whole
                        ? new Conversion(by.doubleValue(), true, plus.doubleValue())
                        : new Conversion(times.doubleValue(), false, plus.doubleValue()));
    }

    private static boolean isWhole(BigDecimal number) {
        return number.stripTrailingZeros().scale() <= 0;
    }

    /**
     * A conversion: the number times or divided by a factor, and something added. Whole factors are
     * divided by, so that 250 ug/L is exactly the double next to 0.25 mg/L.
     */
    record Conversion(double factor, boolean divides, double plus) {
        static final Conversion NONE = new Conversion(1, false, 0);

        double apply(double value) {
            final double scaled = divides ? value / factor : value * factor;
            return plus == 0 ? scaled : scaled + plus;
        }

        boolean isNone() {
            return factor == 1 && plus == 0;
        }

        /** In words. */
        String words() {
            return (divides ? "divided by " : "times ")
                    + splitledger.base.Numbers.text(factor)
                    + (plus == 0 ? "" : ", plus " + splitledger.base.Numbers.text(plus));
        }
    }
}
