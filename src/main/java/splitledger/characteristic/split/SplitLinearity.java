package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answers;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;
import splitledger.study.Tree;
import splitledger.study.Where;

/** Whether the response follows the split ratio: with 1 / r, for all compounds alike. */
public final class SplitLinearity implements Characteristic {
    static final String ID = "split-linearity";

    private static final Card CARD =
            new Card(
                    ID,
                    "Split linearity",
                    "Does the response follow the split ratio, and for all compounds alike?",
                    List.of(
                            new Option(
                                    "where",
                                    Form.WHERE,
                                    List.of(),
                                    true,
                                    "Rows of the experiment at different split ratios."),
                            number(
                                    "reference-ratio",
                                    "Setting that the others are compared with, as the table has it; without it the middle one."),
                            number(
                                    "margin",
                                    "Margin of the exponent about 1; without it that of the requirement, else from deviation."),
                            number(
                                    "deviation",
                                    "Deviation of the response over all ratios that the margin allows, percent; without it 5."),
                            new Option(
                                    "labile",
                                    Form.TEXTS,
                                    List.of(),
                                    false,
                                    "Compounds that decompose in the inlet or are formed there: left out of all compounds together."),
                            new Option(
                                    "set-up",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column that tells set-ups of a ratio apart; without it runs of injections at one ratio."),
                            number(
                                    "vent-flow-uncertainty",
                                    "Relative standard uncertainty of the vent flow of the table, percent."),
                            number(
                                    "column-flow-uncertainty",
                                    "Relative standard uncertainty of the column flow of the table, percent."),
                            number(
                                    "oven-temperature",
                                    "Temperature of the column during the injection, degC; with head-pressure, column and gas of"
                                            + " the instrument and the vent flow of the table it gives the ratio that the"
                                            + " pressure lets expect."),
                            new Option(
                                    "outlet",
                                    Form.WORD,
                                    List.of("atmosphere", "vacuum"),
                                    false,
                                    "Where the column ends; without it at atmospheric pressure, 101.325 kPa."),
                            number(
                                    "length-uncertainty",
                                    "Relative standard uncertainty of the column's length, percent; without it 0."),
                            number(
                                    "diameter-uncertainty",
                                    "Relative standard uncertainty of the column's inner diameter, percent."),
                            number(
                                    "head-pressure-uncertainty",
                                    "Relative standard uncertainty of the head pressure as stated, percent.")),
                    List.of(
                            quantity(
                                    "split-exponent",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of(),
                                    "Exponent of the response in 1 over the ratio; ideally 1."),
                            quantity(
                                    "split-exponent-equivalence-p",
                                    Kind.STATISTIC,
                                    "1",
                                    List.of(),
                                    "Probability against the exponent being within its margin."),
                            quantity(
                                    "split-exponent-slope",
                                    Kind.ESTIMATE,
                                    "1/(100 degC)",
                                    List.of(),
                                    "Change of the exponent with the boiling point."),
                            quantity(
                                    "response-kept",
                                    Kind.ESTIMATE,
                                    "%",
                                    List.of("ratio"),
                                    "Response times ratio against that of the reference setting."),
                            quantity(
                                    "largest-split-deviation",
                                    Kind.BOUND,
                                    "%",
                                    List.of(),
                                    "Largest distance of the response kept from 100 %, with a bound for all settings at once."),
                            quantity(
                                    "convention-offset",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of(),
                                    "What must be added to the ratio for the response to follow it."),
                            quantity(
                                    "effective-split-ratio",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("ratio"),
                                    "Ratio that the responses tell, if the reference setting is true."),
                            quantity(
                                    "expected-split-ratio",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("ratio"),
                                    "Ratio by the flows of the table, or by head pressure, column and vent flow.")),
                    List.of());

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows rows = study.table().rows(Where.of(options.mapping("where")));
        final SplitSetUps setUps = new SplitSetUps(study, rows, options.text("set-up").orElse(""));
        final SplitOptions completed = SplitOptions.of(study, options, setUps.settings());
        final double coverage = study.protocol().conventions().coverage();
        final List<String> stable =
                setUps.compounds().stream().filter(c -> !completed.labile().contains(c)).toList();
        final List<Finding> findings = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        if (stable.isEmpty()) {
            findings.addAll(nothing(rows));
        } else {
            final List<SplitFindings> each = new ArrayList<>();
            final SplitRoots roots =
                    new SplitRoots(setUps, SplitRoots.groups(setUps.compounds(), stable));
            for (String compound : setUps.compounds()) {
                each.add(
                        new SplitFindings(
                                setUps, completed, coverage, compound, List.of(compound), roots));
            }
            final SplitFindings pooled =
                    new SplitFindings(setUps, completed, coverage, "", stable, roots);
            final SplitTogether together =
                    new SplitTogether(setUps, completed, pooled, stable, coverage, options);
            each.forEach(f -> findings.addAll(f.all()));
            findings.addAll(pooled.all());
            findings.addAll(together.all());
            choices.addAll(completed.choices());
            choices.addAll(together.choices());
            choices.addAll(made(setUps));
            choices.addAll(new SplitDiagnosis(setUps, pooled, together, stable).choices());
            if (extent.figures()) {
                figures.addAll(
                        new SplitFigures(
                                        new SplitDrawn(
                                                setUps, completed, each, pooled, together,
                                                coverage))
                                .all());
            }
        }
        return new Contribution(
                new Question(ID, CARD.title(), CARD.question(), injected(setUps), how(setUps)),
                findings,
                figures,
                choices,
                setUps.flags(),
                new TreeMap<>());
    }

