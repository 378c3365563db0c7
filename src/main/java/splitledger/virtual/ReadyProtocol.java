package splitledger.virtual;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.base.Numbers;
import splitledger.intake.ProtocolWords;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * The protocol by which the simulated tables can be evaluated at once. It asks for every
 * characteristic that the schema knows and whose series the design holds; what the design's own
 * block {@code protocol} says goes before.
 */
final class ReadyProtocol {
    private static final List<String> BLANK_AND_LINE = List.of("calibration", "blank");

    private final Design design;
    private final ProtocolWords words;
    private final Set<String> series = new LinkedHashSet<>();

    private ReadyProtocol(Design design, ProtocolWords words) {
        this.design = design;
        this.words = words;
        design.batches().forEach(b -> series.add(b.experiment()));
    }

    /** The schema is read once: it does not change while the program runs. */
    private static final class Shipped {
        private static final ProtocolWords WORDS = ProtocolWords.shipped();
    }

    /** The file, for the schema of this program. */
    static byte[] of(Design design, Exclusions exclusions) {
        return YamlText.of(new ReadyProtocol(design, Shipped.WORDS).document(exclusions));
    }

    /** Injections that were stopped: the laboratory knows and leaves them out. */
    record Exclusions(List<String> injections) {
        Exclusions {
            injections = List.copyOf(injections);
        }
    }

    private Map<String, Tree> document(Exclusions exclusions) {
        final Map<String, Tree> all = new LinkedHashMap<>();
        all.put("splitledger", YamlText.number(1));
        all.put("title", YamlText.text(design.title()));
        all.put("purpose", YamlText.text("full-validation"));
        all.put("tables", tables());
        all.put("compounds", compounds());
        all.put("conventions", conventions());
        all.put("characteristics", characteristics());
        measurand().ifPresent(m -> all.put("measurand", m));
        if (!exclusions.injections().isEmpty()) {
            all.put("exclusions", new Tree.Sequence(Place.NONE, stopped(exclusions)));
        }
        design.protocol()
                .entries()
                .forEach(
                        (key, tree) ->
                                all.merge(key, tree, (mine, own) -> together(key, mine, own)));
        return all;
    }

    private Tree together(String key, Tree mine, Tree own) {
        if (mine instanceof Tree.Mapping m && own instanceof Tree.Mapping o) {
            final Map<String, Tree> both = new LinkedHashMap<>(m.entries());
            o.entries()
                    .forEach(
                            (name, tree) -> {
                                if (!key.equals("characteristics")
                                        || words.characteristics().containsKey(name)) {
                                    both.put(name, tree);
                                }
                            });
            return YamlText.mapping(both);
        }
        if (mine instanceof Tree.Sequence m && own instanceof Tree.Sequence o) {
            final List<Tree> both = new ArrayList<>(m.items());
            both.addAll(o.items());
            return new Tree.Sequence(Place.NONE, both);
        }
        return own;
    }

    private static List<Tree> stopped(Exclusions exclusions) {
        final List<Tree> all = new ArrayList<>();
        for (String injection : exclusions.injections()) {
            all.add(
                    of("injection", injection)
                            .and("reason", "run stopped")
                            .and("who", "the virtual analyst")
                            .tree());
        }
        return all;
    }

    private Tree tables() {
        final Pairs runList = of("injection", "injection");
        Simulation.RUN_LIST.forEach((name, heading) -> runList.and(name, YamlText.text(heading)));
        return new Tree.Sequence(
                Place.NONE,
                List.of(
                        of("file", Simulation.AREAS)
                                .and("form", "wide")
                                .and("columns", of("injection", Simulation.SAMPLE_ID).tree())
                                .and("zero-means", "not-detected")
                                .tree(),
                        of("file", Simulation.RUNS)
                                .and("joins-on", "injection")
                                .and("columns", runList.tree())
                                .tree(),
                        of("file", Simulation.LEVELS)
                                .and("joins-on", YamlText.texts(List.of("level", "compound")))
                                .tree()));
    }

