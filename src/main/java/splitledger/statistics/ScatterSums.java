package splitledger.statistics;

/**
 * The responses of one compound, taken apart.
 *
 * @param mean of all rows
 * @param squares sequential sum of squares of each term, the residual last
 * @param within sum of squares of each stratum of exchangeable cells
 * @param inBlocks sum of squares of each term among the group means
 * @param groups means of groups times the root of their rows
 */
record ScatterSums(
        double mean, double[] squares, double[] within, double[] inBlocks, double[] groups) {}
