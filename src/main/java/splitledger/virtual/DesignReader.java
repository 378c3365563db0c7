package splitledger.virtual;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;

/** Reads a design file; every mistake is told with its place, all of them at once. */
public final class DesignReader {
    private static final double MOST = 1e6;
    private static final double MOST_SCATTER = 30;
    private static final double MOST_SEED = 1L << 53;

    private final List<Problem> problems = new ArrayList<>();

    private DesignReader() {}

    /**
     * Reads a design.
     *
     * @param file name for messages
     * @param bytes the file, YAML 1.2 in UTF-8
     * @throws ProblemException with every mistake that was found
     */
    public static Design read(String file, byte[] bytes) throws ProblemException {
        return read(file, YamlReader.read(file, bytes));
    }

    /**
     * A design whose file has been read.
     *
     * @param file name for messages
     * @param tree what stands in it
     * @throws ProblemException with every mistake that was found
     */
    public static Design read(String file, Tree.Mapping tree) throws ProblemException {
        final DesignReader reader = new DesignReader();
        final Design design = reader.design(new Fields(tree, reader.problems));
        if (reader.problems.isEmpty()) {
            reader.checkTogether(file, design);
        }
        if (!reader.problems.isEmpty()) {
            throw new ProblemException(reader.problems);
        }
        return design;
    }

    /** What only the design as a whole can tell. */
    private void checkTogether(String file, Design design) {
        design.standard().ifPresent(standard -> checkStandard(file, design, standard));
        final List<Injection> injections = Timetable.planned(design);
        for (Plan.Incident incident : design.incidents()) {
            if (injections.stream()
                    .noneMatch(
                            i ->
                                    i.flask().label().equals(incident.flask())
                                            && i.number() == incident.injection())) {
                problems.add(
                        new Problem(
                                file,
                                0,
                                "incidents",
                                "injection "
                                        + incident.injection()
                                        + " of flask "
                                        + incident.flask(),
                                "an injection of the design",
                                "flasks are numbered in the order in which they are made"));
            }
        }
    }

    private void checkStandard(String file, Design design, Design.Standard standard) {
        final double amount = standard.amount().value();
        design.levels()
                .forEach(
                        (level, amounts) -> {
                            final double there = amounts.getOrDefault(standard.compound(), amount);
                            if (there != amount) {
                                problems.add(
                                        new Problem(
                                                file,
                                                0,
                                                "levels." + level,
                                                Numbers.text(there) + " mg/L internal standard",
                                                Numbers.text(amount),
                                                "every solution holds the same amount of it"));
                            }
                        });
    }

    private Design design(Fields top) {
        top.number("splitledger-design", 1, 1);
        final Map<String, Design.Compound> compounds = compounds(top.fields("compounds"));
        final Collection<String> names = compounds.keySet();
        final Map<String, Map<String, Double>> levels = amounts(top.fields("levels"), names);
        final Map<String, Map<String, Double>> oils = amounts(top.optionalFields("oils"), names);
        final Design design =
                new Design(
                        top.text("title"),
                        (long) top.number("seed", 0, MOST_SEED),
                        ModelReader.inlet(top.fields("inlet")),
                        ModelReader.discrimination(top),
                        EffectsReader.needle(top),
                        EffectsReader.split(top),
                        losses(top, names),
                        ModelReader.detector(top.fields("detector")),
                        ModelReader.integration(top.fields("integration")),
                        ModelReader.preparation(top.fields("preparation")),
                        instruments(top.optionalFields("instruments")),
                        EffectsReader.stocks(top, levels.keySet()),
                        EffectsReader.mishaps(top),
                        standard(top, names),
                        top.knownTexts("targets", names),
                        top.knownTexts("forced-integration", names),
                        compounds,
                        levels,
                        oils,
                        amountsOf(top.optionalFields("impurities"), names),
                        recovered(top.optionalFields("recovered"), names),
                        top.list("days").stream()
                                .map(day -> PlanReader.day(day, levels.keySet(), oils.keySet()))
                                .toList(),
                        top.has("incidents")
                                ? top.list("incidents").stream().map(ModelReader::incident).toList()
                                : List.of(),
                        top.has("protocol")
                                ? protocol(top.fields("protocol"))
                                : Tree.Mapping.EMPTY);
        top.done();
        return design;
    }

    /** The block goes into the protocol as it stands; what the design decides must not be in it. */
    private static Tree.Mapping protocol(Fields fields) {
        for (String decided : List.of("splitledger", "tables", "compounds")) {
            if (fields.has(decided)) {
                fields.wrong(
                        fields.at(decided),
                        "the key '" + decided + "'",
                        "no such key here",
                        "the design decides it; take it out");
            }
        }
        return fields.tree();
    }

    private static Parameter instruments(Fields fields) {
        final Parameter between = fields.optional("between", "%", 0, MOST_SCATTER, 0);
        fields.done();
        return between;
    }

    private static Optional<Design.Standard> standard(Fields top, Collection<String> names) {
        if (!top.has("internal-standard")) {
            return Optional.empty();
        }
        final Fields fields = top.fields("internal-standard");
        final Design.Standard standard =
                new Design.Standard(
                        fields.known("compound", fields.text("compound"), names),
                        fields.parameter("amount", "mg/L", 0, MOST));
        fields.done();
        return Optional.of(standard);
    }

    private static Map<String, Parameter> recovered(Fields all, Collection<String> names) {
        return all.each(
                compound -> {
                    all.known(compound, compound, names);
                    return all.parameter(compound, "%", 1, 150);
                });
    }

    private static List<Design.Loss> losses(Fields top, Collection<String> names) {
        final List<Design.Loss> losses = new ArrayList<>();
        if (top.has("loss")) {
            losses.add(loss(top.fields("loss"), names));
        }
        if (top.has("losses")) {
            top.list("losses").forEach(one -> losses.add(loss(one, names)));
        }
        return losses;
    }

    private static Design.Loss loss(Fields fields, Collection<String> names) {
        final Fields products = fields.fields("products");
        final Design.Loss loss =
                new Design.Loss(
                        fields.known("parent", fields.text("parent"), names),
                        products.each(
                                product -> {
                                    products.known(product, product, names);
                                    return products.parameter(product, "%", 0, 100);
                                }),
                        fields.parameter("rate", "1/s", 0, MOST),
                        fields.parameter("rate-temperature", "degC", 0, 500),
                        fields.parameter("activation-energy", "kJ/mol", 0, 500));
        fields.done();
        return loss;
    }

    private static Map<String, Design.Compound> compounds(Fields all) {
        return all.each(
                name -> {
                    final Fields one = all.fields(name);
                    final Design.Compound compound =
                            new Design.Compound(
                                    name,
                                    one.number("boiling-point", -273.15, 1000),
                                    one.number("effective-carbon-number", 0, 100),
                                    one.number("molar-mass", 1, 2000));
                    one.done();
                    return compound;
                });
    }

    private static Map<String, Map<String, Double>> amounts(Fields all, Collection<String> names) {
        return all.each(label -> amountsOf(all.fields(label), names));
    }

    private static Map<String, Double> amountsOf(Fields fields, Collection<String> names) {
        return fields.each(
                compound -> {
                    fields.known(compound, compound, names);
                    return fields.number(compound, 0, MOST);
                });
    }
}
