package splitledger.study;

import java.util.Optional;
import java.util.SortedMap;

/**
 * One requirement, written before the data.
 *
 * @param quantity name of the quantity it is about
 * @param of compound it is about; empty: every target compound
 * @param to reference compound of a ratio; becomes the condition {@code reference=}
 * @param method method it is about; empty: any
 * @param condition conditions it is about; a finding must have all of them
 * @param limit the limit
 * @param unit unit of the limit; empty if it has none
 * @param basis which end of the finding is compared
 * @param risk risk of a wrong verdict, 0 to 0.5
 * @param source document with edition, or the laboratory's own procedure
 * @param set date as stated; empty if not stated
 * @param place where it stands in the protocol
 */
public record Criterion(
        String quantity,
        Optional<String> of,
        Optional<String> to,
        Optional<String> method,
        SortedMap<String, String> condition,
        Limit limit,
        String unit,
        Basis basis,
        double risk,
        String source,
        String set,
        Place place) {

    /** What is allowed. */
    public sealed interface Limit {
        /** No more than this. */
        record AtMost(double limit) implements Limit {}

        /** No less than this. */
        record AtLeast(double limit) implements Limit {}

        /** Within a margin of a value. */
        record Within(double equals, double margin) implements Limit {}
    }

    /** Which end of the finding is compared. */
    public enum Basis {
        OBSERVED("observed"),
        LOWER_BOUND("lower-bound"),
        UPPER_BOUND("upper-bound"),
        INTERVAL("interval"),
        EQUIVALENCE("equivalence");

        private final String code;

        Basis(String code) {
            this.code = code;
        }

        /** The name in files. */
        public String code() {
            return code;
        }
    }

    /** The limit as text, for example {@code at most 2 %}. */
    public String text() {
        final String after = unit.isEmpty() || "1".equals(unit) ? "" : " " + unit;
        if (limit instanceof Limit.AtMost most) {
            return "at most " + splitledger.base.Numbers.text(most.limit()) + after;
        }
        if (limit instanceof Limit.AtLeast least) {
            return "at least " + splitledger.base.Numbers.text(least.limit()) + after;
        }
        final Limit.Within within = (Limit.Within) limit;
        return splitledger.base.Numbers.text(within.equals())
                + " within "
                + splitledger.base.Numbers.text(within.margin())
                + after;
    }
}
