package splitledger.intake;

import java.util.Optional;
import splitledger.propagation.Unit;
import splitledger.study.Tree;

/**
 * A number with its unit, as in {@code 10 mL}, {@code 2 %} or {@code 50.0 mg/L}.
 *
 * @param value the number
 * @param unit its unit as written; empty if none
 */
record Quantity(double value, String unit) {

    /** Reads an entry, if it is there; what is no quantity becomes a problem. */
    static Optional<Quantity> of(Tree.Mapping mapping, String key, Reading reading) {
        return mapping.get(key).flatMap(tree -> of(tree, reading));
    }

    /** Reads a scalar; what is no quantity becomes a problem. */
    static Optional<Quantity> of(Tree tree, Reading reading) {
        if (!(tree instanceof Tree.Scalar scalar)) {
            return Optional.empty();
        }
        final String text = scalar.text().strip();
        final int end = endOfNumber(text);
        final String unit = text.substring(end).strip();
        final double value = Cells.number(text.substring(0, end));
        if (Double.isNaN(value) || !isUnit(unit)) {
            reading.problem(
                    scalar.place(),
                    "'" + scalar.text() + "'",
                    "a finite number with its unit, such as 10 mL",
                    "write a dot as decimal mark and no thousands marks; the unit follows the"
                            + " number");
            return Optional.empty();
        }
        return Optional.of(new Quantity(value, unit));
    }

    /** Reads an entry that must not be negative. */
    static Optional<Quantity> ofSize(Tree.Mapping mapping, String key, Reading reading) {
        final Optional<Quantity> quantity = of(mapping, key, reading);
        if (quantity.isPresent() && quantity.get().value() < 0) {
            final Tree tree = mapping.get(key).orElse(Tree.Mapping.EMPTY);
            reading.problem(
                    tree.place(),
                    "'" + mapping.text(key).orElse("") + "'",
                    "a number that is not negative",
                    "take the sign out");
            return Optional.empty();
        }
        return quantity;
    }

    /**
     * Whether a second quantity may stand beside this one: the same unit, or none. A problem if
     * not.
     */
    boolean agrees(Quantity other, Tree.Mapping mapping, String key, Reading reading) {
        if (other.unit.isEmpty() || other.unit.equals(unit)) {
            return true;
        }
        final Tree tree = mapping.get(key).orElse(Tree.Mapping.EMPTY);
        reading.problem(
                tree.place(),
                "the unit '" + other.unit + "'",
                unit.isEmpty()
                        ? "no unit, as at the value"
                        : "the unit of the value, '" + unit + "'",
                "write both in one unit");
        return false;
    }

    /**
     * A size (uncertainty, half-width) in the unit of this value: as it is, in a unit of another
     * prefix, or in percent of the value. A problem if the units do not fit.
     */
    Optional<Quantity> sizeLike(Quantity size, Tree.Mapping mapping, String key, Reading reading) {
        if (size.unit.equals("%") && !unit.equals("%")) {
            return Optional.of(new Quantity(size.value / 100 * Math.abs(value), unit));
        }
        final Optional<Unit> own = unit.isEmpty() ? Optional.empty() : Unit.parse(unit);
        final Optional<Unit> other = size.unit.isEmpty() ? Optional.empty() : Unit.parse(size.unit);
        if (own.isPresent() && other.isPresent() && own.get().isLike(other.get())) {
            final double factor = other.get().factor() / own.get().factor();
            return Optional.of(
                    new Quantity(size.unit.equals(unit) ? size.value : factor * size.value, unit));
        }
        return agrees(size, mapping, key, reading)
                ? Optional.of(new Quantity(size.value, unit))
                : Optional.empty();
    }

    private static int endOfNumber(String text) {
        int end = 0;
        for (int i = 1; i <= Math.min(text.length(), Limits.NUMBER_CHARS); i++) {
            if (Cells.isNumber(text.substring(0, i))) {
                end = i;
            }
        }
        return end;
    }

    /** A unit begins with no digit, sign, dot or comma: what does is a number gone wrong. */
    private static boolean isUnit(String unit) {
        return unit.isEmpty() || "0123456789.,'+-".indexOf(unit.charAt(0)) < 0;
    }
}