    private Tree compounds() {
        final Design.Standard standard = design.standard();
        final Pairs all =
                of("from", Simulation.COMPOUNDS).and("targets", YamlText.texts(design.targets()));
        final List<String> ladder = ladder();
        if (!ladder.isEmpty()) {
            all.and("ladder", YamlText.texts(ladder));
        }
        return all.and(
                        "internal-standard",
                        of("compound", standard.compound())
                                .and("amount", YamlText.text(mgPerLitre(standard.amount().value())))
                                .tree())
                .tree();
    }

    private static String mgPerLitre(double value) {
        return Numbers.text(value) + " mg/L";
    }

    /** Members of the ladder by boiling point. */
    private List<String> ladder() {
        final Set<String> members = new LinkedHashSet<>();
        for (Design.Batch batch : design.batches("ladder")) {
            batch.levels()
                    .forEach(
                            l ->
                                    members.addAll(
                                            design.levels().getOrDefault(l, Map.of()).keySet()));
        }
        return members.stream()
                .sorted(Comparator.comparingDouble(c -> design.compound(c).boilingPoint()))
                .toList();
    }

    private Tree conventions() {
        return of("split-ratio", "total-to-column")
                .and("recalibrated", "once")
                .and("area-unit", "pA*s")
                .and("amount-unit", "mg/L")
                .tree();
    }

    private Tree.Mapping characteristics() {
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
        }
        if (series.contains("inlet-temperature")) {
            all.put("losses", losses());
        }
        if (series.contains("spike")) {
            all.put("recovery", recovery());
        }
        return all;
    }

    private Tree repeatability() {
        final List<Design.Batch> batches = design.batches("repeatability");
        final Set<String> analysts = new LinkedHashSet<>();
        batches.forEach(b -> analysts.addAll(b.analysts()));
        final List<String> factors = new ArrayList<>(List.of("day"));
        if (analysts.size() > 1) {
            factors.add("analyst");
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

    private Tree discrimination() {
        final Pairs rows = of("series", "ladder");
        final Set<String> occasions = new LinkedHashSet<>();
        design.batches("ladder").forEach(b -> occasions.add(b.occasion()));
        if (occasions.size() > 1) {
            rows.and("occasion", YamlText.text(occasions.iterator().next()));
        }
        final Pairs all = of("where", rows.tree());
        design.reference().ifPresent(r -> all.and("reference", r));
        return all.and("expected", "carbon-number").tree();
    }

    private Tree losses() {
        return where(List.of("inlet-temperature"))
                .and("parent", YamlText.text(design.loss().parent()))
                .and(
                        "products",
                        new Tree.Sequence(
                                Place.NONE,
                                design.loss().products().keySet().stream()
                                        .map(YamlText::text)
                                        .toList()))
                .tree();
    }

    /** Spiked and unspiked preparations of the same series are told apart by their level. */
    private Tree recovery() {
        final Set<String> spiked = new LinkedHashSet<>();
        final Set<String> native_ = new LinkedHashSet<>();
        for (Design.Batch batch : design.batches("spike")) {
            for (String level : batch.levels()) {
                final boolean nothing =
                        design.levels().getOrDefault(level, Map.of()).values().stream()
                                .allMatch(amount -> amount == 0);
                (nothing ? native_ : spiked).add(level);
            }
        }
        final Pairs all =
                of(
                                "where",
                                of("series", "spike")
                                        .and("level", YamlText.texts(List.copyOf(spiked)))
                                        .tree())
                        .and("added", "amount");
        if (!native_.isEmpty()) {
            all.and(
                    "native",
                    of("series", "spike")
                            .and("level", YamlText.texts(List.copyOf(native_)))
                            .tree());
        }
        return all.tree();
    }

    /** Results for the samples, where oils are weighed and a line turns responses into amounts. */
    private Optional<Tree> measurand() {
        if (!series.contains("sample")
                || !series.contains("calibration")
                || design.batches("sample").stream().allMatch(b -> b.oils().isEmpty())) {
            return Optional.empty();
        }
        return Optional.of(new ReadyMeasurand(design, words).tree());
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
