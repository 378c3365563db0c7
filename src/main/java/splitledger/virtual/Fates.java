package splitledger.virtual;

import splitledger.statistics.RandomStream;

/** Draws what goes wrong with whole injections and flasks. */
final class Fates {
    private final Effects.Mishaps mishaps;
    private final Streams streams;
    private final double lowest;
    private final double highest;

    Fates(Design design) {
        mishaps = design.mishaps();
        streams = new Streams(design.seed());
        lowest =
                design.compounds().values().stream()
                        .mapToDouble(Design.Compound::boilingPoint)
                        .min()
                        .orElse(0);
        highest =
                design.compounds().values().stream()
                        .mapToDouble(Design.Compound::boilingPoint)
                        .max()
                        .orElse(0);
    }

    /** Whether a numbered flask never reached the instrument. */
    boolean lost(String flask) {
        final double share = mishaps.lostPreparations().fraction();
        return share > 0 && streams.of("lost", flask).nextDouble() < share;
    }

    /** A run is stopped at any boiling point between those of the first and the last peak. */
    Injection.Fate of(String flask, int number) {
        final double missing = mishaps.missing().fraction();
        final double aborted = mishaps.aborted().fraction();
        if (missing == 0 && aborted == 0) {
            return Injection.Fate.WELL;
        }
        final RandomStream random = streams.of("fate", flask, Integer.toString(number));
        final boolean gone = random.nextDouble() < missing;
        final boolean stopped = random.nextDouble() < aborted;
        final double at = lowest + random.nextDouble() * (highest - lowest);
        return new Injection.Fate(gone, stopped ? at : Double.POSITIVE_INFINITY);
    }
}
