package splitledger.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import splitledger.base.Numbers;
import splitledger.study.Answer;
import splitledger.study.Criterion;
import splitledger.study.Key;

/**
 * Words for names. Files keep the names; pages speak. What has no entry is its name with spaces for
 * hyphens.
 */
final class Wording {
    private static final Map<String, String> QUANTITIES = load("quantities.tsv");
    private static final Map<String, Integer> RANKS = ranks(QUANTITIES.keySet());

    private Wording() {}

    /** What a quantity is, if the list of words has it. */
    static Optional<String> known(String name) {
        return Optional.ofNullable(QUANTITIES.get(name));
    }

    /** What a quantity is. */
    static String quantity(String name) {
        return Optional.ofNullable(QUANTITIES.get(name)).orElseGet(() -> plain(name));
    }

    /**
     * Where a quantity stands among others: in the order of the list of words, unknown ones last.
     */
    static int rank(String quantity) {
        return RANKS.getOrDefault(quantity, RANKS.size());
    }

    /** Under which conditions; empty for none. */
    static String condition(Key key) {
        return key.condition().entrySet().stream()
                .map(e -> condition(e.getKey(), e.getValue()))
                .collect(Collectors.joining(", "));
    }

    private static String condition(String name, String value) {
        return switch (name) {
            case "ratio" -> "split ratio " + value;
            case "reference" -> "relative to " + value;
            case "calibration" ->
                    "kept".equals(value) ? "with this calibration kept" : "calibration " + value;
            case "kind" ->
                    switch (value) {
                        case "procedure" -> "of the whole procedure";
                        case "reference-material" -> "from the reference material";
                        case "transfer" -> "of the transfer";
                        default -> plain(value);
                    };
            case "inlet-temperature" -> "inlet at " + value + " °C";
            case "factor" -> "factor: " + plain(value);
            case "source" -> "half the uncertainty of " + value;
            case "replicates" -> "twice as many " + plain(value);
            case "alpha", "risk" -> "risk " + value;
            default -> plain(name) + " " + value;
        };
    }

    /** How, in words; empty if there is nothing to tell. */
    static String method(String name) {
        return switch (name) {
            case "fieller" -> "Fieller's method";
            case "first-order" -> "law of propagation, first order";
            case "moments" -> "analysis of variance, moments";
            case "reml" -> "restricted likelihood (REML)";
            case "algorithm-A" -> "algorithm A";
            case "detrended-log-areas" ->
                    "logarithms of areas within preparations, drift taken off";
            case "within-conditions" -> "slope within sets of conditions";
            case "within-preparations" -> "slope within preparations";
            default -> name.replace("^2", "²");
        };
    }

    /** A requirement. */
    static String requirement(Criterion criterion) {
        if (criterion.limit() instanceof Criterion.Limit.Within w) {
            final String unit = unit(criterion.unit());
            return "within "
                    + Numbers.text(w.margin())
                    + (unit.isEmpty() ? "" : " " + unit)
                    + " of "
                    + Numbers.text(w.equals()).replace('-', '−')
                    + (unit.isEmpty() ? "" : " " + unit);
        }
        return criterion.text();
    }

    /** A unit beside a number; a ratio has none. */
    static String unit(String unit) {
        return "1".equals(unit) ? "" : unit.replace("degC", "°C");
    }

    /** Degrees of freedom. */
    static String degreesOfFreedom(double value) {
        if (Double.isInfinite(value)) {
            return "∞";
        }
        final boolean whole = value == Math.rint(value);
        return value >= 100 || whole ? Rounded.alone(Math.rint(value)).value() : decimals(value, 1);
    }

    /** A probability as percent. */
    static String percent(double probability) {
        return Rounded.alone(100 * probability).value() + " %";
    }

    /** A share of the variance in percent, in a sentence. */
    static String share(double percent) {
        final double size = Math.abs(percent);
        if (size < 0.1) {
            return "less than 0.1 %";
        }
        return decimals(percent, size < 10 ? 1 : 0) + " %";
    }

    /** So many decimals. */
    static String decimals(double value, int places) {
        return BigDecimal.valueOf(value)
                .setScale(places, RoundingMode.HALF_EVEN)
                .toPlainString()
                .replace('-', '−');
    }

    /** Why there is no more than a bound, or nothing; empty otherwise. */
    static String detail(Answer answer) {
        if (answer instanceof Answer.Bound b) {
            return b.detail();
        }
        return answer instanceof Answer.NotEstimable n ? n.detail() : "";
    }

    /** A name with spaces for hyphens. */
    static String plain(String name) {
        return name.replace('-', ' ').strip();
    }

    /** The text with a capital first letter, unless it begins with a symbol of one letter. */
    static String sentence(String text) {
        if (text.isEmpty() || (text.length() > 1 && !Character.isLetter(text.charAt(1)))) {
            return text;
        }
        final int first = text.codePointAt(0);
        return Character.toString(Character.toUpperCase(first))
                + text.substring(Character.charCount(first));
    }

    /** {@code 1 criterion}, {@code 2 criteria}. */
    static String count(int n, String one, String many) {
        return n + " " + (n == 1 ? one : many);
    }

    private static Map<String, String> load(String resource) {
        final Map<String, String> words = new LinkedHashMap<>();
        for (String line : Resources.text(resource).lines().toList()) {
            final int tab = line.indexOf('\t');
            if (tab > 0) {
                words.put(line.substring(0, tab), line.substring(tab + 1));
            }
        }
        return Collections.unmodifiableMap(words);
    }

    private static Map<String, Integer> ranks(Iterable<String> names) {
        final Map<String, Integer> ranks = new LinkedHashMap<>();
        names.forEach(name -> ranks.put(name, ranks.size()));
        return Collections.unmodifiableMap(ranks);
    }

    /** Text files beside the classes of this room. */
    static final class Resources {
        private Resources() {}

        static String text(String name) {
            try (InputStream in = Wording.class.getResourceAsStream(name)) {
                if (in == null) {
                    throw new IllegalStateException("the resource " + name + " is missing");
                }
                return new String(in.readAllBytes(), StandardCharsets.UTF_8);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
