package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.propagation.Shape;
import splitledger.statistics.Quantiles;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/**
 * Reads a stated value: with a standard uncertainty, with limits, with the expanded uncertainty of
 * a certificate, as a mean under a known standard deviation, or exact. What is stated in percent is
 * taken relative to the value.
 */
final class GivenReader {
    private static final String VALUE = "value";
    private static final String HALF_WIDTH = "half-width";
    private static final String TOP = "top-half-width";
    private static final String STANDARD = "standard-uncertainty";
    private static final String EXPANDED = "expanded";
    private static final String FACTOR = "k";
    private static final String COVERAGE = "coverage";
    private static final String DEVIATION = "standard-deviation";
    private static final String MEAN = "mean-of";
    private static final String FREEDOM = "degrees-of-freedom";
    private static final String SHAPE = "shape";
    private static final String SOURCE = "source";
    private static final String NORMAL = "normal";
    private static final List<String> WITHOUT_ENDS = List.of(NORMAL, "t", "lognormal", "gamma");

    private final Tree.Mapping tree;
    private final Reading reading;

    GivenReader(Tree.Mapping tree, Reading reading) {
        this.tree = tree;
        this.reading = reading;
    }

    /** The value; empty, with a problem, if its parts do not fit together. */
    Optional<Protocol.Input> read() {
        final Optional<Quantity> value = Quantity.of(tree, VALUE, reading);
        if (has(HALF_WIDTH)) {
            return fits(value, HALF_WIDTH, SHAPE, TOP, FREEDOM).flatMap(this::betweenLimits);
        }
        if (has(EXPANDED)) {
            return fits(value, EXPANDED, FACTOR, COVERAGE, FREEDOM).flatMap(this::certified);
        }
        if (has(DEVIATION)) {
            return fits(value, DEVIATION, MEAN, FREEDOM)
                    .flatMap(v -> beside(v, DEVIATION).map(s -> mean(v, s)));
        }
        if (has(STANDARD)) {
            return fits(value, STANDARD, FREEDOM, SHAPE).flatMap(this::standard);
        }
        return fits(value).map(v -> of(v, 0, new Shape.Normal(), Double.POSITIVE_INFINITY));
    }

    /** The value, if no keys but these and those of every value are there. */
    private Optional<Quantity> fits(Optional<Quantity> value, String... keys) {
        final List<String> all = new ArrayList<>(List.of(VALUE));
        all.addAll(List.of(keys));
        all.addAll(
                List.of(
                        SOURCE,
                        InputReader.EFFECT,
                        InputReader.ACTS_ON,
                        InputReader.DIFFERS,
                        InputReader.DISJOINT));
        final String[] allowed = all.toArray(String[]::new);
        return InputReader.alone(tree, reading, allowed) ? value : Optional.empty();
    }

    private Optional<Protocol.Input> standard(Quantity value) {
        final Optional<Quantity> u = beside(value, STANDARD);
        final String code = tree.text(SHAPE).orElse(NORMAL);
        if (!WITHOUT_ENDS.contains(code)) {
            tell(
                    SHAPE,
                    "'" + code + "' beside a standard uncertainty",
                    String.join(", ", WITHOUT_ENDS),
                    "give the half-width between the limits instead");
            return Optional.empty();
        }
        if (code.equals("t") && !has(FREEDOM)) {
            tell(SHAPE, "'t' without degrees-of-freedom", "both", "add degrees-of-freedom");
            return Optional.empty();
        }
        if (u.isEmpty() || code.equals(NORMAL) || code.equals("t")) {
            return u.map(q -> of(value, q.value(), new Shape.Normal(), freedom()));
        }
        if (!(value.value() > 0 && u.get().value() > 0)) {
            tell(
                    SHAPE,
                    "'" + code + "' of a value or an uncertainty that is not above 0",
                    "a positive value with its uncertainty",
                    "use the normal shape");
            return Optional.empty();
        }
        final double relative = u.get().value() / value.value();
        final Shape shape =
                code.equals("gamma") ? new Shape.Gamma(relative) : new Shape.Lognormal(relative);
        return Optional.of(of(value, u.get().value(), shape, freedom()));
    }

