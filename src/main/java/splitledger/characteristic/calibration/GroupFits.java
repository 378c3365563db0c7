package splitledger.characteristic.calibration;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.characteristic.Responses;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * A calibration of its own for each group of a factor (instrument, liner, matrix, how the sample
 * was introduced), for one compound. Groups are in the order of the table; the first one is what
 * the others are compared with, unless the protocol names another.
 *
 * @param factor column that tells the groups apart
 * @param reference label of the group compared with
 * @param fits by label of the group
 */
public record GroupFits(String factor, String reference, Map<String, CalibrationFit> fits) {

    /**
     * Fits them.
     *
     * @param study all that goes in
     * @param responses how a row's response is taken
     * @param rows of the calibrants
     * @param compound whose lines they are
     * @param options block of the protocol with {@code groups} and {@code reference-group}
     * @param calibration block of the calibration, which says how to fit
     */
    public static GroupFits of(
            Study study,
            Responses responses,
            Rows rows,
            String compound,
            Tree.Mapping options,
            Tree.Mapping calibration) {
        final String factor = options.text("groups").orElse("");
        final CalibrationFit.Wanted wanted = CalibrationFit.Wanted.of(calibration);
        final boolean common = calibration.text("amount-errors").orElse("").equals("common");
        final Map<String, CalibrationFit> fits = new LinkedHashMap<>();
        for (String label : labels(study, rows, compound, factor)) {
            final Rows own = rows.only(row -> study.table().label(factor, row).equals(label));
            final Calibrants calibrants =
                    Calibrants.of(study, responses, own, compound).named(factor + "=" + label);
            final AmountErrors errors =
                    AmountErrors.of(study, calibrants, AmountErrors.made(study), common);
            fits.put(label, CalibrationFit.of(study, calibrants, errors, wanted, responses));
        }
        final String first = fits.isEmpty() ? "" : fits.keySet().iterator().next();
        return new GroupFits(factor, options.text("reference-group").orElse(first), fits);
    }

    private static List<String> labels(Study study, Rows rows, String compound, String factor) {
        if (factor.isEmpty() || study.table().labels(factor).isEmpty()) {
            return List.of();
        }
        return rows.stream()
                .filter(row -> study.table().compound(row).equals(compound))
                .mapToObj(row -> study.table().label(factor, row))
                .filter(label -> !label.isEmpty())
                .distinct()
                .toList();
    }

    /** The groups that are compared with the reference. */
    public Map<String, CalibrationFit> others() {
        final Map<String, CalibrationFit> others = new LinkedHashMap<>(fits);
        others.remove(reference);
        return others;
    }

    /** The group that the others are compared with, if the table has it. */
    public Optional<CalibrationFit> referenceFit() {
        return Optional.ofNullable(fits.get(reference));
    }

    /** The key with the conditions of a comparison: factor, group, and the group compared with. */
    public Key condition(Key key, String group) {
        return key.with("factor", factor).with("group", group).with("reference", reference);
    }
}
