package splitledger.virtual;

import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import splitledger.base.Numbers;
import splitledger.intake.ProtocolWords;
import splitledger.study.Tree;

/**
 * The measurement equation of the simulated samples: a mass fraction, from the amount found, the
 * volume to which the test portion was made up and the portion itself, with the precision between
 * results as it was observed. Every number in it is one of the design.
 */
final class ReadyMeasurand {
    private static final String WIDEST = "rsd-intermediate";

    private final Design design;
    private final Set<String> series;
    private final ProtocolWords words;

    ReadyMeasurand(Design design, Set<String> series, ProtocolWords words) {
        this.design = design;
        this.series = series;
        this.words = words;
    }

    Tree tree() {
        final boolean precise =
                series.contains("repeatability")
                        && design.batches("repeatability").stream()
                                .anyMatch(b -> !b.oils().isEmpty());
        final Design.Preparation p = design.preparation();
        final Pairs inputs = new Pairs();
        inputs.and(
                "V",
                new Pairs()
                        .and("value", Numbers.text(p.volume().value()) + " mL")
                        .and("standard-uncertainty", Numbers.text(p.flaskVolume().value()) + " mL")
                        .and("source", p.flaskVolume().basis())
                        .tree());
        inputs.and(
                "oil",
                new Pairs()
                        .and("column", "oil")
                        .and("unit", "mg")
                        .and("standard-uncertainty", Numbers.text(p.balance().value()) + " mg")
                        .and("source", p.balance().basis())
                        .tree());
        if (precise) {
            inputs.and(
                    "precision",
                    new Pairs()
                            .and("value", YamlText.number(1))
                            .and(
                                    "spread-of",
                                    words.quantities().contains(WIDEST)
                                            ? WIDEST
                                            : "rsd-repeatability")
                            .and("mean-of", YamlText.number(1))
                            .tree());
        }
        final Optional<Effects.Stock> stock = stock();
        stock.ifPresent(
                s ->
                        inputs.and(
                                "stock",
                                new Pairs()
                                        .and("value", YamlText.number(1))
                                        .and(
                                                "standard-uncertainty",
                                                YamlText.number(s.mass().fraction()))
                                        .and("source", s.mass().basis())
                                        .tree()));
        inputs.and("R", "not-corrected");
        return new Pairs()
                .and("name", "mass fraction in the oil")
                .and("unit", "mg/g")
                .and(
                        "equation",
                        "found * V / oil"
                                + (precise ? " * precision" : "")
                                + (stock.isPresent() ? " * stock" : "")
                                + " / R")
                .and("inputs", inputs.tree())
                .and("results-for", new Pairs().and("series", "sample").tree())
                .tree();
    }

    /** The stock of the calibrants, where all of them come from one. */
    private Optional<Effects.Stock> stock() {
        final Set<String> levels = new LinkedHashSet<>();
        design.batches("calibration").forEach(b -> levels.addAll(b.levels()));
        return design.stocks().stream().filter(s -> s.levels().containsAll(levels)).findFirst();
    }
}
