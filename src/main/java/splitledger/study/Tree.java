package splitledger.study;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

/**
 * A part of the protocol as it was read: plain scalars, sequences and mappings, each with its
 * place. Characteristics get their options in this form, so that no other room needs to know them.
 */
public sealed interface Tree {
    /** Where it stands. */
    Place place();

    /** One value as text; {@code quoted} tells a string from a bare number, true or null. */
    record Scalar(Place place, String text, boolean quoted) implements Tree {
        /** Java would read {@code 1d} and {@code 0x1p3} as numbers too: those are labels. */
        private static final Pattern DECIMAL = Pattern.compile("[-+.0-9eE]+");

        /** The number, if it is a plain finite one. */
        public OptionalDouble number() {
            if (!DECIMAL.matcher(text.strip()).matches()) {
                return OptionalDouble.empty();
            }
            try {
                final double v = Double.parseDouble(text.strip());
                return Double.isNaN(v) || Double.isInfinite(v)
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(v);
            } catch (NumberFormatException e) {
                return OptionalDouble.empty();
            }
        }
    }

    /** Several values in order. */
    record Sequence(Place place, List<Tree> items) implements Tree {
        public Sequence {
            items = List.copyOf(items);
        }
    }

    /** Named values in the order of the file. */
    record Mapping(Place place, Map<String, Tree> entries) implements Tree {
        /** A mapping without entries. */
        public static final Mapping EMPTY = new Mapping(Place.NONE, Map.of());

        public Mapping {
            entries = Collections.unmodifiableMap(new LinkedHashMap<>(entries));
        }

        /** An entry, if it is there. */
        public Optional<Tree> get(String key) {
            return Optional.ofNullable(entries.get(key));
        }

        /** An entry's text, if it is there and a scalar. */
        public Optional<String> text(String key) {
            return get(key).flatMap(
                            t -> t instanceof Scalar s ? Optional.of(s.text()) : Optional.empty());
        }

        /** An entry's number, if it is there and one. */
        public OptionalDouble number(String key) {
            return entries.get(key) instanceof Scalar s ? s.number() : OptionalDouble.empty();
        }

        /**
         * An entry's texts: of a sequence all its scalars, of a scalar that one, otherwise none.
         */
        public List<String> texts(String key) {
            return get(key).map(Tree::textsOf).orElse(List.of());
        }

        /** An entry that is a mapping itself; {@link #EMPTY} if it is not there. */
        public Mapping mapping(String key) {
            return get(key).flatMap(t -> t instanceof Mapping m ? Optional.of(m) : Optional.empty())
                    .orElse(EMPTY);
        }

        /**
         * This with what another says instead: mappings are merged entry by entry, all else is
         * replaced.
         */
        public Mapping with(Mapping other) {
            return merged(this, other);
        }
    }

    private static Mapping merged(Mapping under, Mapping over) {
        final Map<String, Tree> all = new LinkedHashMap<>(under.entries());
        over.entries()
                .forEach(
                        (key, tree) ->
                                all.merge(
                                        key,
                                        tree,
                                        (old, own) ->
                                                old instanceof Mapping a && own instanceof Mapping b
                                                        ? merged(a, b)
                                                        : own));
        return new Mapping(under.place(), all);
    }

    private static List<String> textsOf(Tree tree) {
        if (tree instanceof Scalar s) {
            return List.of(s.text());
        }
        if (tree instanceof Sequence q) {
            return q.items().stream()
                    .filter(Scalar.class::isInstance)
                    .map(t -> ((Scalar) t).text())
                    .toList();
        }
        return List.of();
    }
}
