package splitledger.characteristic;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.UncertainLine;
import splitledger.study.Answer;
import splitledger.study.Contribution;
import splitledger.study.Finding;
import splitledger.study.Key;

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

    /**
     * All findings; and once more, without its condition, a value with roots whose quantity its
     * compound has under one condition only, so that it may be named by quantity and compound
     * alone.
     */
    public List<Finding> findings() {
        final List<Finding> all = new ArrayList<>();
        final Map<List<String>, List<Finding>> byName = new LinkedHashMap<>();
        for (Contribution c : contributions.values()) {
            for (Finding f : c.findings()) {
                all.add(f);
                byName.computeIfAbsent(
                                List.of(f.key().quantity(), f.key().compound()),
                                k -> new ArrayList<>())
                        .add(f);
            }
        }
        byName.values().stream()
                .filter(same -> same.size() == 1)
                .map(same -> same.get(0))
                .filter(f -> !f.key().condition().isEmpty() && hasRoots(f))
                .forEach(f -> all.add(bare(f)));
        return List.copyOf(all);
    }

    private static boolean hasRoots(Finding f) {
        return f.answer() instanceof Answer.Estimate e && e.quantity().isPresent();
    }

    private static Finding bare(Finding f) {
        final Key key = f.key();
        return new Finding(
                Key.of(key.characteristic(), key.compound(), key.quantity(), key.method()),
                f.answer(),
                f.judgements(),
                f.rows(),
                f.trail(),
                f.note());
    }

    /** The finding of a quantity for a compound without any condition, if one was given. */
    public Optional<Finding> finding(String quantity, String compound) {
        return findings().stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().compound().equals(compound) && f.key().condition().isEmpty())
                .findFirst();
    }
}
