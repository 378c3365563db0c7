package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.statistics.Moments;
import splitledger.study.Doubles;
import splitledger.study.Protocol;
import splitledger.study.Tree;

/**
 * Reads an input that is the mean of readings: its standard deviation from the readings (n - 1
 * degrees of freedom), or one stated from elsewhere, for example pooled over earlier work.
 */
final class ReadingsReader {
    private static final String VALUES = "values";
    private static final String UNIT = "unit";
    private static final String DEVIATION = "standard-deviation";
    private static final String FREEDOM = "degrees-of-freedom";
    private static final String SOURCE = "source";

    private final Tree.Mapping tree;
    private final Reading reading;

    ReadingsReader(Tree.Mapping tree, Reading reading) {
        this.tree = tree;
        this.reading = reading;
    }

    /** The readings; empty, with a problem, if they do not fit together. */
    Optional<Protocol.Input> read() {
        final boolean alone =
                tree.get(DEVIATION).isPresent()
                        ? InputReader.alone(tree, reading, VALUES, UNIT, DEVIATION, FREEDOM, SOURCE)
                        : InputReader.alone(tree, reading, VALUES, UNIT, SOURCE);
        final List<Quantity> values = values();
        final boolean pooled = tree.get(DEVIATION).isPresent();
        if (!alone || values.isEmpty()) {
            return Optional.empty();
        }
        if (values.size() < 2 && !pooled) {
            InputReader.tell(
                    tree,
                    reading,
                    VALUES,
                    "one reading",
                    "two readings or more",
                    "one reading has no scatter: add standard-deviation with its degrees-of-freedom,"
                            + " or give value and standard-uncertainty");
            return Optional.empty();
        }
        final double[] numbers = values.stream().mapToDouble(Quantity::value).toArray();
        final Quantity first = values.get(0);
        if (!pooled) {
            final double sd = Math.sqrt(Moments.ofAll(numbers).variance());
            return Optional.of(readings(first, numbers, sd, numbers.length - 1, false));
        }
        return Quantity.ofSize(tree, DEVIATION, reading)
                .flatMap(q -> first.sizeLike(q, tree, DEVIATION, reading))
                .map(
                        sd ->
                                readings(
                                        first,
                                        numbers,
                                        sd.value(),
                                        tree.number(FREEDOM).orElse(Double.POSITIVE_INFINITY),
                                        true));
    }

    private Protocol.Input readings(
            Quantity first, double[] numbers, double sd, double freedom, boolean pooled) {
        return new Protocol.Readings(
                Doubles.of(numbers),
                InputReader.orOne(first.unit()),
                sd,
                freedom,
                pooled,
                tree.text(SOURCE).orElse(""),
                tree.place());
    }

    /** All readings in one unit; empty if one of them is no number in it. */
    private List<Quantity> values() {
        final String unit = tree.text(UNIT).orElse("");
        final List<Quantity> values = new ArrayList<>();
        boolean whole = true;
        if (tree.get(VALUES).orElse(tree) instanceof Tree.Sequence sequence) {
            for (Tree item : sequence.items()) {
                final Optional<Quantity> one =
                        Quantity.of(item, reading)
                                .map(
                                        q ->
                                                new Quantity(
                                                        q.value(),
                                                        q.unit().isEmpty() ? unit : q.unit()));
                final boolean alike =
                        one.isPresent()
                                && (values.isEmpty()
                                        || values.get(0).unit().equals(one.get().unit()));
                if (one.isPresent() && !alike) {
                    reading.problem(
                            item.place(),
                            "the unit '" + one.get().unit() + "'",
                            "the unit of the first reading, '" + values.get(0).unit() + "'",
                            "write all readings in one unit");
                }
                whole &= alike;
                one.ifPresent(values::add);
            }
        }
        return whole ? values : List.of();
    }
}
