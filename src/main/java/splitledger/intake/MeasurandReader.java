package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.Nearest;
import splitledger.propagation.Expression;
import splitledger.propagation.ExpressionException;
import splitledger.propagation.ExpressionParser;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Tree;
import splitledger.study.Where;

/** Reads the measurand: its equation and what the symbols stand for. */
final class MeasurandReader {
    private static final String FOUND = "found";
    private static final String COMBINED = "combined";

    private final Tree.Mapping tree;
    private final Reading reading;

    private MeasurandReader(Tree.Mapping tree, Reading reading) {
        this.tree = tree;
        this.reading = reading;
    }

    /** The measurand of a protocol; empty if it has none, or none that can be read. */
    static Optional<Protocol.Measurand> read(Tree.Mapping protocol, Reading reading) {
        final Optional<Tree> there = protocol.get("measurand");
        if (there.isEmpty() || !(there.get() instanceof Tree.Mapping tree)) {
            return Optional.empty();
        }
        final MeasurandReader reader = new MeasurandReader(tree, reading);
        final Map<String, Protocol.Input> inputs = reader.inputs();
        final String written = tree.text("equation").orElse("");
        final Optional<Protocol.Found> ready = ReadyEquations.found(written);
        if (ready.isPresent()) {
            reader.checkReady();
        } else {
            reader.checkEquation();
        }
        final Optional<Where> rows =
                tree.get("results-for")
                        .filter(Tree.Mapping.class::isInstance)
                        .filter(t -> !reading.touched(t.place()))
                        .map(t -> Where.of((Tree.Mapping) t));
        return Optional.of(
                new Protocol.Measurand(
                        tree.text("name").orElse("result"),
                        tree.text("unit").orElse("1"),
                        ready.isPresent() ? ReadyEquations.equation(inputs.keySet()) : written,
                        inputs,
                        CorrelationReader.read(tree, inputs, reading),
                        rows,
                        ready.orElse(Protocol.Found.AMOUNT),
                        new ReportingReader(
                                        tree,
                                        protocol.mapping("compounds").texts("targets"),
                                        reading)
                                .read(),
                        tree.place()));
    }

    /** Inputs that a ready equation has no place for. */
    private void checkReady() {
        tree.mapping("inputs")
                .entries()
                .forEach(
                        (symbol, input) -> {
                            if (!ReadyEquations.inputs().contains(symbol)) {
                                reading.problem(
                                        input.place(),
                                        "the input '"
                                                + symbol
                                                + "', which a ready equation does not have",
                                        String.join(", ", ReadyEquations.inputs()),
                                        "use one of these names, or write the equation out");
                            }
                        });
    }

    private Map<String, Protocol.Input> inputs() {
        final Map<String, Protocol.Input> inputs = new LinkedHashMap<>();
        for (Map.Entry<String, Tree> e : tree.mapping("inputs").entries().entrySet()) {
            final boolean named = checkSymbol(e.getKey(), e.getValue().place());
            if (named && !reading.touched(e.getValue().place())) {
                InputReader.read(e.getValue(), reading).ifPresent(i -> inputs.put(e.getKey(), i));
            }
        }
        return inputs;
    }

    private boolean checkSymbol(String symbol, Place place) {
        if (symbol.equals(FOUND)
                || symbol.equals(COMBINED)
                || ExpressionParser.isFunction(symbol)) {
            reading.problem(
                    place,
                    "the symbol '" + symbol + "', which has a meaning already",
                    "a symbol of your own",
                    "give the input another name, here and in the equation");
            return false;
        }
        if (!symbol.matches("[\\p{L}_][\\p{L}\\p{Nd}_]*")) {
            reading.problem(
                    place,
                    "the symbol '" + symbol + "'",
                    "letters, digits and underscore, a letter first",
                    "give the input another name, here and in the equation");
            return false;
        }
        return true;
    }

    private void checkEquation() {
        final Optional<Tree> there = tree.get("equation");
        if (there.isEmpty()
                || !(there.get() instanceof Tree.Scalar scalar)
                || reading.touched(scalar.place())) {
            return;
        }
        try {
            checkSymbols(ExpressionParser.parse(scalar.text()), scalar);
        } catch (ExpressionException e) {
            reading.problem(
                    scalar.place(),
                    "'" + scalar.text() + "', wrong " + e.getMessage(),
                    "ordinary algebra: + - * / ^, parentheses, exp, ln, log10, sqrt, symbols",
                    "look at character " + e.position());
        }
    }

    private void checkSymbols(Expression equation, Tree.Scalar scalar) {
        final Map<String, Tree> inputs = tree.mapping("inputs").entries();
        final List<String> known = new ArrayList<>(inputs.keySet());
        known.add(FOUND);
        for (String symbol : equation.symbols()) {
            if (!known.contains(symbol)) {
                reading.problem(
                        scalar.place(),
                        "the symbol '"
                                + symbol
                                + "' at character "
                                + position(scalar.text(), symbol)
                                + ", which is no input",
                        "symbols that stand under inputs, or found",
                        Nearest.hint(symbol, known));
            }
        }
        inputs.forEach(
                (symbol, input) -> {
                    if (!equation.symbols().contains(symbol) && !symbol.equals(FOUND)) {
                        reading.problem(
                                input.place(),
                                "the input '" + symbol + "', which the equation does not use",
                                "inputs that the equation uses",
                                "use it in the equation, or take it out");
                    }
                });
    }

    /** 1-based place of a symbol that stands in the text as a whole word. */
    private static int position(String text, String symbol) {
        int at = text.indexOf(symbol);
        while (at >= 0) {
            final int end = at + symbol.length();
            final boolean before = at > 0 && isWord(text.charAt(at - 1));
            final boolean after = end < text.length() && isWord(text.charAt(end));
            if (!before && !after) {
                return at + 1;
            }
            at = text.indexOf(symbol, at + 1);
        }
        return 1;
    }

    private static boolean isWord(char c) {
        return Character.isLetterOrDigit(c) || c == '_';
    }
}
