package splitledger.characteristic.discrimination;

import java.util.Optional;
import splitledger.study.Flag;
import splitledger.study.Place;
import splitledger.study.Study;

/** Where effective carbon numbers hold: they are responses of flame ionisation. */
public final class CarbonNumbers {
    private static final String FLAME_IONISATION = "FID";

    private CarbonNumbers() {}

    /**
     * A flag if the study names another detector; none if it names none.
     *
     * @param study whose instrument it is
     * @param instead what to do instead, in words
     */
    public static Optional<Flag> otherDetector(Study study, String instead) {
        return Optional.ofNullable(study.protocol().instrument().get("detector"))
                .filter(d -> !d.isEmpty() && !d.equals(FLAME_IONISATION))
                .map(
                        d ->
                                new Flag(
                                        Place.NONE,
                                        "detector " + d,
                                        "effective carbon numbers hold for flame ionisation only: "
                                                + instead));
    }
}
