package splitledger.virtual;

/**
 * One number of the model with what a chemist must know to judge it.
 *
 * @param value in {@code unit}
 * @param unit its unit; {@code "%"} for relative standard deviations and shares
 * @param basis a published source, "common practice, no source" or "invented"
 */
public record Parameter(double value, String unit, String basis) {
    private static final String ABSENT = "not in the design";

    /** A parameter that the design does not name, with a value that has no effect. */
    static Parameter absent(double value, String unit) {
        return new Parameter(value, unit, ABSENT);
    }

    /**
     * The value as a fraction of 1.
     *
     * @throws IllegalStateException unless the unit is percent
     */
    public double fraction() {
        if (!unit.equals("%")) {
            throw new IllegalStateException("unit = " + unit + ", must be %");
        }
        return value / 100;
    }
}
