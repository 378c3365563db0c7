package splitledger.evaluation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * What an experiment must have before a characteristic can answer. The numbers of other documents
 * carry their name; those without one are what the statistics need.
 */
final class DesignNeeds {
    private static final int LEVELS = Minima.LEVELS;
    private static final int BLANKS = Minima.BLANKS;
    private static final int MDL = Minima.SPIKED;
    private static final int MDL_DAYS = Minima.SPIKED_DAYS;
    private static final int REPEATS = Minima.REPEATS;
    private static final int GROUPS = Minima.GROUPS;
    private static final int SETTINGS = Minima.SETTINGS;
    private static final double SPAN = Minima.SPAN;
    private static final int MEMBERS = Minima.MEMBERS;
    private static final int TEMPERATURES = Minima.TEMPERATURES;
    private static final double DEGREES = Minima.DEGREES;
    private static final int RECOVERY = Minima.RECOVERY;
    private static final int SHOWN = 5;

    private static final Map<String, String> WORDS = words();

    private final Study study;
    private final Tree.Mapping options;
    private final Tally rows;
    private final List<String> lacks = new ArrayList<>();

    private DesignNeeds(Study study, Tree.Mapping options, Tally rows) {
        this.study = study;
        this.options = options;
        this.rows = rows;
    }

    private static Map<String, String> words() {
        final Map<String, String> words = new LinkedHashMap<>();
        words.put(
                "calibration",
                "calibrants of known amount at 5 levels or more (ICH Q2(R2), from memory), each"
                        + " level made at least twice from the start: repeated injections of one flask"
                        + " cannot show whether a line fits");
        words.put(
                "detection",
                "calibrants near zero and 10 blanks or more; for the US method detection limit 7"
                        + " low spiked preparations and 7 blanks on 3 days (40 CFR 136 Appendix B)");
        words.put(
                "repeatability",
                "6 independent preparations of one sample (ICH Q2(R2), from memory); for what"
                        + " differs between days or analysts at least 5 of each");
        words.put(
                "split-linearity",
                "one solution at 4 split ratios or more that span a factor of 10, each set up"
                        + " twice");
        words.put(
                "discrimination",
                "6 homologues or more of known masses over the range of boiling points, in several"
                        + " injections");
        words.put(
                "losses",
                "a labile compound at 5 inlet temperatures or more over 80 degC, losing between 2"
                        + " and 60 %");
        words.put(
                "recovery",
                "spiked samples of known addition: 3 levels with 3 preparations each (ICH Q2(R2),"
                        + " from memory), and the unspiked sample");
        return words;
    }

    /** What an experiment must have, in words. */
    static Optional<String> words(String id) {
        return Optional.ofNullable(WORDS.get(id));
    }

    /** What the rows of one characteristic lack. */
    static List<String> of(String id, Study study, Tree.Mapping options, Tally rows) {
        final DesignNeeds needs = new DesignNeeds(study, options, rows);
        switch (id) {
            case "calibration" -> needs.calibration();
            case "detection" -> needs.detection();
            case "repeatability" -> needs.repeatability();
            case "split-linearity" -> needs.splitLinearity();
            case "discrimination" -> needs.discrimination();
            case "losses" -> needs.losses();
            case "recovery" -> needs.recovery();
            default -> {
                // a characteristic without a minimum known here lacks nothing that could be told
            }
        }
        return needs.lacks;
    }

    private void calibration() {
        final Map<String, List<String>> compounds = new LinkedHashMap<>();
        for (String compound : study.compounds().targets()) {
            for (String lack : levels(rows.of(compound).standards(true))) {
                compounds.computeIfAbsent(lack, l -> new ArrayList<>()).add(compound);
            }
        }
        compounds.forEach(
                (lack, of) -> {
                    final boolean all = of.size() == study.compounds().targets().size();
                    tell((all ? "Each compound" : some(of)) + ": " + lack);
                });
    }

