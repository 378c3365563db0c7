package splitledger.cli;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import splitledger.base.Numbers;
import splitledger.propagation.Uncertain;

/** The lines of the plain table that {@code inlet} prints: name, value, unit, uncertainty, note. */
final class InletLines {
    private static final MathContext SHOWN = new MathContext(4);

    private final List<String> lines = new ArrayList<>();

    /** A line of words. */
    void words(String text) {
        lines.add(text);
    }

    /** All lines so far. */
    List<String> all() {
        return List.copyOf(lines);
    }

    /** A number without uncertainty. */
    void plain(String name, double value, String unit, String note) {
        row(name, Uncertain.exact(value, unit), note);
    }

    /** A number with its standard uncertainty, if it has one. */
    void row(String name, Uncertain x, String note) {
        final double u = x.standardUncertainty();
        lines.add(
                String.format(
                                Locale.ROOT,
                                "%-20s %10s %-7s %-12s %s",
                                name,
                                shown(x.value()),
                                x.unit().equals("1") ? "" : x.unit(),
                                u > 0
                                        ? "u "
                                                + new BigDecimal(u)
                                                        .round(new MathContext(2))
                                                        .toPlainString()
                                        : "",
                                note)
                        .stripTrailing());
    }

    /** Four significant digits. */
    static String shown(double value) {
        return Numbers.text(new BigDecimal(value).round(SHOWN).doubleValue());
    }
}
