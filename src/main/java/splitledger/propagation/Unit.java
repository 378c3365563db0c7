package splitledger.propagation;

import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A unit as a chemist writes it, taken apart: {@code mg/L}, {@code mg L-1}, {@code g/(L h)}, {@code
 * mg/100 g}, {@code %}. A temperature in degC is a dimension of its own, since a factor alone does
 * not turn it into K.
 *
 * @param factor size in the base units kg, m, s, mol, A, K
 * @param powers of the base units; those of power 0 are left out
 */
public record Unit(double factor, SortedMap<String, Integer> powers) {
    /** A pure number. */
    public static final Unit ONE = new Unit(1, new TreeMap<>());

    private static final Map<String, Double> PREFIXES =
            Map.ofEntries(
                    Map.entry("", 1.0),
                    Map.entry("G", 1e9),
                    Map.entry("M", 1e6),
                    Map.entry("k", 1e3),
                    Map.entry("h", 1e2),
                    Map.entry("d", 1e-1),
                    Map.entry("c", 1e-2),
                    Map.entry("m", 1e-3),
                    Map.entry("u", 1e-6),
                    Map.entry("\u00b5", 1e-6),
                    Map.entry("\u03bc", 1e-6),
                    Map.entry("n", 1e-9),
                    Map.entry("p", 1e-12),
                    Map.entry("f", 1e-15));

    /** Those that take prefixes. */
    private static final Map<String, Unit> PREFIXED =
            Map.ofEntries(
                    Map.entry("g", base("kg").times(1e-3)),
                    Map.entry("L", base("m").raised(3).times(1e-3)),
                    Map.entry("l", base("m").raised(3).times(1e-3)),
                    Map.entry("m", base("m")),
                    Map.entry("s", base("s")),
                    Map.entry("mol", base("mol")),
                    Map.entry("M", base("mol").times(base("m").raised(-3)).times(1e3)),
                    Map.entry("A", base("A")),
                    Map.entry("K", base("K")),
                    Map.entry("V", volt()),
                    Map.entry("ohm", volt().times(base("A").raised(-1))),
                    Map.entry("\u03a9", volt().times(base("A").raised(-1))),
                    Map.entry("Bq", base("s").raised(-1)),
                    Map.entry("Hz", base("s").raised(-1)),
                    Map.entry("N", newton()),
                    Map.entry("J", newton().times(base("m"))),
                    Map.entry("W", newton().times(base("m")).times(base("s").raised(-1))),
                    Map.entry("Pa", newton().times(base("m").raised(-2))),
                    Map.entry("bar", newton().times(base("m").raised(-2)).times(1e5)));

    private static final Map<String, Unit> ALONE =
            Map.ofEntries(
                    Map.entry("%", ONE.times(1e-2)),
                    Map.entry("\u2030", ONE.times(1e-3)),
                    Map.entry("ppm", ONE.times(1e-6)),
                    Map.entry("ppb", ONE.times(1e-9)),
                    Map.entry("min", base("s").times(60)),
                    Map.entry("h", base("s").times(3600)),
                    Map.entry("d", base("s").times(86400)),
                    Map.entry("t", base("kg").times(1000)),
                    Map.entry("atm", newton().times(base("m").raised(-2)).times(101325)),
                    Map.entry("degC", base("degC")),
                    Map.entry("\u00b0C", base("degC")));

    private static final Pattern FACTOR =
            Pattern.compile(
                    "\\s*(?:([0-9]+(?:\\.[0-9]+)?)|([\\p{L}%\u2030\u00b0]+)(?:\\^?([-\u2212]?[0-9]))?)\\s*");

    public Unit {
        powers = java.util.Collections.unmodifiableSortedMap(new TreeMap<>(powers));
    }

    /** The unit; empty if any part of it is not understood. An empty text is a pure number. */
    public static Optional<Unit> parse(String text) {
        final Reader reader = new Reader(text.strip());
        final Optional<Unit> unit = text.isBlank() ? Optional.of(ONE) : reader.product();
        return unit.filter(u -> text.isBlank() || reader.at == reader.text.length());
    }

