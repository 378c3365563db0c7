package splitledger.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * Which rows: every condition must hold. {@code {series: calibration}} (equal), {@code {series: [a,
 * b]}} (one of), {@code {level: {not: L1}}}, {@code {split_ratio: {at-least: 20, at-most: 100}}}.
 *
 * @param place where it stands in the protocol
 * @param conditions in the order of the protocol
 */
public record Where(Place place, List<Condition> conditions) {
    /** Every row. */
    public static final Where ALL = new Where(Place.NONE, List.of());

    public Where {
        conditions = List.copyOf(conditions);
    }

    /** One condition on a column. */
    public sealed interface Condition {
        /** Canonical or user's name of the column. */
        String column();

        /** In words, as in {@code series is calibration or blank}. */
        String words();
    }

    /** The label is one of these. */
    public record OneOf(String column, List<String> labels) implements Condition {
        @Override
        public String words() {
            return column + " is " + String.join(" or ", labels);
        }
    }

    /** The label is none of these. */
    public record NoneOf(String column, List<String> labels) implements Condition {
        @Override
        public String words() {
            return column + " is not " + String.join(" nor ", labels);
        }
    }

    /** The number lies within bounds, ends included; a side may be infinite. */
    public record Within(String column, double atLeast, double atMost) implements Condition {
        @Override
        public String words() {
            final List<String> sides = new ArrayList<>();
            if (!Double.isInfinite(atLeast)) {
                sides.add("at least " + splitledger.base.Numbers.text(atLeast));
            }
            if (!Double.isInfinite(atMost)) {
                sides.add("at most " + splitledger.base.Numbers.text(atMost));
            }
            return column + " is " + String.join(" and ", sides);
        }
    }

    /** In words. */
    public String words() {
        return conditions.isEmpty()
                ? "all rows"
                : conditions.stream().map(Condition::words).collect(Collectors.joining(", "));
    }

    /** Reads the mapping of a protocol; what has another form was refused by the schema before. */
    public static Where of(Tree.Mapping mapping) {
        final List<Condition> conditions = new ArrayList<>();
        for (Map.Entry<String, Tree> e : mapping.entries().entrySet()) {
            if (e.getValue() instanceof Tree.Mapping bounds) {
                if (bounds.get("not").isPresent()) {
                    conditions.add(new NoneOf(e.getKey(), bounds.texts("not")));
                }
                final OptionalDouble low = bounds.number("at-least");
                final OptionalDouble high = bounds.number("at-most");
                if (low.isPresent() || high.isPresent()) {
                    conditions.add(
                            new Within(
                                    e.getKey(),
                                    low.orElse(Double.NEGATIVE_INFINITY),
                                    high.orElse(Double.POSITIVE_INFINITY)));
                }
            } else {
                conditions.add(new OneOf(e.getKey(), mapping.texts(e.getKey())));
            }
        }
        return new Where(mapping.place(), conditions);
    }
}
