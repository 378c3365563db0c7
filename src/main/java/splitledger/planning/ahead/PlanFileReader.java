package splitledger.planning.ahead;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.evaluation.Minima;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;
import splitledger.virtual.Fields;
import splitledger.virtual.Parameter;

/** Reads a plan file; every mistake is told with its place, all of them at once. */
public final class PlanFileReader {
    private static final double MOST = 1e9;
    private static final double MOST_SCATTER = 50;
    private static final double MOST_SEED = 1L << 53;
    private static final List<String> CONVENTIONS = List.of("total-to-column", "vent-to-column");
    private static final String PERCENT = "%";

    private final List<Problem> problems = new ArrayList<>();

    private PlanFileReader() {}

    /**
     * Reads a plan file.
     *
     * @param vault holds it, and the dossier that it may name
     * @param name of the plan file
     * @throws ProblemException with every mistake that was found
     * @throws IOException if a file cannot be read
     */
    public static PlanFile read(Vault vault, String name) throws ProblemException, IOException {
        final Tree.Mapping tree = YamlReader.read(name, vault.read(name));
        final PlanFileReader reader = new PlanFileReader();
        final Fields top = new Fields(tree, reader.problems);
        final PlanFile file = reader.plan(top, vault, name);
        if (!reader.problems.isEmpty()) {
            throw new ProblemException(reader.problems);
        }
        return file;
    }

    private PlanFile plan(Fields top, Vault vault, String name)
            throws ProblemException, IOException {
        top.number("splitledger-plan", 1, 1);
        final String title = top.text("title");
        final List<String> targets = top.texts("targets");
        if (targets.isEmpty()) {
            top.wrong(top.at("targets"), "nothing", "the compounds that are quantified", "");
        }
        final PlanFile.Wanted wanted = wanted(top.fields("wanted"));
        final PlanFile.Prior prior = prior(top.optionalFields("prior"), vault, name);
        if (wanted.limit().isPresent() && prior.blank().isEmpty()) {
            top.wrong(
                    top.at("prior"),
                    "no scatter of blanks",
                    "blank: {value: 0.1, unit: mg/L, basis: ...}",
                    "a detection limit cannot be planned without it: inject a few blanks first");
        }
        final Optional<PlanFile.Labile> labile = labile(top, targets);
        if (wanted.energy().isPresent() && labile.isEmpty()) {
            top.wrong(
                    top.at("labile"),
                    "nothing",
                    "labile: {parent: ..., products: [...]}",
                    "an activation energy is that of a compound that decomposes");
        }
        final PlanFile file =
                new PlanFile(
                        title,
                        targets,
                        standard(top),
                        wanted,
                        prior,
                        costs(top.optionalFields("costs")),
                        amounts(top.fields("amounts")),
                        top.count("samples", 100_000, 1),
                        top.has("samples-in-study") ? top.count("samples-in-study", 200, 1) : 0,
                        setting(
                                top.optionalFields("inlet"),
                                day(top.optionalFields("working-day"))),
                        range(top.optionalFields("settings")),
                        labile,
                        date(top),
                        top.has("seed") ? (long) top.number("seed", 0, MOST_SEED) : 1);
        top.done();
        return file;
    }

