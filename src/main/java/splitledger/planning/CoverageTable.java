package splitledger.planning;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import splitledger.base.CsvText;

/** Writes the rows of a scenario as a table. */
public final class CoverageTable {
    private static final MathContext DIGITS = new MathContext(4);
    private static final List<String> HEADER =
            List.of(
                    "characteristic",
                    "quantity",
                    "condition",
                    "compound",
                    "method",
                    "estimates",
                    "bounds",
                    "not_estimable",
                    "coverage",
                    "bound_coverage",
                    "bias",
                    "median_width",
                    "unit",
                    "verdicts",
                    "wrong_verdicts",
                    "undecided",
                    "standing");

    private CoverageTable() {}

    /** The table; shares from 0 to 1, bias in standard uncertainties, four digits each. */
    public static byte[] bytes(List<CoverageRow> rows) {
        final CsvText csv = new CsvText(HEADER);
        for (CoverageRow row : rows) {
            csv.cell(row.characteristic())
                    .cell(row.quantity())
                    .cell(row.condition())
                    .cell(row.compound())
                    .cell(row.method())
                    .cell(row.estimates())
                    .cell(row.bounds())
                    .cell(row.nothing());
            number(csv, row.coverage());
            number(csv, row.boundCoverage());
            number(csv, row.bias());
            number(csv, row.medianWidth());
            csv.cell(row.unit()).cell(row.verdicts());
            number(csv, row.wrong());
            number(csv, row.undecided());
            csv.cell(row.standing().code()).endRow();
        }
        return csv.bytes();
    }

    private static void number(CsvText csv, double value) {
        if (Double.isNaN(value)) {
            csv.empty();
        } else if (Double.isInfinite(value)) {
            csv.cell("inf");
        } else {
            csv.cell(new BigDecimal(value).round(DIGITS).doubleValue());
        }
    }
}
