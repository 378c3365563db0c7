package splitledger.characteristic;

import java.util.List;

/**
 * All characteristics, in an order in which each comes after those it needs. A new one is one more
 * line here.
 */
public final class Catalogue {
    private Catalogue() {}

    /** Every characteristic. */
    public static List<Characteristic> all() {
        return List.of(
                new Calibration(),
                new Repeatability(),
                new Detection(),
                new SplitLinearity(),
                new Discrimination(),
                new Losses(),
                new Recovery(),
                new Maintenance());
    }
}