    private static List<Finding> nothing(Rows rows) {
        return CARD.quantities().stream()
                .filter(q -> q.conditions().isEmpty())
                .map(
                        q ->
                                Finding.of(
                                        Key.of(ID, "", q.name(), SplitFindings.METHOD),
                                        Answers.not(
                                                q.unit(),
                                                Reason.NO_ROWS,
                                                "no compound has a positive area and a split ratio in these rows"),
                                        rows,
                                        ""))
                .toList();
    }

    private static List<Choice> made(SplitSetUps setUps) {
        final List<Choice> all = new ArrayList<>();
        all.add(
                new Choice(
                        ID,
                        "",
                        "Responses are areas as they are",
                        "a ratio to an internal standard would cancel the split that is asked about",
                        "follows from the definition"));
        if (setUps.byAmount()) {
            all.add(
                    new Choice(
                            ID,
                            "",
                            "Areas are divided by the amounts",
                            "each ratio has a solution of its own; what the solutions differ in is scatter of the set-ups",
                            "follows from the definition"));
        }
        if (!setUps.daysApart() && setUps.days() > 1) {
            all.add(
                    new Choice(
                            ID,
                            "",
                            "Days are not told apart",
                            "with a level for each day nothing would be left to tell the exponent from: differences between"
                                    + " days are scatter of the set-ups",
                            "common practice, no source"));
        }
        return all;
    }

    private static String injected(SplitSetUps setUps) {
        final long injections = setUps.setUps().stream().mapToLong(s -> s.logs().size()).sum();
        final List<String> settings = setUps.settings().stream().map(Trail::digits).toList();
        return injections
                + " injections of "
                + setUps.compounds().size()
                + " compounds in "
                + setUps.setUps().size()
                + " set-ups at the settings "
                + String.join(", ", settings)
                + ".";
    }

    private static String how(SplitSetUps setUps) {
        return "Logarithms of the areas are fitted to the logarithm of the ratio by generalised least squares, all compounds"
                + " together. What compounds share in a set-up (error of the setting) and in an injection (volume, split,"
                + " gain) counts once: every set-up is one observation, and degrees of freedom count set-ups."
                + (setUps.daysApart() && setUps.days() > 1 ? " Every day has its own level." : "")
                + " The ratio is total to column flow"
                + (setUps.conventionOffset() == 1
                        ? ", 1 more than the table holds (vent to column)."
                        : ", as the protocol says of the table.");
    }

    private static Option number(String name, String meaning) {
        return new Option(name, Form.NUMBER, List.of(), false, meaning);
    }

    private static Quantity quantity(
            String name, Kind kind, String unit, List<String> conditions, String meaning) {
        return new Quantity(name, kind, unit, conditions, meaning);
    }
}
