package splitledger.history;

import java.util.List;
import org.apache.commons.math3.util.FastMath;

/** On which scale the values of a quantity scatter evenly, so that limits mean what they say. */
enum Scale {
    /** As they are. */
    PLAIN("as it is") {
        @Override
        double forth(double value) {
            return value;
        }

        @Override
        double back(double scaled) {
            return scaled;
        }

        @Override
        double slope(double value) {
            return 1;
        }

        @Override
        boolean holds(DatedValue value) {
            return true;
        }
    },
    /** Ratios and sizes: a tenth more and a tenth less are alike. */
    LOGARITHM("logarithm") {
        @Override
        double forth(double value) {
            return FastMath.log(value);
        }

        @Override
        double back(double scaled) {
            return FastMath.exp(scaled);
        }

        @Override
        double slope(double value) {
            return 1 / value;
        }

        @Override
        boolean holds(DatedValue value) {
            return value.value() > 0;
        }
    },
    /** Shares in percent, which end at 0 and 100. */
    SHARE("log of share to rest") {
        @Override
        double forth(double value) {
            return FastMath.log(value / (PERCENT - value));
        }

        @Override
        double back(double scaled) {
            return PERCENT / (1 + FastMath.exp(-scaled));
        }

        @Override
        double slope(double value) {
            return PERCENT / (value * (PERCENT - value));
        }

        @Override
        boolean holds(DatedValue value) {
            return value.value() > 0 && value.value() < PERCENT;
        }
    },
    /** Standard deviations with their degrees of freedom: limits come from these. */
    SPREAD("standard deviation") {
        @Override
        double forth(double value) {
            return value;
        }

        @Override
        double back(double scaled) {
            return scaled;
        }

        @Override
        double slope(double value) {
            return 1;
        }

        @Override
        boolean holds(DatedValue value) {
            return value.value() >= 0
                    && value.degreesOfFreedom() > 0
                    && Double.isFinite(value.degreesOfFreedom());
        }
    };

    private static final double PERCENT = 100;

    private final String words;

    Scale(String words) {
        this.words = words;
    }

    /** In words. */
    String words() {
        return words;
    }

    /** On the scale. */
    abstract double forth(double value);

    /** From the scale. */
    abstract double back(double scaled);

    /** Change on the scale for a small change of a value. */
    abstract double slope(double value);

    /** Whether a value has a place on the scale. */
    abstract boolean holds(DatedValue value);

    /** This scale if it holds all values, else the logarithm, else the values as they are. */
    Scale forAll(List<DatedValue> values) {
        if (values.stream().allMatch(this::holds)) {
            return this;
        }
        return values.stream().allMatch(LOGARITHM::holds) ? LOGARITHM : PLAIN;
    }
}
