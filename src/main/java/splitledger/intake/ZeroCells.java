package splitledger.intake;

import splitledger.base.Problem;

/** Areas of 0 in one file: only the protocol can tell what they mean. */
final class ZeroCells {
    private final TableSpec spec;
    private final Reading reading;
    private int count;
    private int firstLine;
    private String firstHeading = "";

    ZeroCells(TableSpec spec, Reading reading) {
        this.spec = spec;
        this.reading = reading;
    }

    /** Counts a 0; whether it means that nothing was detected. */
    boolean isNothing(int line, String heading) {
        if (count++ == 0) {
            firstLine = line;
            firstHeading = heading;
        }
        return meansNothing();
    }

    private boolean meansNothing() {
        return spec.zero().filter(z -> z == TableSpec.Zero.NOT_DETECTED).isPresent();
    }

    /** Tells what was decided, or asks what to decide. */
    void tell() {
        if (spec.zero().isPresent()) {
            reading.choice(
                    "an area of 0 in "
                            + spec.file()
                            + (meansNothing() ? " means not detected" : " is a measured 0"),
                    "zero-means is stated at the table; it has " + count + " such cells",
                    "as stated in the protocol");
        } else if (count > 0) {
            reading.problem(
                    new Problem(
                            spec.file(),
                            firstLine,
                            firstHeading,
                            "an area of 0 ("
                                    + count
                                    + (count == 1 ? " cell" : " cells")
                                    + " in all)",
                            "an answer to: does 0 mean that the peak was measured as 0, or that none"
                                    + " was detected?",
                            "add zero-means: measured, or zero-means: not-detected, at this table in"
                                    + " the protocol"));
        }
    }
}
