package splitledger.intake;

import java.util.Arrays;
import splitledger.study.InjectionTable;

/**
 * What all rows of an injection have in common, for rows that no table has.
 *
 * @param injectionOf place of the injection of each stacked row
 * @param count of the injections
 */
record SharedByInjection(InjectionTable.Codes injectionOf, int count) {
    private static final int NOWHERE = -1;

    /** The code that all rows of an injection share; that of the empty label where they differ. */
    int[] codes(int... stacked) {
        final int[] common = new int[count];
        final boolean[] differs = new boolean[common.length];
        Arrays.fill(common, NOWHERE);
        for (int row = 0; row < stacked.length; row++) {
            final int i = injectionOf.at(row);
            differs[i] |= common[i] != NOWHERE && common[i] != stacked[row];
            common[i] = stacked[row];
        }
        for (int i = 0; i < common.length; i++) {
            common[i] = differs[i] ? 0 : common[i];
        }
        return common;
    }

    /** The number that all rows of an injection share; NaN where they differ. */
    double[] numbers(double... stacked) {
        final double[] common = new double[count];
        final boolean[] differs = new boolean[common.length];
        final boolean[] seen = new boolean[common.length];
        Arrays.fill(common, Double.NaN);
        for (int row = 0; row < stacked.length; row++) {
            final int i = injectionOf.at(row);
            differs[i] |= seen[i] && Double.compare(common[i], stacked[row]) != 0;
            common[i] = stacked[row];
            seen[i] = true;
        }
        for (int i = 0; i < common.length; i++) {
            common[i] = differs[i] ? Double.NaN : common[i];
        }
        return common;
    }
}
