package splitledger.history;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Collectors;
import splitledger.base.CodePoints;

/**
 * What one chart shows. The condition is that of the findings without the occasion, since one inlet
 * goes through all occasions.
 */
record SeriesKey(String instrument, Watched watched, String compound, String condition, String unit)
        implements Comparable<SeriesKey> {
    private static final Comparator<SeriesKey> ORDER =
            Comparator.comparing(SeriesKey::instrument, CodePoints.ORDER)
                    .thenComparing(SeriesKey::watched)
                    .thenComparing(SeriesKey::compound, CodePoints.ORDER)
                    .thenComparing(SeriesKey::condition, CodePoints.ORDER)
                    .thenComparing(SeriesKey::unit, CodePoints.ORDER);

    /** Of a value; empty if it is not watched. */
    static Optional<SeriesKey> of(DatedValue value) {
        return Watched.of(value.characteristic(), value.quantity())
                .map(
                        watched ->
                                new SeriesKey(
                                        value.instrument(),
                                        watched,
                                        value.compound(),
                                        withoutOccasion(value.condition()),
                                        value.unit()));
    }

    /** The same for another quantity. */
    SeriesKey as(Watched other) {
        return new SeriesKey(instrument, other, compound, condition, unit);
    }

    private static String withoutOccasion(String condition) {
        return Arrays.stream(condition.split(";", -1))
                .filter(part -> !part.startsWith("occasion="))
                .collect(Collectors.joining(";"));
    }

    @Override
    public int compareTo(SeriesKey other) {
        return ORDER.compare(this, other);
    }

    /** In words, without the instrument. */
    String words() {
        final StringBuilder words = new StringBuilder(watched.words());
        if (!compound.isEmpty()) {
            words.append(", ").append(compound);
        }
        if (!condition.isEmpty()) {
            final String plain = condition.replace(";", ", ").replace("=", " ");
            words.append(" (")
                    .append(plain.replace("%3B", ";").replace("%3D", "=").replace("%25", "%"))
                    .append(')');
        }
        return words.toString();
    }
}
