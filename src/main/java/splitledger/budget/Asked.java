package splitledger.budget;

import splitledger.study.Rows;

/**
 * Which result inputs are wanted for.
 *
 * @param compound whose findings are taken; empty for a budget without compounds
 * @param rows whose row variables are taken
 * @param median whether row variables take their median over {@code rows}, else their mean
 * @param label unique name of the result, so that scatter of different results is independent
 * @param sample name of what several results share the conditions of
 * @param amount found; NaN if none
 * @param preparations that the result averages
 */
record Asked(
        String compound,
        Rows rows,
        boolean median,
        String label,
        String sample,
        double amount,
        int preparations) {}
