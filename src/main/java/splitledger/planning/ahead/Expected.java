package splitledger.planning.ahead;

import splitledger.statistics.Quantiles;
import splitledger.statistics.SampleSizes;

/**
 * What a study is expected to say of one figure.
 *
 * @param standard standard uncertainty, in the unit of the figure
 * @param degreesOfFreedom of its estimate
 */
record Expected(double standard, double degreesOfFreedom) {
    /** Half width of the two-sided interval for 0.95. */
    double half() {
        return Quantiles.coverageFactor(Prediction.COVERAGE, degreesOfFreedom) * standard;
    }

    /** A quantile of the half widths that studies would find; the scatter is estimated. */
    double half(double p) {
        return half() * Math.sqrt(Quantiles.chiSquare(p, degreesOfFreedom) / degreesOfFreedom);
    }

    /** Share of studies that find no more than a wanted half width. */
    double chance(double wanted) {
        return SampleSizes.chanceBelow(wanted / half(), degreesOfFreedom);
    }
}
