package splitledger.characteristic.precision;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.characteristic.Responses;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * What the numbers would be with the injections that the protocol excludes, told beside those
 * without them.
 */
final class WithExcluded {
    private final Study study;
    private final Rows rows;
    private final Responses responses;
    private final PrecisionLayouts layouts;

    /**
     * For a study with nothing excluded.
     *
     * @param study with all injections
     * @param options of the characteristic
     * @param factors without the preparation
     */
    WithExcluded(Study study, Tree.Mapping options, List<String> factors) {
        this.study = study;
        this.rows = study.table().rows(Where.of(options.mapping("where")));
        this.responses = Responses.per(study, options.text("per").orElse(""));
        this.layouts =
                new PrecisionLayouts(
                        study.table(),
                        factors,
                        options.mapping("nested-in"),
                        options.number("mean-of"));
    }

    /**
     * The findings, each with its value from all injections in the note if it differs.
     *
     * @param level whose findings they are, if there are several
     */
    List<Finding> beside(
            String compound,
            int used,
            List<Finding> findings,
            Optional<PrecisionLevels.Level> level) {
        final Responses.Picked all = responses.pick(rows, compound, true);
        final Responses.Picked picked = level.map(l -> l.of(study.table(), all)).orElse(all);
        if (picked.used().size() == used) {
            return findings;
        }
        final double[] y = picked.used().stream().mapToDouble(Responses.Response::value).toArray();
        final PrecisionFindings.Found found =
                PrecisionFindings.of(
                        compound,
                        picked.rows(),
                        y,
                        responses.unit(),
                        study.protocol().conventions().coverage(),
                        layouts.of(picked.used()));
        final Map<Key, Double> values = new LinkedHashMap<>();
        for (Finding f : found.findings()) {
            if (f.answer() instanceof Answer.Estimate e) {
                values.put(f.key(), e.value());
            }
        }
        return findings.stream().map(f -> told(f, values)).toList();
    }

    private static Finding told(Finding finding, Map<Key, Double> values) {
        if (!values.containsKey(finding.key())) {
            return finding;
        }
        final String words =
                "with what the protocol excludes it would be "
                        + Trail.digits(values.getOrDefault(finding.key(), Double.NaN));
        return Finding.of(
                finding.key(),
                finding.answer(),
                finding.rows(),
                finding.note().isEmpty() ? words : finding.note() + "; " + words);
    }
}
