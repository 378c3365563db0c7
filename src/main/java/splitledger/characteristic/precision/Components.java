package splitledger.characteristic.precision;

import splitledger.statistics.ScatterComponent;
import splitledger.statistics.ScatterMoments;
import splitledger.statistics.ScatterReml;

/** Variances of one compound and sums of them, whichever method they come from. */
interface Components {
    /** The name in files. */
    String method();

    /** One variance; the residual comes after the last term. */
    ScatterComponent component(int term, double probability);

    /** A sum of them, the residual's weight last. */
    ScatterComponent sum(double[] weights, double probability);

    /** By moments. */
    record ByMoments(ScatterMoments moments) implements Components {
        @Override
        public String method() {
            return PrecisionFindings.MOMENTS;
        }

        @Override
        public ScatterComponent component(int term, double probability) {
            return moments.component(term, probability);
        }

        @Override
        public ScatterComponent sum(double[] weights, double probability) {
            return moments.sum(weights, probability);
        }
    }

    /** By restricted likelihood. */
    record ByLikelihood(ScatterReml reml) implements Components {
        @Override
        public String method() {
            return PrecisionFindings.REML;
        }

        @Override
        public ScatterComponent component(int term, double probability) {
            return reml.component(term, probability);
        }

        @Override
        public ScatterComponent sum(double[] weights, double probability) {
            return reml.sum(weights, probability);
        }
    }
}