    private static List<String> levels(Tally standards) {
        final List<String> lacks = new ArrayList<>();
        if (standards.isEmpty()) {
            return List.of("no amount in these rows: add the amounts of the levels.");
        }
        if (standards.levels() < LEVELS) {
            lacks.add(few(standards.levels(), "level", LEVELS));
        }
        if (standards.levelsOfOne() > 0) {
            lacks.add(
                    standards.levelsOfOne()
                            + " of "
                            + Tally.count(standards.levels(), "level")
                            + " made once only: whether a line fits cannot be tested there.");
        }
        return lacks;
    }

    private static String some(List<String> names) {
        final int shown = Math.min(SHOWN, names.size());
        return String.join(", ", names.subList(0, shown))
                + (names.size() > shown ? " and " + (names.size() - shown) + " more" : "");
    }

    private void detection() {
        final Tally blanks =
                options.get("blanks").isPresent() ? of("blanks") : rows.standards(false);
        if (blanks.injections() < BLANKS) {
            tell(few(blanks.injections(), "blank injection", BLANKS));
        }
        if (options.get("spiked").isPresent()) {
            final Tally spiked = of("spiked");
            if (spiked.preparations() < MDL || spiked.distinct("day") < MDL_DAYS) {
                tell(
                        "The US method detection limit asks for 7 spiked preparations on 3 days;"
                                + " there are "
                                + spiked.words()
                                + ".");
            }
        } else {
            tell("No low spiked preparations are named (spiked): no US method detection limit.");
        }
    }

    private void repeatability() {
        if (rows.preparations() < REPEATS) {
            tell(few(rows.preparations(), "preparation", REPEATS));
        }
        for (String factor : options.texts("factors")) {
            final int labels = rows.distinct(factor);
            if (labels < GROUPS && !factor.equals("preparation")) {
                tell(
                        labels
                                + " different labels in the column "
                                + factor
                                + ": fewer than 5 tell little about the scatter between them.");
            }
        }
        if (rows.distinct("day") < 2) {
            tell("No second day is told: nothing is said about the scatter between days.");
        }
    }

    private void splitLinearity() {
        final List<Double> ratios = rows.numbers("split_ratio");
        if (ratios.isEmpty()) {
            tell("The tables hold no split ratio for these rows.");
            return;
        }
        final double span = ratios.get(ratios.size() - 1) / ratios.get(0);
        if (ratios.size() < SETTINGS || span < SPAN) {
            tell(few(ratios.size(), "setting", SETTINGS) + " They should span a factor of 10.");
        }
    }

    private void discrimination() {
        if (study.compounds().ladder().size() < MEMBERS) {
            tell(
                    few(study.compounds().ladder().size(), "homologue", MEMBERS)
                            + " Name them under compounds, ladder.");
        }
    }

    private void losses() {
        final List<Double> steps = rows.numbers("inlet_temperature");
        final double span = steps.isEmpty() ? 0 : steps.get(steps.size() - 1) - steps.get(0);
        if (steps.size() < TEMPERATURES || span < DEGREES) {
            tell(
                    few(steps.size(), "inlet temperature", TEMPERATURES)
                            + " They should span 80 degC.");
        }
    }

    private void recovery() {
        if (rows.levels() < RECOVERY) {
            tell(few(rows.levels(), "level", RECOVERY));
        }
        if (rows.preparations() < RECOVERY * RECOVERY) {
            tell(few(rows.preparations(), "preparation", RECOVERY * RECOVERY));
        }
    }

    private Tally of(String option) {
        return Tally.of(study, study.table().rows(Where.of(options.mapping(option))));
    }

    private static String few(int number, String noun, int wanted) {
        return (number == 0 ? "no " + noun : Tally.count(number, noun))
                + "; "
                + wanted
                + " are wanted.";
    }

    private void tell(String lack) {
        lacks.add(lack);
    }
}
