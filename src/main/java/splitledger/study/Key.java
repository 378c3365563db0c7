package splitledger.study;

import java.util.Collections;
import java.util.Comparator;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.CodePoints;

/**
 * What a finding is about; unique within an evaluation and totally ordered by its five printed
 * cells.
 *
 * @param characteristic id of the characteristic
 * @param compound its compound; empty for all compounds together
 * @param condition names and values, sorted by name
 * @param quantity name of the quantity
 * @param method how it was found
 */
public record Key(
        String characteristic,
        String compound,
        SortedMap<String, String> condition,
        String quantity,
        String method)
        implements Comparable<Key> {
    private static final Comparator<Key> ORDER =
            Comparator.comparing(Key::characteristic, CodePoints.ORDER)
                    .thenComparing(Key::compound, CodePoints.ORDER)
                    .thenComparing(Key::conditionText, CodePoints.ORDER)
                    .thenComparing(Key::quantity, CodePoints.ORDER)
                    .thenComparing(Key::method, CodePoints.ORDER);

    public Key {
        final TreeMap<String, String> sorted = new TreeMap<>(CodePoints.ORDER);
        sorted.putAll(condition);
        condition = Collections.unmodifiableSortedMap(sorted);
    }

    /** A key without condition. */
    public static Key of(String characteristic, String compound, String quantity, String method) {
        return new Key(characteristic, compound, new TreeMap<>(), quantity, method);
    }

    /** The same key with one more condition. */
    public Key with(String name, String value) {
        final TreeMap<String, String> more = new TreeMap<>(condition);
        more.put(name, value);
        return new Key(characteristic, compound, more, quantity, method);
    }

    /**
     * The condition cell: {@code name=value} joined by {@code ;} with {@code % ; =}
     * percent-encoded.
     */
    public String conditionText() {
        final StringBuilder text = new StringBuilder();
        for (Map.Entry<String, String> e : condition.entrySet()) {
            if (text.length() > 0) {
                text.append(';');
            }
            text.append(encoded(e.getKey())).append('=').append(encoded(e.getValue()));
        }
        return text.toString();
    }

    @Override
    public int compareTo(Key other) {
        return ORDER.compare(this, other);
    }

    private static String encoded(String text) {
        return text.indexOf('%') < 0 && text.indexOf(';') < 0 && text.indexOf('=') < 0
                ? text
                : text.replace("%", "%25").replace(";", "%3B").replace("=", "%3D");
    }
}
