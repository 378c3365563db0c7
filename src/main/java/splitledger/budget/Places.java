package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import splitledger.budget.Sources.Source;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.study.Key;
import splitledger.study.Protocol.Found;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Study;

/** Where budgets are made: at the calibration levels, or at each result. */
final class Places {
    private final Study study;
    private final Measurand measurand;
    private final SortedMap<String, UncertainLine> lines;

    Places(Study study, Measurand measurand, SortedMap<String, UncertainLine> lines) {
        this.study = study;
        this.measurand = measurand;
        this.lines = lines;
    }

    /** The one place of an equation in which nothing is found. */
    static Place alone(String compound) {
        return new Place(
                Key.of(Budgets.ID, compound, "result", Results.LAW),
                "",
                Double.NaN,
                1,
                Optional.empty());
    }

    /** The calibration levels; where there is no line, each result itself. */
    List<Place> of(String compound, List<Source> sources) {
        if (measurand.found() != Found.AMOUNT) {
            return sources.stream().map(Places::itself).toList();
        }
        final UncertainLine line = lines.get(compound);
        if (line == null) {
            return List.of();
        }
        final int[] counts =
                sources.stream()
                        .mapToInt(s -> s.rows().size())
                        .filter(n -> n > 0)
                        .sorted()
                        .toArray();
        final double usual = counts.length == 0 ? 1 : counts[counts.length / 2];
        final double injections = measurand.reporting().injections().orElse(usual);
        final List<Place> places = new ArrayList<>();
        Levels.of(study, compound)
                .forEach(
                        (label, amount) ->
                                places.add(
                                        new Place(
                                                Key.of(Budgets.ID, compound, "result", Results.LAW)
                                                        .with("level", label),
                                                label,
                                                amount,
                                                injections,
                                                Optional.empty())));
        return places;
    }

    private static Place itself(Source source) {
        final double amount = source.found().fold(Uncertain::value, not -> Double.NaN);
        final String label =
                source.key().condition().isEmpty()
                        ? ""
                        : String.join(", ", source.key().condition().values());
        return new Place(
                source.key(),
                label,
                amount,
                Math.max(1, source.rows().size()),
                Optional.of(source));
    }
}
