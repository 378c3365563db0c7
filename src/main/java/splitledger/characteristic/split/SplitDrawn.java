package splitledger.characteristic.split;

import java.util.List;
import splitledger.study.Trail;

/**
 * What the figures of the split are drawn from.
 *
 * @param setUps rows by setting and set-up
 * @param options of the protocol
 * @param each compound's findings
 * @param pooled those of all compounds together
 * @param together what only all compounds tell
 * @param coverage of every interval
 */
record SplitDrawn(
        SplitSetUps setUps,
        SplitOptions options,
        List<SplitFindings> each,
        SplitFindings pooled,
        SplitTogether together,
        double coverage) {
    SplitDrawn {
        each = List.copyOf(each);
    }

    /** The coverage in words. */
    String percent() {
        return Trail.digits(100 * coverage) + " %";
    }
}
