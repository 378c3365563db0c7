package splitledger.characteristic;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.UncertainLine;
import splitledger.study.Contribution;
import splitledger.study.Finding;

/**
 * What the characteristics evaluated so far have given.
 *
 * @param contributions by id, in order of evaluation
 */
public record Earlier(Map<String, Contribution> contributions) {
    public Earlier {
        contributions = Collections.unmodifiableMap(new LinkedHashMap<>(contributions));
    }

    /** Every calibration line by compound. */
    public SortedMap<String, UncertainLine> lines() {
        final SortedMap<String, UncertainLine> all = new TreeMap<>();
        contributions.values().forEach(c -> all.putAll(c.lines()));
        return all;
    }

    /** All findings. */
    public List<Finding> findings() {
        return contributions.values().stream().flatMap(c -> c.findings().stream()).toList();
    }

    /** The finding of a quantity for a compound without any condition, if one was given. */
    public Optional<Finding> finding(String quantity, String compound) {
        return findings().stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().compound().equals(compound) && f.key().condition().isEmpty())
                .findFirst();
    }
}
