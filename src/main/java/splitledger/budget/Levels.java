package splitledger.budget;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;
import splitledger.base.Numbers;
import splitledger.study.InjectionTable;
import splitledger.study.Study;
import splitledger.study.Where;

/** The calibration levels of a compound with their amounts, lowest first. */
final class Levels {
    private Levels() {}

    static Map<String, Double> of(Study study, String compound) {
        final InjectionTable table = study.table();
        final Map<String, Double> found = new LinkedHashMap<>();
        final var options = study.protocol().characteristics().get("calibration");
        if (options == null) {
            return found;
        }
        final TreeMap<Double, String> byAmount = new TreeMap<>();
        table.rows(Where.of(options.mapping("where"))).stream()
                .filter(row -> table.compound(row).equals(compound))
                .forEach(
                        row -> {
                            final double amount = table.number("amount", row);
                            if (amount > 0) {
                                final String label = table.label("level", row);
                                byAmount.putIfAbsent(
                                        amount, label.isEmpty() ? Numbers.text(amount) : label);
                            }
                        });
        byAmount.forEach((amount, label) -> found.putIfAbsent(label, amount));
        return found;
    }
}
