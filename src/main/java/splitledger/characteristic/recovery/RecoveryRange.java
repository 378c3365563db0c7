package splitledger.characteristic.recovery;

import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Criteria;
import splitledger.characteristic.Digits;

/**
 * Ranges of mean recovery by the mass fraction of the analyte as AOAC International, Official
 * Methods of Analysis, Appendix F tabulates them (from memory; criterion {@code aoac-recovery}).
 *
 * @param low percent
 * @param high percent
 * @param row mass fraction of the row of the table
 */
record RecoveryRange(double low, double high, double row) {
    private static final double[][] TABLE = {
        {1, 98, 102},
        {0.1, 98, 102},
        {0.01, 97, 103},
        {0.001, 95, 105},
        {1e-4, 90, 107},
        {1e-5, 80, 110},
        {1e-6, 80, 110},
        {1e-7, 80, 110},
        {1e-8, 60, 115},
        {1e-9, 40, 120}
    };

    /**
     * The row nearest on a logarithmic scale; of two equally near the narrower. The table itself
     * does not say what holds between its rows.
     *
     * @param massFraction above 0, not above 1
     */
    static RecoveryRange of(double massFraction) {
        double[] best = TABLE[0];
        double nearest = Double.POSITIVE_INFINITY;
        for (double[] row : TABLE) {
            final double distance = Math.abs(FastMath.log10(massFraction / row[0]));
            if (distance < nearest - 1e-12) {
                nearest = distance;
                best = row;
            }
        }
        return new RecoveryRange(best[1], best[2], best[0]);
    }

    /** The range beside what was found. */
    String words(double recovery) {
        final double percent = 100 * recovery;
        final Criteria.Criterion criterion = Criteria.of("aoac-recovery");
        return "range at a mass fraction near "
                + splitledger.base.Numbers.text(row)
                + ": "
                + splitledger.base.Numbers.text(low)
                + " to "
                + splitledger.base.Numbers.text(high)
                + " %; observed "
                + Digits.three(percent)
                + " %, "
                + (percent >= low && percent <= high ? "within it" : "outside it")
                + " ("
                + criterion.cited()
                + ")";
    }
}
