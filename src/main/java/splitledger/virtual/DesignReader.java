package splitledger.virtual;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;

/** Reads a design file; every mistake is told with its place, all of them at once. */
public final class DesignReader {
    private static final double MOST = 1e6;
    private static final int MOST_COPIES = 1000;
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
        final double amount = design.standard().amount().value();
        design.levels()
                .forEach(
                        (level, amounts) -> {
                            final double there =
                                    amounts.getOrDefault(design.standard().compound(), amount);
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
        final List<Injection> injections = Timetable.of(design);
        for (Design.Incident incident : design.incidents()) {
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

    private Design design(Fields top) {
        top.number("splitledger-design", 1, 1);
        final Map<String, Design.Compound> compounds = compounds(top.fields("compounds"));
        final Collection<String> names = compounds.keySet();
        final Map<String, Map<String, Double>> levels = amounts(top.fields("levels"), names);
        final Map<String, Map<String, Double>> oils = amounts(top.fields("oils"), names);
        final Fields standard = top.fields("internal-standard");
        final Design design =
                new Design(
                        top.text("title"),
                        (long) top.number("seed", 0, MOST_SEED),
                        ModelReader.inlet(top.fields("inlet")),
                        ModelReader.discrimination(top.fields("discrimination")),
                        loss(top.fields("loss"), names),
                        ModelReader.detector(top.fields("detector")),
                        ModelReader.integration(top.fields("integration")),
                        ModelReader.preparation(top.fields("preparation")),
                        new Design.Standard(
                                known(standard, "compound", standard.text("compound"), names),
                                standard.parameter("amount", "mg/L", 0, MOST)),
                        allKnown(top, "targets", names),
                        allKnown(top, "forced-integration", names),
                        compounds,
                        levels,
                        oils,
                        amountsOf(top.fields("impurities"), names),
                        top.list("days").stream()
                                .map(day -> day(day, levels.keySet(), oils.keySet()))
                                .toList(),
                        top.has("incidents")
                                ? top.list("incidents").stream().map(ModelReader::incident).toList()
                                : List.of(),
                        top.has("protocol")
                                ? protocol(top.fields("protocol"))
                                : Tree.Mapping.EMPTY);
        standard.done();
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

    private Design.Loss loss(Fields fields, Collection<String> names) {
        final Fields products = fields.fields("products");
        final Design.Loss loss =
                new Design.Loss(
                        known(fields, "parent", fields.text("parent"), names),
                        products.each(
                                product -> {
                                    known(products, product, product, names);
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

    private Map<String, Map<String, Double>> amounts(Fields all, Collection<String> names) {
        return all.each(label -> amountsOf(all.fields(label), names));
    }

    private Map<String, Double> amountsOf(Fields fields, Collection<String> names) {
        return fields.each(
                compound -> {
                    known(fields, compound, compound, names);
                    return fields.number(compound, 0, MOST);
                });
    }

    private Design.Day day(Fields fields, Collection<String> levels, Collection<String> oils) {
        final Design.Day day =
                new Design.Day(
                        fields.text("day"),
                        moment(fields, "date", LocalDate::parse, LocalDate.EPOCH, "2026-02-16"),
                        moment(fields, "start", LocalTime::parse, LocalTime.MIN, "08:00"),
                        fields.lists("sessions").stream()
                                .map(
                                        session ->
                                                session.stream()
                                                        .map(batch -> batch(batch, levels, oils))
                                                        .toList())
                                .toList());
        fields.done();
        return day;
    }

    private Design.Batch batch(Fields fields, Collection<String> levels, Collection<String> oils) {
        final boolean numbered = fields.has("flasks");
        if (numbered == fields.has("flask")) {
            fields.wrong(
                    fields.place(),
                    numbered ? "'flask' and 'flasks'" : "neither 'flask' nor 'flasks'",
                    "one of them",
                    "'flask: CHECK' is one solution, 'flasks: K' numbers them K01, K02, ...");
        }
        final Design.Batch batch =
                new Design.Batch(
                        fields.text("experiment"),
                        numbered ? fields.text("flasks") : fields.text("flask", ""),
                        numbered,
                        allOf(fields, "analysts"),
                        allKnown(fields, "levels", levels),
                        allKnown(fields, "oils", oils),
                        fields.count("preparations", MOST_COPIES, 1),
                        fields.count("injections", MOST_COPIES, 1),
                        fields.numbers("splits"),
                        fields.numbers("temperatures"),
                        fields.text("occasion", ""));
        final int solutions =
                batch.analysts().size()
                        * Math.max(1, batch.levels().size())
                        * Math.max(1, batch.oils().size())
                        * batch.preparations();
        if (!numbered && solutions > 1) {
            fields.wrong(
                    fields.at("flask"),
                    solutions + " solutions in one flask",
                    "one",
                    "number them: 'flasks: " + batch.flask() + "'");
        }
        fields.done();
        return batch;
    }

    private static List<String> allOf(Fields fields, String key) {
        final List<String> all = fields.texts(key);
        if (all.isEmpty()) {
            fields.wrong(fields.at(key), "nothing", "one or more labels", "");
        }
        return all;
    }

    private List<String> allKnown(Fields fields, String key, Collection<String> known) {
        return fields.texts(key).stream().map(word -> known(fields, key, word, known)).toList();
    }

    private String known(Fields fields, String key, String word, Collection<String> known) {
        if (!known.contains(word) && !word.isEmpty()) {
            fields.wrong(
                    fields.at(key),
                    "'" + word + "'",
                    "a label that the design defines",
                    Nearest.hint(word, known));
        }
        return word;
    }

    private static <T> T moment(
            Fields fields, String key, Function<String, T> parse, T otherwise, String example) {
        final String text = fields.text(key);
        return parsed(text, parse)
                .orElseGet(
                        () -> {
                            if (!text.isEmpty()) {
                                fields.wrong(fields.at(key), text, "as in " + example, "");
                            }
                            return otherwise;
                        });
    }

    private static <T> Optional<T> parsed(String text, Function<String, T> parse) {
        try {
            return Optional.of(parse.apply(text));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
