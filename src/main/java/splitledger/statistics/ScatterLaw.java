package splitledger.statistics;

/**
 * Variance of a response about its mean mu: {@code s^2(mu) = s0^2 + (s1 mu)^2} (two components: D.
 * M. Rocke and S. Lorenzato, Technometrics 37 (1995) 176, from memory, here with both parts
 * normal).
 *
 * @param constant s0^2, in the response unit squared, {@code >= 0}
 * @param proportional s1^2, {@code >= 0}
 */
public record ScatterLaw(double constant, double proportional) {

    /** Which parts are there. */
    public enum Form {
        CONSTANT("the same scatter at every level"),
        PROPORTIONAL("scatter proportional to the response"),
        BOTH("a constant part and one proportional to the response");

        private final String words;

        Form(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /** Checks that both parts are finite, not negative and not both 0. */
    public ScatterLaw {
        if (!(constant >= 0 && proportional >= 0)
                || !(constant + proportional > 0)
                || !(constant + proportional < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "s0^2 = "
                            + constant
                            + ", s1^2 = "
                            + proportional
                            + ", must be finite, not negative and not both 0");
        }
    }

    /** Variance at a mean response. */
    public double variance(double mean) {
        return constant + proportional * mean * mean;
    }

    /** Which parts are above 0. */
    public Form form() {
        return proportional == 0 ? Form.CONSTANT : constant == 0 ? Form.PROPORTIONAL : Form.BOTH;
    }
}
