package splitledger.budget;

import java.util.Optional;
import splitledger.budget.Sources.Source;
import splitledger.study.Key;

/**
 * Where a budget is made.
 *
 * @param key of the result it is about
 * @param level its name in the list of budgets; empty for one without levels
 * @param amount found; NaN if none
 * @param injections that a preparation averages
 * @param source what was found there; empty at a calibration level
 */
record Place(Key key, String level, double amount, double injections, Optional<Source> source) {
    String compound() {
        return key.compound();
    }
}
