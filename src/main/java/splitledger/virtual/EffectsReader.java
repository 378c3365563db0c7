package splitledger.virtual;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import splitledger.base.Nearest;

/** Reads the parts of a design that it need not have; see {@link Effects}. */
final class EffectsReader {
    private static final double MOST_SCATTER = 30;
    private static final double HOTTEST = 1000;
    private static final double ABSOLUTE_ZERO = -273;

    private EffectsReader() {}

    static Effects.Needle needle(Fields top) {
        if (!top.has("needle")) {
            return new Effects.Needle(
                    Parameter.absent(0, "%"),
                    Parameter.absent(0, "degC"),
                    Parameter.absent(1, "degC"));
        }
        final Fields f = top.fields("needle");
        final Effects.Needle needle =
                new Effects.Needle(
                        f.parameter("loss", "%", 0, 100),
                        f.parameter("midpoint", "degC", ABSOLUTE_ZERO, HOTTEST),
                        f.parameter("width", "degC", 1, HOTTEST));
        f.done();
        return needle;
    }

    static Effects.Split split(Fields top) {
        final Fields f = top.optionalFields("split");
        final Effects.Convention table =
                word(
                        f,
                        "table",
                        Effects.Convention.TOTAL_TO_COLUMN,
                        Effects.Convention.values(),
                        Effects.Convention::code);
        final Fields low = f.optionalFields("low-ratio");
        final Effects.Split split =
                new Effects.Split(
                        table,
                        word(
                                f,
                                "protocol",
                                table,
                                Effects.Convention.values(),
                                Effects.Convention::code),
                        word(
                                f,
                                "columns",
                                Effects.Columns.RATIO,
                                Effects.Columns.values(),
                                Effects.Columns::code),
                        f.optional("meter-gain", "%", 0, MOST_SCATTER, 0),
                        f.optional("column-flow", "%", 0, MOST_SCATTER, 0),
                        f.optional("exponent", "1", 0.5, 1.5, 1),
                        f.optional("exponent-slope", "1/(100 degC)", -0.5, 0.5, 0),
                        f.optional("exponent-at", "degC", ABSOLUTE_ZERO, HOTTEST, 0),
                        low.optional("below", "1", 1, 10_000, 1),
                        low.optional("deviation", "%", 0, 90, 0),
                        f.optional("leak", "1", 0, 100, 0));
        low.done();
        f.done();
        return split;
    }

    static List<Effects.Stock> stocks(Fields top, Collection<String> levels) {
        final Fields f = top.optionalFields("stocks");
        final Map<String, String> stockOf = new TreeMap<>();
        final List<Effects.Stock> stocks = new ArrayList<>();
        f.each(
                name -> {
                    final Fields one = f.fields(name);
                    final List<String> made = one.texts("levels");
                    for (String level : made) {
                        if (!levels.contains(level)) {
                            one.wrong(
                                    one.at("levels"),
                                    "'" + level + "'",
                                    "a level of the design",
                                    Nearest.hint(level, levels));
                        }
                        final String other = stockOf.putIfAbsent(level, name);
                        if (other != null) {
                            one.wrong(
                                    one.at("levels"),
                                    "'" + level + "' of two stocks",
                                    "one stock for a level",
                                    "it is of '" + other + "' already");
                        }
                    }
                    stocks.add(
                            new Effects.Stock(
                                    name, made, one.parameter("mass", "%", 0, MOST_SCATTER)));
                    one.done();
                    return name;
                });
        return stocks;
    }

    static Effects.Mishaps mishaps(Fields top) {
        final Fields f = top.optionalFields("mishaps");
        final Fields outliers = f.optionalFields("outliers");
        final Effects.Mishaps mishaps =
                new Effects.Mishaps(
                        outliers.optional("probability", "%", 0, 50, 0),
                        outliers.optional("size", "%", 0, 99, 0),
                        f.optional("missing", "%", 0, 50, 0),
                        f.optional("aborted", "%", 0, 50, 0),
                        f.text("re-injected-as", ""),
                        f.optional("lost-preparations", "%", 0, 50, 0));
        outliers.done();
        f.done();
        return mishaps;
    }

    static <T> T word(Fields f, String key, T otherwise, T[] values, Function<T, String> code) {
        final String met = f.text(key, code.apply(otherwise));
        for (T value : values) {
            if (code.apply(value).equals(met)) {
                return value;
            }
        }
        final List<String> known = Arrays.stream(values).map(code).toList();
        f.wrong(
                f.at(key),
                "'" + met + "'",
                "one of " + String.join(", ", known),
                Nearest.hint(met, known));
        return otherwise;
    }
}
