package splitledger.inlet;

/**
 * Gas used by one instrument, at reference conditions. Without a reduced vent flow the full one
 * runs all the time.
 *
 * @param full flow into the inlet during an injection (column, vent, purge), any volume a minute
 * @param reduced flow after {@code after}; equal to {@code full} if nothing is reduced
 * @param after minutes from the injection until the flow is reduced
 * @param cycle minutes from one injection to the next
 */
public record GasUse(double full, double reduced, double after, double cycle) {
    private static final double MINUTES = 1440;

    public GasUse {
        if (!(full > 0 && reduced > 0 && after >= 0 && cycle > 0)) {
            throw new IllegalArgumentException(
                    "full = "
                            + full
                            + ", reduced = "
                            + reduced
                            + ", after = "
                            + after
                            + ", cycle = "
                            + cycle
                            + ", must be above 0");
        }
    }

    /** The same without reduction. */
    public GasUse unreduced() {
        return new GasUse(full, full, after, cycle);
    }

    /** Volume for one injection, from it to the next. */
    public double perInjection() {
        final double high = Math.min(after, cycle);
        return full * high + reduced * (cycle - high);
    }

    /**
     * Volume a day; between the last injection and the next day the lower flow runs on.
     *
     * @param injections on a day, which must fit into it
     */
    public double perDay(double injections) {
        final double idle = Math.max(0, MINUTES - injections * cycle);
        return injections * perInjection() + reduced * idle;
    }

    /**
     * Days that a cylinder lasts, by the ideal gas law at the reference temperature.
     *
     * @param volume of the cylinder, in the unit of the flows' volume
     * @param usable pressure of the full cylinder less that at which it is changed, over the
     *     reference pressure of the flows
     */
    public double days(double volume, double usable, double injections) {
        return volume * usable / perDay(injections);
    }
}
