package splitledger.virtual;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.intake.ProtocolWords;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * The characteristics that a simulated study can be asked for: those that the schema knows and
 * whose series the design holds, with the options that the schema knows.
 */
final class ReadyCharacteristics {
    /** Percent; common practice, no source. */
    private static final double MARGIN = 10;

    private static final List<String> BLANK_AND_LINE = List.of("calibration", "blank");

    private final Design design;
    private final ProtocolWords words;
    private final Set<String> series;

    ReadyCharacteristics(Design design, Set<String> series, ProtocolWords words) {
        this.design = design;
        this.words = words;
        this.series = series;
    }

    Tree.Mapping tree() {
        final Map<String, Tree> all = new LinkedHashMap<>();
        final Map<String, Tree> wanted = wanted();
        words.characteristics()
                .forEach(
                        (id, options) -> {
                            final Map<String, Tree> known = new LinkedHashMap<>();
                            if (wanted.get(id) instanceof Tree.Mapping mapping) {
                                known.putAll(mapping.entries());
                            }
                            known.keySet().retainAll(options);
                            final List<String> needed =
                                    words.required().getOrDefault(id, List.of());
                            if (!known.isEmpty() && known.keySet().containsAll(needed)) {
                                all.put(id, YamlText.mapping(known));
                            }
                        });
        return YamlText.mapping(all);
    }

    /** What would be asked of each characteristic, were it known. */
    private Map<String, Tree> wanted() {
        final Map<String, Tree> all = new LinkedHashMap<>();
        if (series.contains("calibration")) {
            all.put("calibration", where(List.of("calibration")).tree());
            final Pairs detection =
                    where(BLANK_AND_LINE.stream().filter(series::contains).toList());
            if (series.contains("spike-low")) {
                detection.and("spiked", of("series", "spike-low").tree());
            }
            all.put("detection", detection.tree());
        }
        if (series.contains("repeatability")) {
            all.put("repeatability", repeatability());
        }
        if (series.contains("split")) {
            all.put(
                    "split-linearity",
                    where(List.of("split"))
                            .and(
                                    "reference-ratio",
                                    YamlText.number(design.inlet().splitRatio().value()))
                            .tree());
        }
        if (series.contains("ladder")) {
            all.put("discrimination", discrimination());
            if (occasions().size() > 1) {
                all.put("maintenance", maintenance());
            }
        }
        if (series.contains("inlet-temperature") && !design.losses().isEmpty()) {
            all.put("losses", losses());
        }
        if (series.contains("spike")
                || (series.contains("transfer") && series.contains("on-column"))) {
            all.put("recovery", recovery());
        }
        return all;
    }

    private Tree repeatability() {
        final List<Plan.Batch> batches = design.batches("repeatability");
        final Set<String> analysts = new LinkedHashSet<>();
        final Set<String> instruments = new LinkedHashSet<>();
        batches.forEach(b -> analysts.addAll(b.analysts()));
        batches.forEach(b -> instruments.addAll(b.instruments()));
        final List<String> factors = new ArrayList<>(List.of("day"));
        if (analysts.size() > 1) {
            factors.add("analyst");
        }
        if (instruments.size() > 1) {
            factors.add("instrument");
        }
        final Pairs all =
                where(List.of("repeatability"))
                        .and(
                                "factors",
                                new Tree.Sequence(
                                        Place.NONE, factors.stream().map(YamlText::text).toList()));
        if (batches.stream().anyMatch(b -> !b.oils().isEmpty())) {
            all.and("per", "oil");
        }
        return all.tree();
    }

    private Set<String> occasions() {
        final Set<String> occasions = new LinkedHashSet<>();
        design.batches("ladder").forEach(b -> occasions.add(b.occasion()));
        return occasions;
    }

    /** Scatter between occasions is that of gain and setting, which the laboratory knows. */
    private Tree maintenance() {
        final double gain = design.detector().dayGain().value();
        final double setting = design.inlet().splitSettingScatter().value();
        return where(List.of("ladder"))
                .and("margin", YamlText.number(MARGIN))
                .and(
                        "occasion-scatter",
                        YamlText.number(Math.sqrt(gain * gain + setting * setting)))
                .tree();
    }

    private Tree discrimination() {
        final Pairs rows = of("series", "ladder");
        final Set<String> occasions = occasions();
        if (occasions.size() > 1) {
            rows.and("occasion", YamlText.text(occasions.iterator().next()));
        }
        final Pairs all = of("where", rows.tree());
        design.reference().ifPresent(r -> all.and("reference", r));
        return all.and("expected", "carbon-number").tree();
    }

    /**
     * Liner, pressure and flow of the inlet, and what the laboratory says of responses and amounts.
     */
    private Tree losses() {
        final Pairs products = new Pairs();
        design.losses()
                .forEach(
                        loss ->
                                products.and(
                                        loss.parent(),
                                        YamlText.texts(List.copyOf(loss.products().keySet()))));
        final Design.Inlet inlet = design.inlet();
        final double response =
                TruthSheet.PERCENT * design.detector().responseDeviation().fraction();
        final double amount =
                TruthSheet.PERCENT
                        * TruthSheet.root(
                                design.preparation().dilution().fraction(),
                                design.preparation().standardAddition().fraction());
        return where(List.of("inlet-temperature"))
                .and("products", products.tree())
                .and("expected", "carbon-number")
                .and("response-uncertainty", YamlText.number(response))
                .and("amount-uncertainty", YamlText.number(amount))
                .and("liner-volume", YamlText.number(inlet.linerVolume().value()))
                .and("inlet-pressure", YamlText.number(inlet.pressure().value()))
                .and("column-flow", YamlText.number(inlet.columnFlow().value()))
                .and(
                        "residence-time-uncertainty",
                        YamlText.number(
                                TruthSheet.PERCENT * inlet.splitSettingScatter().fraction()))
                .tree();
    }

    /** Spiked and unspiked preparations of the same series are told apart by their level. */
    private Tree recovery() {
        final Set<String> spiked = new LinkedHashSet<>();
        final Set<String> unspiked = new LinkedHashSet<>();
        for (Plan.Batch batch : design.batches("spike")) {
            for (String level : batch.levels()) {
                final boolean nothing =
                        design.levels().getOrDefault(level, Map.of()).values().stream()
                                .allMatch(amount -> amount == 0);
                (nothing ? unspiked : spiked).add(level);
            }
        }
        final Pairs all = new Pairs();
        if (!spiked.isEmpty()) {
            all.and(
                            "where",
                            of("series", "spike")
                                    .and("level", YamlText.texts(List.copyOf(spiked)))
                                    .tree())
                    .and("added", "amount");
        }
        if (!unspiked.isEmpty()) {
            all.and(
                    "native",
                    of("series", "spike")
                            .and("level", YamlText.texts(List.copyOf(unspiked)))
                            .tree());
        }
        if (design.batches("spike").stream().anyMatch(b -> !b.oils().isEmpty())) {
            all.and("per", "oil");
        }
        if (series.contains("transfer") && series.contains("on-column")) {
            all.and("split-injections", of("series", "transfer").tree())
                    .and("on-column", of("series", "on-column").tree());
        }
        return all.tree();
    }

    private static Pairs where(List<String> series) {
        return of("where", of("series", YamlText.texts(series)).tree());
    }

    private static Pairs of(String key, String text) {
        return new Pairs().and(key, text);
    }

    private static Pairs of(String key, Tree value) {
        return new Pairs().and(key, value);
    }
}
