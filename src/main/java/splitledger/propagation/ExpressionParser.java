package splitledger.propagation;

import java.util.Arrays;
import java.util.Optional;
import splitledger.propagation.Expression.Binary;
import splitledger.propagation.Expression.Call;
import splitledger.propagation.Expression.Constant;
import splitledger.propagation.Expression.FunctionName;
import splitledger.propagation.Expression.Negated;
import splitledger.propagation.Expression.Operator;
import splitledger.propagation.Expression.Symbol;

/**
 * Reads ordinary algebra: {@code + - * / ^}, parentheses, {@code exp ln log10 sqrt}, decimal
 * numbers, and symbols of letters, digits and underscore that begin with a letter. {@code ^} binds
 * to the right and before a sign: -a^2 = -(a^2).
 */
public final class ExpressionParser {
    private static final int LONGEST = 4000;
    private static final int DEEPEST = 200;

    private final String text;
    private int at;
    private int depth;

    private ExpressionParser(String text) {
        this.text = text;
    }

    /**
     * Reads an equation's right-hand side.
     *
     * @throws ExpressionException with the place, if it is not an equation of this form
     */
    public static Expression parse(String text) throws ExpressionException {
        if (text.length() > LONGEST) {
            throw new ExpressionException(
                    LONGEST, "the equation is longer than " + LONGEST + " characters");
        }
        final ExpressionParser parser = new ExpressionParser(text);
        final Expression whole = parser.sum();
        if (parser.peek() != 0) {
            throw parser.unexpected("an operator or the end");
        }
        return whole;
    }

    /** Whether a word names one of the functions and can therefore be no symbol. */
    public static boolean isFunction(String word) {
        return function(word).isPresent();
    }

    private Expression sum() throws ExpressionException {
        Expression left = product();
        while (true) {
            if (take('+')) {
                left = new Binary(Operator.PLUS, left, product());
            } else if (take('-')) {
                left = new Binary(Operator.MINUS, left, product());
            } else {
                return left;
            }
        }
    }

    private Expression product() throws ExpressionException {
        Expression left = signed();
        while (true) {
            if (take('*')) {
                left = new Binary(Operator.TIMES, left, signed());
            } else if (take('/')) {
                left = new Binary(Operator.OVER, left, signed());
            } else {
                return left;
            }
        }
    }

    private Expression signed() throws ExpressionException {
        deeper();
        try {
            if (take('-')) {
                return new Negated(signed());
            }
            return take('+') ? signed() : power();
        } finally {
            depth--;
        }
    }

    private Expression power() throws ExpressionException {
        final Expression base = atom();
        return take('^') ? new Binary(Operator.POWER, base, signed()) : base;
    }

    private Expression atom() throws ExpressionException {
        if (take('(')) {
            final Expression inner = sum();
            if (!take(')')) {
                throw unexpected("')'");
            }
            return inner;
        }
        final char c = peek();
        if ((c >= '0' && c <= '9') || c == '.') {
            return number();
        }
        if (isLetter(c)) {
            return named();
        }
        throw unexpected("a number, a symbol or '('");
    }

    private Expression number() throws ExpressionException {
        final int from = at;
        while (at < text.length() && isNumberPart(from)) {
            at++;
        }
        final String digits = text.substring(from, at);
        try {
            final double value = Double.parseDouble(digits);
            if (value < Double.POSITIVE_INFINITY) {
                return new Constant(value);
            }
        } catch (NumberFormatException e) {
            throw noNumber(from, digits);
        }
        throw noNumber(from, digits);
    }

    private static ExpressionException noNumber(int from, String found) {
        return new ExpressionException(from + 1, "found '" + found + "', expected a number");
    }

    private boolean isNumberPart(int from) {
        final char c = text.charAt(at);
        final boolean exponent =
                (c == 'e' || c == 'E') && text.substring(from, at).indexOf('e') < 0;
        final boolean sign =
                (c == '+' || c == '-') && at > from && "eE".indexOf(text.charAt(at - 1)) >= 0;
        return (c >= '0' && c <= '9') || c == '.' || exponent || sign;
    }

    private Expression named() throws ExpressionException {
        final int from = at;
        while (at < text.length()
                && (isLetter(text.charAt(at)) || Character.isDigit(text.charAt(at)))) {
            at++;
        }
        final String word = text.substring(from, at);
        final Optional<FunctionName> function = function(word);
        if (function.isEmpty()) {
            return new Symbol(word);
        }
        if (!take('(')) {
            throw unexpected("'(' after " + word);
        }
        final Expression argument = sum();
        if (!take(')')) {
            throw unexpected("')'");
        }
        return new Call(function.get(), argument);
    }

    private static Optional<FunctionName> function(String word) {
        return Arrays.stream(FunctionName.values()).filter(f -> f.word().equals(word)).findFirst();
    }

    private void deeper() throws ExpressionException {
        if (++depth > DEEPEST) {
            throw new ExpressionException(
                    at + 1, "the equation is nested more than " + DEEPEST + " deep");
        }
    }

    private boolean take(char wanted) {
        if (peek() == wanted) {
            at++;
            return true;
        }
        return false;
    }

    /** The next character that is no blank, 0 at the end. */
    private char peek() {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
        return at < text.length() ? text.charAt(at) : 0;
    }

    private ExpressionException unexpected(String expected) {
        final String found = peek() == 0 ? "the end" : "'" + peek() + "'";
        return new ExpressionException(at + 1, "found " + found + ", expected " + expected);
    }

    private static boolean isLetter(char c) {
        return Character.isLetter(c) || c == '_';
    }
}
