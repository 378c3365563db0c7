package splitledger.intake.drafting;

import java.util.List;
import java.util.Locale;

/** What the label of a series seems to say about its rows. */
enum SeriesKind {
    CALIBRATION("calib", "cal", "std", "standard", "calibrant"),
    BLANK("blank", "blk", "bl", "zero"),
    REPEATABILITY("repeat", "precision", "replicate"),
    SPLIT("split"),
    LADDER("ladder", "alkane", "discrimination", "homologue"),
    INLET("inlet", "temperature", "breakdown", "degradation", "loss"),
    LOW_SPIKE("spike low", "low spike", "mdl"),
    SPIKE("spike", "recovery", "fortified"),
    SAMPLE("sample", "unknown", "unk"),
    OTHER;

    /** Words that tell it, separated by bars. */
    private final String words;

    SeriesKind(String... words) {
        this.words = String.join("|", words);
    }

    /** The kind of a label; of several that fit, the one with the longest word. */
    static SeriesKind of(String label) {
        final String text =
                " " + label.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{Nd}]+", " ").strip();
        SeriesKind best = OTHER;
        int length = 0;
        for (SeriesKind kind : values()) {
            for (String word : List.of(kind.words.split("\\|", -1))) {
                // short words must stand alone: "cal" is no part of "calm"
                final boolean met =
                        word.length() > 3
                                ? text.contains(" " + word)
                                : (text + " ").contains(" " + word + " ");
                if (met && word.length() > length) {
                    best = kind;
                    length = word.length();
                }
            }
        }
        return best;
    }
}
