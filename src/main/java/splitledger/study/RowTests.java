package splitledger.study;

import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.regex.Pattern;

/**
 * Conditions of a block {@code where} as tests of rows of a table.
 *
 * @param table whose rows they are
 */
record RowTests(InjectionTable table) {
    private static final Pattern DECIMAL = Pattern.compile("[-+.0-9eE]+");

    /** Whether a row meets a condition. */
    IntPredicate of(Where.Condition condition) {
        final String column = condition.column();
        if (condition instanceof Where.Within within) {
            return row -> {
                final double v = table.number(column, row);
                return v >= within.atLeast() && v <= within.atMost();
            };
        }
        if (condition instanceof Where.OneOf some) {
            return isOneOf(column, some.labels());
        }
        return isOneOf(column, ((Where.NoneOf) condition).labels()).negate();
    }

    private IntPredicate isOneOf(String column, List<String> wanted) {
        final Optional<Doubles> found = table.numbers(column);
        if (found.isPresent()) {
            final Doubles numbers = found.get();
            final double[] values = wanted.stream().mapToDouble(RowTests::decimal).toArray();
            return row -> {
                for (double value : values) {
                    if (numbers.at(row) == value) {
                        return true;
                    }
                }
                return false;
            };
        }
        final Optional<InjectionTable.Labels> labels = table.labels(column);
        if (labels.isEmpty()) {
            return row -> wanted.contains("");
        }
        final InjectionTable.Labels own = labels.get();
        final boolean[] meant = new boolean[own.labels().size()];
        for (int code = 0; code < meant.length; code++) {
            meant[code] = wanted.contains(own.labels().get(code));
        }
        return row -> meant[own.codes().at(row)];
    }

    /**
     * A plain decimal number; NaN, which equals nothing, for any other text (Java reads 1d too).
     */
    private static double decimal(String text) {
        if (!DECIMAL.matcher(text).matches()) {
            return Double.NaN;
        }
        try {
            return Double.parseDouble(text);
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }
}