    /** Whether both are of one kind, so that a factor turns one into the other. */
    public boolean isLike(Unit other) {
        return powers.equals(other.powers);
    }

    /** Product. */
    public Unit times(Unit other) {
        final SortedMap<String, Integer> sum = new TreeMap<>(powers);
        other.powers.forEach((name, power) -> sum.merge(name, power, Integer::sum));
        sum.values().removeIf(p -> p == 0);
        return new Unit(factor * other.factor, sum);
    }

    /** So many of it. */
    public Unit times(double number) {
        return new Unit(factor * number, powers);
    }

    /** A power. */
    public Unit raised(int power) {
        Unit result = ONE;
        for (int i = 0; i < Math.abs(power); i++) {
            result = result.times(this);
        }
        return power >= 0 ? result : result.inverse();
    }

    /** One over it. */
    public Unit inverse() {
        final SortedMap<String, Integer> negative = new TreeMap<>();
        powers.forEach((name, power) -> negative.put(name, -power));
        return new Unit(1 / factor, negative);
    }

    private static Unit base(String name) {
        final SortedMap<String, Integer> one = new TreeMap<>();
        one.put(name, 1);
        return new Unit(1, one);
    }

    private static Unit newton() {
        return base("kg").times(base("m")).times(base("s").raised(-2));
    }

    private static Unit volt() {
        return newton().times(base("m")).times(base("s").raised(-1)).times(base("A").raised(-1));
    }

    private static Optional<Unit> named(String word) {
        if (ALONE.containsKey(word)) {
            return Optional.ofNullable(ALONE.get(word));
        }
        for (int split = 0; split <= Math.min(1, word.length() - 1); split++) {
            final Double prefix = PREFIXES.get(word.substring(0, split));
            final Unit unit = PREFIXED.get(word.substring(split));
            if (prefix != null && unit != null) {
                return Optional.of(unit.times(prefix));
            }
        }
        return Optional.empty();
    }

    /** Walks a text of factors, points and slashes. */
    private static final class Reader {
        private final String text;
        private int at;

        Reader(String text) {
            this.text = text;
        }

        Optional<Unit> product() {
            // /degC is 1/degC
            Optional<Unit> all = text.startsWith("/", at) ? Optional.of(ONE) : factor();
            while (all.isPresent() && at < text.length() && text.charAt(at) != ')') {
                final char c = text.charAt(at);
                final boolean over = c == '/';
                if (over || c == '*' || c == '\u00b7' || c == '\u22c5') {
                    at++;
                }
                final Unit before = all.get();
                // 100 in mg/100 g belongs to the g that follows
                final Optional<Unit> next = over ? divisor() : factor();
                all = next.map(u -> before.times(over ? u.inverse() : u));
            }
            return all;
        }

        private Optional<Unit> divisor() {
            final boolean number = at < text.length() && Character.isDigit(skipped());
            final Optional<Unit> first = factor();
            final boolean more = at < text.length() && Character.isLetter(text.charAt(at));
            return number && more
                    ? first.flatMap(n -> factor().map(u -> u.times(n.factor())))
                    : first;
        }

        private char skipped() {
            while (at < text.length() - 1 && text.charAt(at) == ' ') {
                at++;
            }
            return text.charAt(at);
        }

        private Optional<Unit> factor() {
            if (at < text.length() && skipped() == '(') {
                at++;
                final Optional<Unit> inner = product();
                final boolean closed = at < text.length() && text.charAt(at) == ')';
                at++;
                return closed ? inner : Optional.empty();
            }
            final Matcher m = FACTOR.matcher(text).region(at, text.length());
            if (!m.lookingAt()) {
                return Optional.empty();
            }
            at = m.end();
            if (m.group(1) != null) {
                return Optional.of(ONE.times(Double.parseDouble(m.group(1))));
            }
            final String power = m.group(3) == null ? "1" : m.group(3).replace('\u2212', '-');
            return named(m.group(2)).map(u -> u.raised(Integer.parseInt(power)));
        }
    }
}
