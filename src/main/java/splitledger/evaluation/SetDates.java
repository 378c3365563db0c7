package splitledger.evaluation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import splitledger.study.Criterion;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Study;

/**
 * Whether requirements were set before the data: the date stated at each against the first
 * injection. Dates are as stated; nothing proves them.
 */
final class SetDates {
    private static final Pattern DATE = Pattern.compile("\\d{4}-\\d{2}-\\d{2}.*");
    private static final int LENGTH = 10;

    private SetDates() {}

    /** A flag for every requirement with a date after the day of the first injection. */
    static List<Flag> flags(Study study) {
        final List<Flag> flags = new ArrayList<>();
        final Optional<String> first = first(study.table());
        if (first.isEmpty()) {
            return flags;
        }
        for (Criterion criterion : study.protocol().requirements()) {
            final Optional<String> set = date(criterion.set());
            if (set.isPresent() && set.get().compareTo(first.get()) > 0) {
                flags.add(
                        new Flag(
                                criterion.place(),
                                "requirement of " + criterion.quantity(),
                                "set on "
                                        + set.get()
                                        + ", after the first injection of "
                                        + first.get()
                                        + ": it was not stated before the data"));
            }
        }
        return flags;
    }

    private static Optional<String> first(InjectionTable table) {
        return IntStream.range(0, table.size())
                .mapToObj(row -> date(table.label("acquired", row)))
                .flatMap(Optional::stream)
                .min(String::compareTo);
    }

    private static Optional<String> date(String text) {
        return DATE.matcher(text).matches()
                ? Optional.of(text.substring(0, LENGTH))
                : Optional.empty();
    }
}
