package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import splitledger.base.Numbers;
import splitledger.propagation.Dimensions;
import splitledger.propagation.Expression;
import splitledger.propagation.Unit;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.Protocol.Measurand;

/**
 * Holds the unit that the inputs give against the unit of the measurand. A factor between them is
 * put in only where the equation has no number of its own that could be it; what does not fit is
 * said, and nothing is changed.
 */
final class EquationUnits {
    private static final String SOURCE = "units of the inputs as stated";
    private static final double SAME = 1e-9;

    private EquationUnits() {}

    /**
     * What came out.
     *
     * @param factor by which the equation's number is multiplied, 1 as a rule
     * @param choices decisions and what could not be checked
     * @param flags what does not fit
     */
    record Checked(double factor, List<Choice> choices, List<Flag> flags) {
        Checked {
            choices = List.copyOf(choices);
            flags = List.copyOf(flags);
        }
    }

    /**
     * Checks.
     *
     * @param units text of each symbol's unit; empty if it has none of its own
     */
    static Checked of(
            Measurand measurand, Expression equation, Function<String, Optional<String>> units) {
        final Optional<Unit> wanted = Unit.parse(one(measurand.unit()));
        final List<String> unknown = new ArrayList<>();
        for (String symbol : equation.symbols()) {
            final Optional<String> text = units.apply(symbol);
            if (text.flatMap(t -> Unit.parse(one(t))).isEmpty()) {
                unknown.add(text.map(t -> symbol + " in '" + t + "'").orElse(symbol));
            }
        }
        if (wanted.isEmpty()) {
            unknown.add("the result in '" + measurand.unit() + "'");
        }
        final Dimensions.Found found =
                Dimensions.of(equation, s -> units.apply(s).flatMap(t -> Unit.parse(one(t))));
        if (found instanceof Dimensions.Clash clash) {
            return flagged(measurand, clash.words() + "; nothing was converted");
        }
        if (!(found instanceof Dimensions.Known known) || wanted.isEmpty()) {
            return new Checked(1, List.of(unchecked(unknown)), List.of());
        }
        return known.unit().isLike(wanted.get())
                ? sized(measurand, equation, known.unit().factor() / wanted.get().factor())
                : flagged(
                        measurand,
                        "the units of the inputs do not give the unit of the result, '"
                                + measurand.unit()
                                + "'; nothing was converted");
    }

    private static Checked sized(Measurand measurand, Expression equation, double factor) {
        final double number = Math.abs(Dimensions.number(equation));
        final boolean written = Math.abs(number / factor - 1) < SAME;
        if (Math.abs(factor - 1) < SAME || written) {
            return new Checked(1, List.of(), List.of());
        }
        final double exact = near(factor);
        if (number != 1) {
            return flagged(
                    measurand,
                    "the units of the inputs ask for a factor of "
                            + Numbers.text(exact)
                            + " to give '"
                            + measurand.unit()
                            + "', and the numbers in the equation make "
                            + Numbers.text(number)
                            + "; nothing was converted");
        }
        return new Checked(
                exact,
                List.of(
                        new Choice(
                                Budgets.ID,
                                "",
                                "The equation is multiplied by "
                                        + Numbers.text(exact)
                                        + " to give the result in "
                                        + measurand.unit(),
                                "the units of the inputs give one of another size, and the equation holds no number"
                                        + " that converts it",
                                SOURCE)),
                List.of());
    }

    private static Choice unchecked(List<String> unknown) {
        return new Choice(
                Budgets.ID,
                "",
                "The units of the equation are not checked",
                unknown.isEmpty()
                        ? "a power that is not a whole number has no unit that is understood"
                        : "not understood: " + String.join(", ", unknown),
                SOURCE);
    }

    private static Checked flagged(Measurand measurand, String what) {
        return new Checked(
                1,
                List.of(),
                List.of(new Flag(measurand.place(), "units of " + measurand.name(), what)));
    }

    /** Products of powers of ten come out a last digit beside them. */
    private static double near(double factor) {
        return new java.math.BigDecimal(factor).round(new java.math.MathContext(12)).doubleValue();
    }

    private static String one(String unit) {
        return unit.equals("1") ? "" : unit;
    }
}
