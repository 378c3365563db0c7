package splitledger.evaluation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.base.Problem;
import splitledger.study.Card;
import splitledger.study.Criterion;
import splitledger.study.Protocol;

/**
 * Limits whose unit cannot be that of their quantity, as far as this shows before anything is
 * evaluated: quantities in percent, without a unit, and in the unit of amounts.
 */
public final class LimitUnits {
    private LimitUnits() {}

    /** A problem for each limit in a unit that does not fit. */
    public static List<Problem> problems(Protocol protocol) {
        final List<Problem> problems = new ArrayList<>();
        for (Criterion criterion : protocol.requirements()) {
            final Optional<String> unit = unit(criterion.quantity(), protocol);
            if (unit.isPresent() && !fits(criterion.unit(), unit.get())) {
                problems.add(
                        criterion
                                .place()
                                .problem(
                                        "a limit in '" + criterion.unit() + "'",
                                        "a limit in '" + unit.get() + "'",
                                        "write the limit in the unit of " + criterion.quantity()));
            }
        }
        return problems;
    }

    private static boolean fits(String limit, String unit) {
        final boolean ratio = List.of("%", "1").contains(limit);
        return limit.isEmpty() || limit.equals(unit) || (ratio && List.of("%", "1").contains(unit));
    }

    private static Optional<String> unit(String quantity, Protocol protocol) {
        final List<String> words =
                GenerateResources.cards().stream()
                        .flatMap(c -> c.quantities().stream())
                        .filter(q -> q.name().equals(quantity))
                        .map(Card.Quantity::unit)
                        .distinct()
                        .toList();
        if (words.size() != 1) {
            return Optional.empty();
        }
        return switch (words.get(0)) {
            case "%", "1" -> Optional.of(words.get(0));
            case "amount" -> Optional.of(protocol.conventions().amountUnit());
            default -> Optional.empty();
        };
    }
}
