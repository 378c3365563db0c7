package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Digits;
import splitledger.statistics.ScatterMoments;
import splitledger.statistics.ScatterStructure;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.Place;

/**
 * Variances between labels that come out negative: these labels agree better than the scatter
 * within them would let them, by chance or because they are not independent.
 *
 * @param compound whose responses they are
 * @param moments estimates by mean squares
 */
record NegativeComponents(String compound, ScatterMoments moments) {
    private static final double TOO_ALIKE = 0.05;
    private static final String SOURCE =
            "Searle, Casella and McCulloch, Variance Components, 1992 (from memory)";

    /** Which negative estimates count as 0 in a sum, in words; empty if none. */
    String cut() {
        final List<String> names = names();
        return names.isEmpty()
                ? ""
                : "; negative estimates count as 0: " + String.join(", ", names);
    }

    private List<String> names() {
        final ScatterStructure structure = moments.design().structure();
        final List<String> names = new ArrayList<>();
        for (int k = 0; k < structure.terms().size(); k++) {
            if (moments.raw(k) < 0) {
                names.add(structure.names().get(k));
            }
        }
        return names;
    }

    /** What is done with them, if there are any. */
    Optional<Choice> choice() {
        final List<String> names = names();
        if (names.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                new Choice(
                        Repeatability.ID,
                        compound,
                        "The variance between labels of "
                                + String.join(", ", names)
                                + " comes out negative and counts as 0",
                        "these labels agree better than the scatter within them would let them: nothing of their own is"
                                + " seen, which with few labels happens by chance; the intervals still use what came out",
                        SOURCE));
    }

    /** Labels that agree better than chance lets them: not independent, or chosen, or corrected. */
    List<Flag> flags() {
        final List<String> all = moments.design().structure().names();
        final List<Flag> flags = new ArrayList<>();
        for (String name : names()) {
            final int term = all.indexOf(name);
            final double p = moments.lowerTail(term);
            if (p < TOO_ALIKE) {
                flags.add(
                        new Flag(
                                Place.NONE,
                                compound + ", " + name,
                                "the labels of "
                                        + name
                                        + " agree better than the scatter within them lets them: mean square "
                                        + Digits.three(moments.meanSquare(term))
                                        + ", probability of one so small "
                                        + Digits.two(p)
                                        + "; perhaps they are not independent (values adjusted to each other, repeated"
                                        + " until they agreed, one calibration for each), or what scatters within"
                                        + " them does not do so at random; by chance it happens to one in twenty"));
            }
        }
        return flags;
    }
}
