package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import splitledger.base.Numbers;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/** Findings about one parent as they come together, with their keys and rows. */
final class LossFindings {
    private final LossRows rows;
    private final List<Finding> findings = new ArrayList<>();

    LossFindings(LossRows rows) {
        this.rows = rows;
    }

    /** Those made so far. */
    List<Finding> all() {
        return List.copyOf(findings);
    }

    /** A key without conditions. */
    Key key(String quantity, String method) {
        return Key.of(Losses.ID, rows.parent(), quantity, method);
    }

    /** A key with the conditions of a group. */
    Key conditioned(Key key, LossRows.Group g) {
        Key all = key;
        if (!Double.isNaN(g.temperature())) {
            all = all.with("inlet-temperature", Numbers.text(g.temperature()));
        }
        return rows.severalRatios() && !Double.isNaN(g.ratio())
                ? all.with("ratio", Numbers.text(g.ratio()))
                : all;
    }

    /** Adds a finding about all rows. */
    void add(Key key, Answer answer, String note) {
        add(key, answer, allRows(), note);
    }

    /** Adds a finding. */
    void add(Finding finding) {
        findings.add(finding);
    }

    /** Adds a finding about some rows. */
    void add(Key key, Answer answer, Rows about, String note) {
        findings.add(Finding.of(key, answer, about, note));
    }

    private Rows allRows() {
        return Rows.of(
                rows.groups().stream()
                        .flatMap(g -> g.shots().stream())
                        .mapToInt(LossRows.Shot::row)
                        .sorted()
                        .toArray());
    }
}
