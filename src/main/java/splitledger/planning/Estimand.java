package splitledger.planning;

import java.util.Comparator;
import splitledger.base.CodePoints;
import splitledger.study.Key;

/**
 * What a row of the coverage table is about: one quantity by one method under one condition for one
 * compound.
 */
record Estimand(
        String characteristic, String compound, String condition, String quantity, String method)
        implements Comparable<Estimand> {
    private static final Comparator<Estimand> ORDER =
            Comparator.comparing(Estimand::characteristic, CodePoints.ORDER)
                    .thenComparing(Estimand::quantity, CodePoints.ORDER)
                    .thenComparing(Estimand::condition, CodePoints.ORDER)
                    .thenComparing(Estimand::compound, CodePoints.ORDER)
                    .thenComparing(Estimand::method, CodePoints.ORDER);

    static Estimand of(Key key) {
        return new Estimand(
                key.characteristic(),
                key.compound(),
                key.conditionText(),
                key.quantity(),
                key.method());
    }

    /** Characteristic, quantity and the names of its conditions. */
    String words() {
        final StringBuilder words = new StringBuilder(characteristic).append(' ').append(quantity);
        if (!condition.isEmpty()) {
            for (String one : condition.split(";", -1)) {
                words.append(' ').append(one, 0, one.indexOf('='));
            }
        }
        return words.toString();
    }

    /** The same without method: what a true value is known by. */
    Estimand truth() {
        return method.isEmpty()
                ? this
                : new Estimand(characteristic, compound, condition, quantity, "");
    }

    @Override
    public int compareTo(Estimand other) {
        return ORDER.compare(this, other);
    }
}
