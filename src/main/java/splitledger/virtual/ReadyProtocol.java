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
    private final Design design;
    private final ProtocolWords words;
    private final Set<String> series = new LinkedHashSet<>();

    private final List<Injection> plan;

    private ReadyProtocol(Design design, List<Injection> plan, ProtocolWords words) {
        this.design = design;
        this.plan = plan;
        this.words = words;
        plan.stream().filter(i -> !i.fate().missing()).forEach(i -> series.add(i.experiment()));
    }

    /** The schema is read once: it does not change while the program runs. */
    private static final class Shipped {
        private static final ProtocolWords WORDS = ProtocolWords.shipped();
    }

    /** The file, for the schema of this program. */
    static byte[] of(Design design, List<Injection> plan) {
        return YamlText.of(new ReadyProtocol(design, plan, Shipped.WORDS).document());
    }

    private Map<String, Tree> document() {
        final Map<String, Tree> all = new LinkedHashMap<>();
        all.put("splitledger", YamlText.number(1));
        all.put("title", YamlText.text(design.title()));
        all.put("purpose", YamlText.text("full-validation"));
        all.put("tables", tables(plan.stream().anyMatch(i -> i.fate().missing())));
        all.put("compounds", compounds());
        all.put("conventions", conventions());
        all.put("characteristics", new ReadyCharacteristics(design, series, words).tree());
        measurand().ifPresent(m -> all.put("measurand", m));
        final List<Tree> stopped = stopped();
        if (!stopped.isEmpty()) {
            all.put("exclusions", new Tree.Sequence(Place.NONE, stopped));
        }
        design.protocol()
                .entries()
                .forEach(
                        (key, tree) ->
                                all.merge(
                                        key,
                                        known(key, tree),
                                        (mine, own) -> together(key, mine, own)));
        return all;
    }

    /** Requirements on quantities that this program does not give are left out. */
    private Tree known(String key, Tree tree) {
        if (!key.equals("requirements") || !(tree instanceof Tree.Sequence list)) {
            return tree;
        }
        return new Tree.Sequence(
                Place.NONE,
                list.items().stream()
                        .filter(
                                item ->
                                        !(item instanceof Tree.Mapping r)
                                                || words.quantities()
                                                        .contains(r.text("quantity").orElse("")))
                        .toList());
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

    /** Injections that were stopped: the laboratory knows and leaves them out. */
    private List<Tree> stopped() {
        final List<Tree> all = new ArrayList<>();
        for (Injection injection : plan) {
            if (injection.fate().stopped() && !injection.fate().missing()) {
                all.add(
                        of("injection", injection.label())
                                .and("reason", "run stopped")
                                .and("who", "the virtual analyst")
                                .tree());
            }
        }
        return all;
    }

    private Tree tables(boolean someMissing) {
        final Pairs runList = of("injection", "injection");
        RunList.headings(design).forEach(runList::and);
        final Pairs runs =
                of("file", Simulation.RUNS)
                        .and("joins-on", "injection")
                        .and("columns", runList.tree());
        if (someMissing) {
            runs.and("unmatched", "ignore");
        }
        return new Tree.Sequence(
                Place.NONE,
                List.of(
                        of("file", Simulation.AREAS)
                                .and("form", "wide")
                                .and("columns", of("injection", Simulation.SAMPLE_ID).tree())
                                .and("zero-means", "not-detected")
                                .tree(),
                        runs.tree(),
                        of("file", Simulation.LEVELS)
                                .and("joins-on", YamlText.texts(List.of("level", "compound")))
                                .tree()));
    }

    private Tree compounds() {
        final Pairs all =
                of("from", Simulation.COMPOUNDS).and("targets", YamlText.texts(design.targets()));
        final List<String> ladder = ladder();
        if (!ladder.isEmpty()) {
            all.and("ladder", YamlText.texts(ladder));
        }
        design.standard()
                .ifPresent(
                        standard ->
                                all.and(
                                        "internal-standard",
                                        of("compound", standard.compound())
                                                .and(
                                                        "amount",
                                                        Numbers.text(standard.amount().value())
                                                                + " mg/L")
                                                .tree()));
        return all.tree();
    }

    /** Members of the ladder by boiling point. */
    private List<String> ladder() {
        final Set<String> members = new LinkedHashSet<>();
        for (Plan.Batch batch : design.batches("ladder")) {
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
        final Pairs all = new Pairs();
        if (design.split().columns().ratio()) {
            all.and("split-ratio", design.split().protocol().code());
        }
        if (design.split().columns().flows()) {
            all.and("flows-at", of("temperature", "25 degC").and("pressure", "101.325 kPa").tree());
        }
        return all.and("recalibrated", "once")
                .and("area-unit", "pA*s")
                .and("amount-unit", "mg/L")
                .tree();
    }

    /** Results for the samples, where oils are weighed and a line turns responses into amounts. */
    private Optional<Tree> measurand() {
        if (!series.contains("sample")
                || !series.contains("calibration")
                || design.batches("sample").stream().allMatch(b -> b.oils().isEmpty())) {
            return Optional.empty();
        }
        return Optional.of(new ReadyMeasurand(design, series, words).tree());
    }

    private static Pairs of(String key, String text) {
        return new Pairs().and(key, text);
    }
}
