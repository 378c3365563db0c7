package splitledger.planning.ahead;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.Sheet;
import splitledger.intake.SheetReader;

/** Scatter that an earlier study of the same method found, out of the table of its results. */
final class DossierPriors {
    private static final String RESULTS = "results.csv";

    private final Sheet results;
    private final String compound;
    private final String from;

    private DossierPriors(Sheet results, String compound, String from) {
        this.results = results;
        this.compound = compound;
        this.from = from;
    }

    /**
     * Reads the results of a dossier.
     *
     * @param from folder of the dossier, relative to the plan file
     * @param compound whose scatter is taken
     */
    static DossierPriors read(Vault vault, String planName, String from, String compound)
            throws ProblemException, IOException {
        final Sheet sheet = SheetReader.read(vault, planName, List.of(from + "/" + RESULTS)).get(0);
        final DossierPriors priors = new DossierPriors(sheet, compound, from);
        if (sheet.rows().stream().noneMatch(r -> priors.cell(r, "compound").equals(compound))) {
            throw new ProblemException(
                    new Problem(
                            planName,
                            0,
                            "prior.compound",
                            "'" + compound + "'",
                            "a compound of the dossier " + from,
                            "write it as it stands in the column compound of " + RESULTS));
        }
        return priors;
    }

    /**
     * Relative scatter of injection, preparation or day; empty if the dossier gives no estimate.
     */
    Optional<PlanFile.Known> of(String what) {
        if (what.equals("injection")) {
            return row("repeatability", "", "rsd-injection").map(r -> known(r, 0.01));
        }
        final Optional<Sheet.Row> mean = row("repeatability", "", "mean");
        return mean.flatMap(
                m ->
                        row("repeatability", "factor=" + what, "sd-between")
                                .map(r -> known(r, 1 / number(m, "value"))));
    }

    /** Scatter of blanks in units of amount: the constant part of the calibration's scatter. */
    Optional<PlanFile.Known> blank() {
        return row("calibration", "", "slope")
                .flatMap(
                        slope ->
                                row("calibration", "", "signal-sd-constant")
                                        .map(r -> known(r, 1 / number(slope, "value"))))
                .filter(k -> k.value() > 0);
    }

    private PlanFile.Known known(Sheet.Row row, double scale) {
        final double df = number(row, "degrees_of_freedom");
        return new PlanFile.Known(
                Math.abs(number(row, "value") * scale),
                "found by the dossier " + from + " for " + compound,
                df > 0 ? df : Double.POSITIVE_INFINITY);
    }

    /** The first row with a number. */
    private Optional<Sheet.Row> row(String characteristic, String condition, String quantity) {
        return results.rows().stream()
                .filter(r -> cell(r, "characteristic").equals(characteristic))
                .filter(r -> cell(r, "compound").equals(compound))
                .filter(r -> cell(r, "condition").equals(condition))
                .filter(r -> cell(r, "quantity").equals(quantity))
                .filter(r -> cell(r, "status").equals("estimable"))
                .filter(r -> Double.isFinite(number(r, "value")))
                .findFirst();
    }

    private String cell(Sheet.Row row, String heading) {
        final int at = results.headings().indexOf(heading);
        return at < 0 ? "" : row.cells().get(at);
    }

    private double number(Sheet.Row row, String heading) {
        try {
            return Double.parseDouble(cell(row, heading));
        } catch (NumberFormatException e) {
            return Double.NaN; // "inf" and empty cells are no numbers of a prior
        }
    }
}
