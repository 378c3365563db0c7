package splitledger.virtual;

import java.util.List;
import java.util.Map;
import splitledger.study.Key;

/**
 * The values behind a simulation, by the keys of the findings that estimate them and in their
 * units. They are those of the process as it is meant to run: outliers, carry-over and what else
 * goes wrong now and then are not in them. Responses are areas divided by the area of the internal
 * standard, or areas where there is none. Standard deviations are those of first order in the
 * scatters of the design (at scatters of a few percent, right to one part in a thousand).
 *
 * <p>Slope and predicted amounts are in <em>stated</em> amounts: an error of the stock moves all
 * levels together, the injections cannot show it, and a line against the stated amounts estimates
 * the slope in those. Results and recoveries are in true amounts: there the stock's uncertainty has
 * to be in the budget.
 *
 * <p>A quantity is left out where the design gives it no true value: p values, statistics of a
 * test, choices; the slope under a saturating detector; an exponent where the response bends at low
 * ratios; detection limits whose definition depends on the weights that the data choose.
 */
public final class Truth {
    private final TruthSheet sheet;
    private final Design design;

    private Truth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
    }

    /** Every value that the design determines, ordered by key. */
    public static List<TrueValue> of(Design design) {
        return of(design, new VirtualInlet(design));
    }

    static List<TrueValue> of(Design design, VirtualInlet inlet) {
        final TruthSheet sheet = new TruthSheet(design, inlet);
        new CalibrationTruth(sheet).add();
        new PrecisionTruth(sheet).add();
        new SplitTruth(sheet).add();
        new DiscriminationTruth(sheet).add();
        new LossTruth(sheet).add();
        new RecoveryTruth(sheet).add();
        final Truth truth = new Truth(sheet);
        truth.results();
        return sheet.ordered();
    }

    /** What is in the oil. */
    private void results() {
        for (Flask flask : sheet.flasks("sample")) {
            if (flask.oil().isEmpty()) {
                continue;
            }
            final Map<String, Double> oil = design.oils().getOrDefault(flask.oil(), Map.of());
            for (String target : design.targets()) {
                sheet.add(
                        Key.of("budget", target, "result", "").with("preparation", flask.label()),
                        oil.getOrDefault(target, 0.0),
                        "mg/g");
            }
        }
    }
}
