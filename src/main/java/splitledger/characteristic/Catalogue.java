package splitledger.characteristic;

import java.util.List;
import splitledger.characteristic.calibration.Calibration;
import splitledger.characteristic.detection.Detection;
import splitledger.characteristic.discrimination.Discrimination;
import splitledger.characteristic.losses.Losses;
import splitledger.characteristic.maintenance.Maintenance;
import splitledger.characteristic.precision.Repeatability;
import splitledger.characteristic.recovery.Recovery;
import splitledger.characteristic.split.SplitLinearity;

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
