package splitledger.report;

import java.util.Collection;

/** Numbers as cells whose decimal points stand in line. */
final class Cells {
    private static final int ENOUGH = 3;

    private Cells() {}

    /** A printed number split before its decimal point. */
    static Page.Cell of(String number) {
        final int mantissa = number.indexOf(' ');
        final int end = mantissa < 0 ? number.length() : mantissa;
        final int point = number.indexOf('.');
        final int split = point < 0 ? end : point;
        return new Page.Cell(number.substring(0, split), number.substring(split));
    }

    /** The room that the longest tail needs, in digits. */
    static int width(Collection<Page.Cell> column) {
        return column.stream()
                .mapToInt(c -> c.tail().codePointCount(0, c.tail().length()))
                .max()
                .orElse(0);
    }

    /** A plain number: very small probabilities as a bound, uncertainties to two digits. */
    static String statistic(String quantity, double value) {
        final boolean probability = quantity.endsWith("-p") || quantity.equals("p");
        if (probability && value >= 0 && value < 0.0001) {
            return "< 0.0001";
        }
        if (quantity.endsWith("uncertainty")) {
            return Rounded.alone(value, 2).valueText();
        }
        if (quantity.equals("coverage-factor")) {
            return Wording.decimals(value, 2);
        }
        if (quantity.equals("r-squared")) {
            return Rounded.alone(value, ENOUGH + 3).value();
        }
        return probability
                ? Rounded.alone(value, ENOUGH).valueText()
                : Rounded.alone(value).valueText();
    }
}