    private static LocalDate date(Fields top) {
        final String text = top.text("start");
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            if (!text.isEmpty()) {
                top.wrong(top.at("start"), text, "a date as in 2026-04-01", "");
            }
            return LocalDate.EPOCH;
        }
    }

    private static Optional<PlanFile.Standard> standard(Fields top) {
        if (!top.has("internal-standard")) {
            return Optional.empty();
        }
        final Fields fields = top.fields("internal-standard");
        final PlanFile.Standard standard =
                new PlanFile.Standard(
                        fields.text("compound"),
                        fields.parameter("amount", "mg/L", 0, MOST).value());
        fields.done();
        return Optional.of(standard);
    }

    private static PlanFile.Wanted wanted(Fields fields) {
        final PlanFile.Wanted wanted =
                new PlanFile.Wanted(
                        percent(fields, "expanded-uncertainty"),
                        amount(fields, "detection-limit", "mg/L"),
                        percent(fields, "equivalence-margin"),
                        fields.has("power") ? fields.number("power", 0.5, 0.999) : 0.9,
                        fields.has("share-of-studies")
                                ? fields.number("share-of-studies", 0.5, 0.99)
                                : 0.8,
                        amount(fields, "split-exponent", "1"),
                        amount(fields, "activation-energy", "kJ/mol"),
                        percent(fields, "heavy-to-light-ratio"),
                        percent(fields, "recovery"));
        if (wanted.nothing()) {
            fields.wrong(
                    fields.place(),
                    "no wish",
                    "expanded-uncertainty, detection-limit, equivalence-margin, split-exponent,"
                            + " activation-energy, heavy-to-light-ratio or recovery",
                    "");
        }
        fields.done();
        return wanted;
    }

    private static Optional<Double> percent(Fields fields, String key) {
        return fields.has(key)
                ? Optional.of(above(fields, key, PERCENT, 99) / 100)
                : Optional.empty();
    }

    private static Optional<Double> amount(Fields fields, String key, String unit) {
        return fields.has(key) ? Optional.of(above(fields, key, unit, MOST)) : Optional.empty();
    }

    private static double above(Fields fields, String key, String unit, double most) {
        final double value = fields.parameter(key, unit, 0, most).value();
        if (!(value > 0)) {
            fields.wrong(fields.at(key), "0", "a number above 0", "");
        }
        return value;
    }

    private PlanFile.Prior prior(Fields fields, Vault vault, String name)
            throws ProblemException, IOException {
        Optional<DossierPriors> dossier = Optional.empty();
        if (fields.has("from")) {
            final String from = fields.text("from");
            final String compound = fields.text("compound");
            dossier = Optional.of(DossierPriors.read(vault, name, from, compound));
        }
        final PlanFile.Prior prior =
                new PlanFile.Prior(
                        known(fields, "injection", 1, dossier),
                        known(fields, "preparation", 0.8, dossier),
                        known(fields, "day", 1, dossier),
                        known(fields, "occasion", 2, Optional.empty()),
                        known(fields, "other", 0, Optional.empty()),
                        blank(fields, dossier));
        if (!(prior.injection().value() > 0)) {
            fields.wrong(fields.at("injection"), "no scatter", "a standard deviation above 0", "");
        }
        fields.done();
        return prior;
    }

    /** What the file says goes before what a dossier found, that before common practice. */
    private static PlanFile.Known known(
            Fields fields, String key, double otherwise, Optional<DossierPriors> dossier) {
        if (fields.has(key)) {
            final Parameter given = fields.parameter(key, PERCENT, 0, MOST_SCATTER);
            return new PlanFile.Known(given.value() / 100, given.basis(), Double.POSITIVE_INFINITY);
        }
        if (dossier.isPresent()) {
            final Optional<PlanFile.Known> found = dossier.get().of(key);
            if (found.isEmpty()) {
                fields.wrong(
                        fields.place(),
                        "a dossier without an estimate of the scatter of " + key,
                        "an estimate, or a value here",
                        "add " + key + ": {value: 1, unit: \"%\", basis: ...}");
            }
            return found.orElse(new PlanFile.Known(0, "", 1));
        }
        return new PlanFile.Known(otherwise / 100, PlanFile.COMMON, Double.POSITIVE_INFINITY);
    }

    private static Optional<PlanFile.Known> blank(Fields fields, Optional<DossierPriors> dossier) {
        if (fields.has("blank")) {
            final double value = above(fields, "blank", "mg/L", MOST);
            final String basis = fields.fields("blank").text("basis");
            return Optional.of(new PlanFile.Known(value, basis, Double.POSITIVE_INFINITY));
        }
        return dossier.flatMap(DossierPriors::blank);
    }

    private static PlanFile.Costs costs(Fields fields) {
        final boolean own =
                fields.has("injection") || fields.has("preparation") || fields.has("day");
        final PlanFile.Costs costs =
                new PlanFile.Costs(
                        fields.text("unit", "min"),
                        fields.has("injection") ? fields.number("injection", 1e-6, MOST) : 25,
                        fields.has("preparation") ? fields.number("preparation", 0, MOST) : 20,
                        fields.has("day") ? fields.number("day", 0, MOST) : 60,
                        own ? "the laboratory" : PlanFile.COMMON);
        fields.done();
        return costs;
    }

    private static PlanFile.Amounts amounts(Fields fields) {
        final double lowest = above(fields, "lowest", "mg/L", MOST);
        final double highest = above(fields, "highest", "mg/L", MOST);
        final double result = above(fields, "result", "mg/L", MOST);
        if (!(lowest < highest && result >= lowest && result <= highest)) {
            fields.wrong(
                    fields.place(),
                    "amounts that are not in order",
                    "lowest below highest, result between them",
                    "results outside the calibrants are not covered by it");
        }
        fields.done();
        return new PlanFile.Amounts(lowest, highest, result);
    }

    private static String convention(Fields fields) {
        final String text = fields.text("convention", "");
        if (!text.isEmpty() && !CONVENTIONS.contains(text)) {
            fields.wrong(fields.at("convention"), text, String.join(" or ", CONVENTIONS), "");
        }
        return text;
    }

    /** Unattended nights are left to who knows whether they are allowed. */
    private static PlanFile.Day day(Fields fields) {
        final boolean own = fields.has("hours") || fields.has("minutes-an-injection");
        final double hours = fields.has("hours") ? fields.number("hours", 1, 24) : 16;
        final double cycle =
                fields.has("minutes-an-injection")
                        ? fields.number("minutes-an-injection", 0.1, 600)
                        : 25;
        fields.done();
        return new PlanFile.Day(
                (int) Math.floor(60 * hours / cycle + 1e-9),
                Numbers.text(hours)
                        + " hours of "
                        + Numbers.text(cycle)
                        + " minutes an injection; "
                        + (own ? "the laboratory" : PlanFile.COMMON));
    }

    private static PlanFile.Range range(Fields fields) {
        final Fields ratios = fields.optionalFields("split-ratio");
        final Fields degrees = fields.optionalFields("inlet-temperature");
        final PlanFile.Range range =
                new PlanFile.Range(
                        ratios.has("from") ? ratios.number("from", 1, 10_000) : 10,
                        ratios.has("to") ? ratios.number("to", 1, 10_000) : 200,
                        degrees.has("from") ? degrees.number("from", 20, 450) : 210,
                        degrees.has("to") ? degrees.number("to", 20, 450) : 290,
                        known(fields, "set-up", 1.5, Optional.empty()),
                        known(fields, "member", 2, Optional.empty()),
                        known(fields, "area", 2, Optional.empty()));
        if (!(range.highest() >= Minima.SPAN * range.lowest())) {
            ratios.wrong(
                    ratios.place(),
                    "ratios that span less than " + Numbers.text(Minima.SPAN) + "-fold",
                    "from and to, " + Numbers.text(Minima.SPAN) + "-fold apart or more",
                    "a smaller span cannot tell an exponent from chance");
        }
        if (!(range.hottest() >= range.coolest() + Minima.DEGREES)) {
            degrees.wrong(
                    degrees.place(),
                    "temperatures that span less than " + Numbers.text(Minima.DEGREES) + " degC",
                    "from and to, " + Numbers.text(Minima.DEGREES) + " degC apart or more",
                    "a smaller span cannot tell an activation energy");
        }
        ratios.done();
        degrees.done();
        fields.done();
        return range;
    }

    private static Optional<PlanFile.Labile> labile(Fields top, List<String> targets) {
        if (!top.has("labile")) {
            return Optional.empty();
        }
        final Fields fields = top.fields("labile");
        final PlanFile.Labile labile =
                new PlanFile.Labile(
                        fields.known("parent", fields.text("parent"), targets),
                        fields.texts("products"),
                        known(fields, "breakdown", 10, Optional.empty()),
                        fields.has("activation-energy")
                                ? new PlanFile.Known(
                                        above(fields, "activation-energy", "kJ/mol", 1000),
                                        fields.fields("activation-energy").text("basis"),
                                        Double.POSITIVE_INFINITY)
                                : new PlanFile.Known(
                                        80, PlanFile.COMMON, Double.POSITIVE_INFINITY));
        fields.done();
        if (labile.products().isEmpty()
                || !(labile.breakdown().value() > 0 && labile.breakdown().value() < 1)) {
            fields.wrong(
                    fields.place(),
                    "no products, or no breakdown between 0 and 100 %",
                    "{parent: ..., products: [...]}",
                    "a loss is told by what it leaves");
        }
        return Optional.of(labile);
    }

    private static PlanFile.Setting setting(Fields fields, PlanFile.Day day) {
        final PlanFile.Setting setting =
                new PlanFile.Setting(
                        fields.has("split-ratio") ? fields.number("split-ratio", 1, 10_000) : 50,
                        convention(fields),
                        fields.has("temperature") ? fields.number("temperature", 20, 450) : 250,
                        fields.count("injections-a-vial", 1000, 6),
                        fields.count("injections-between-checks", 1000, 10),
                        day);
        fields.done();
        return setting;
    }
}
