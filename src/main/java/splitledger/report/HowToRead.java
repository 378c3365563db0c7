package splitledger.report;

import java.util.Map;
import splitledger.handbook.Handbook;
import splitledger.handbook.PageHtml;

/** The page of the handbook on a characteristic, as it stands at the end of its section. */
final class HowToRead {
    private HowToRead() {}

    /**
     * Finished markup, quantities in words; empty if the handbook has no page on it.
     *
     * @param characteristic its id
     * @param anchors of the sections of this report, by characteristic
     */
    static String of(String characteristic, Map<String, String> anchors) {
        return Handbook.read()
                .page(characteristic)
                .map(page -> PageHtml.of(page, 1, Wording::known, anchors))
                .orElse("");
    }
}