    /** U / k; without k from the stated coverage of a normal or, with degrees of freedom, a t. */
    private Optional<Protocol.Input> certified(Quantity value) {
        final Optional<Quantity> expanded = beside(value, EXPANDED);
        if (has(FACTOR) == has(COVERAGE)) {
            tell(
                    EXPANDED,
                    has(FACTOR) ? "k and coverage" : "an expanded uncertainty without k",
                    "k, or the coverage probability, one of them",
                    "the certificate states k, or a coverage probability such as 0.95");
            return Optional.empty();
        }
        final double k =
                tree.number(FACTOR)
                        .orElseGet(
                                () ->
                                        Quantiles.coverageFactor(
                                                tree.number(COVERAGE).orElse(0.95), freedom()));
        if (!has(FACTOR)) {
            reading.choice(
                    tree.place().path() + " is divided by " + (has(FREEDOM) ? "t" : "the normal k"),
                    "the certificate states a coverage probability and no k",
                    "JCGM 100:2008, 4.3.4");
        }
        return expanded.map(u -> of(value, u.value() / k, new Shape.Normal(), freedom()));
    }

    private Protocol.Input mean(Quantity value, Quantity deviation) {
        final double n = tree.number(MEAN).orElse(1);
        return of(value, deviation.value() / Math.sqrt(n), new Shape.Normal(), freedom());
    }

    private Optional<Protocol.Input> betweenLimits(Quantity value) {
        final Optional<Quantity> half = beside(value, HALF_WIDTH);
        final Optional<String> stated = tree.text(SHAPE);
        final String code = stated.orElse(has(TOP) ? "trapezoidal" : "rectangular");
        if (WITHOUT_ENDS.contains(code)) {
            tell(
                    SHAPE,
                    "'" + code + "' beside a half-width",
                    "rectangular, triangular, trapezoidal or arcsine",
                    "a " + code + " shape has no ends: give the standard uncertainty instead");
            return Optional.empty();
        }
        if (stated.isEmpty() && !has(TOP)) {
            reading.choice(
                    tree.place().path() + " is taken as rectangular",
                    "only the half-width between its limits is stated",
                    "JCGM 100:2008, 4.3.7");
        }
        if (half.isEmpty()) {
            return Optional.empty();
        }
        return shape(code, value, half.get())
                .map(s -> of(value, half.get().value() / s.halfWidthInDeviations(), s, freedom()));
    }

    private Optional<Shape> shape(String code, Quantity value, Quantity half) {
        if (code.equals("trapezoidal") != has(TOP)) {
            tell(
                    TOP,
                    has(TOP) ? "top-half-width of a shape without top" : "a trapezium without top",
                    "top-half-width beside the shape trapezoidal",
                    "half the width over which all values are alike");
            return Optional.empty();
        }
        if (!has(TOP)) {
            return Optional.of(
                    switch (code) {
                        case "triangular" -> new Shape.Triangular();
                        case "arcsine" -> new Shape.Arcsine();
                        default -> new Shape.Rectangular();
                    });
        }
        final Optional<Quantity> top = beside(value, TOP);
        if (top.isPresent() && !(top.get().value() <= half.value() && half.value() > 0)) {
            tell(TOP, "a top wider than the base", "no more than the half-width", "check both");
            return Optional.empty();
        }
        return top.map(t -> new Shape.Trapezoidal(t.value() / half.value()));
    }

    /** A size beside the value, in its unit; percent of a value in another unit is relative. */
    private Optional<Quantity> beside(Quantity value, String key) {
        return Quantity.ofSize(tree, key, reading)
                .flatMap(q -> value.sizeLike(q, tree, key, reading));
    }

    private Protocol.Input of(Quantity value, double u, Shape shape, double freedom) {
        return new Protocol.Given(
                value.value(),
                InputReader.orOne(value.unit()),
                u,
                shape,
                freedom,
                tree.text(SOURCE).orElse(""),
                InputReader.home(tree),
                tree.place());
    }

    private double freedom() {
        return tree.number(FREEDOM).orElse(Double.POSITIVE_INFINITY);
    }

    private void tell(String key, String found, String expected, String hint) {
        InputReader.tell(tree, reading, key, found, expected, hint);
    }

    private boolean has(String key) {
        return tree.get(key).isPresent();
    }
}
