package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Criteria;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Earlier;
import splitledger.characteristic.discrimination.CarbonNumbers;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answers;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Place;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * What decomposes on the hot surfaces of the inlet: breakdown of labile compounds, how it grows
 * with temperature, and what is missing beyond it. How uncertainties arise is told at {@link
 * LossBasis}, {@link LossLine} and {@link LossDeficit}.
 */
public final class Losses implements Characteristic {
    static final String ID = "losses";
    private static final double PERCENT = 100;
    private static final Card CARD = LossesCard.of();

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(Study study, Tree.Mapping given, Earlier earlier, Extent extent) {
        final LossOptions options = LossOptions.of(study, given);
        final Rows all = study.table().rows(Where.of(given.mapping("where")));
        final Gathered gathered = new Gathered();
        detector(study, options, gathered.flags);
        if (options.parents().isEmpty()) {
            gathered.findings.add(
                    Finding.of(
                            Key.of(ID, "", "breakdown", "raw"),
                            Answers.not(
                                    "%",
                                    Reason.NO_ROWS,
                                    "the protocol names no parent: add the option parent, or write the"
                                            + " products below their parents' names"),
                            Rows.NONE,
                            ""));
        }
        for (String parent : options.parents().keySet()) {
            one(study, options, all, parent, extent, gathered);
        }
        gathered.choices.add(limits());
        final Question question =
                new Question(
                        ID, CARD.title(), CARD.question(), injected(study, options, all), how());
        return new Contribution(
                question,
                gathered.findings,
                gathered.figures,
                gathered.choices,
                gathered.flags,
                new TreeMap<>());
    }

    /** What comes together over the parents. */
    private static final class Gathered {
        private final List<Finding> findings = new ArrayList<>();
        private final List<Figure> figures = new ArrayList<>();
        private final List<Choice> choices = new ArrayList<>();
        private final List<Flag> flags = new ArrayList<>();
    }

    private static void one(
            Study study, LossOptions options, Rows all, String parent, Extent extent, Gathered to) {
        final double coverage = study.protocol().conventions().coverage();
        final LossRows rows = LossRows.of(study, all, options, parent);
        to.flags.addAll(rows.flags());
        final LossFindings made = new LossFindings(rows);
        final BreakdownFindings breakdown = new BreakdownFindings(options, rows, coverage, made);
        final LossBasis raw = new LossBasis(options, rows, false, Optional.empty());
        breakdown.add(raw);
        final Optional<LossBasis> corrected = corrected(study, options, rows, to.flags);
        corrected.ifPresent(breakdown::add);
        final LossBasis best = corrected.orElse(raw);
        final OptionalDouble limit = options.limit(study, parent);
        final boolean series = rows.groups().stream().anyMatch(g -> !Double.isNaN(g.temperature()));
        if (series) {
            final Outcome<LossLine> line =
                    LossLine.of(options, rows, best, best, coverage, to.flags);
            final HighestTemperature highest = new HighestTemperature(rows, coverage, made);
            new KineticsFindings(options, rows, coverage, made).add(line, best);
            highest.add(line, best, limit);
            final Outcome<LossLine> observed =
                    corrected.isPresent()
                            ? LossLine.of(options, rows, raw, best, coverage, new ArrayList<>())
                            : line;
            if (corrected.isPresent()) {
                highest.add(observed, raw, limit);
            }
            line.fold(l -> to.choices.add(choice(parent, l)), not -> false);
            if (extent.figures()) {
                to.figures.add(new BreakdownFigure(rows, coverage).of(raw, observed, limit));
                final ArrheniusFigure arrhenius = new ArrheniusFigure(rows, coverage);
                line.fold(l -> to.figures.add(arrhenius.of(l)), not -> false);
            }
        }
        final Optional<LossDeficit> deficit = DeficitFindings.add(study, options, rows, best, made);
        if (extent.figures()) {
            final LossLadderFigure ladder = new LossLadderFigure(rows, coverage);
            deficit.ifPresent(d -> to.figures.add(ladder.of(d)));
        }
        to.findings.addAll(made.all());
    }

    /** The basis with everything that is known taken into account; empty if nothing is. */
    private static Optional<LossBasis> corrected(
            Study study, LossOptions options, LossRows rows, List<Flag> flags) {
        final boolean responses = options.corrects(rows.parent());
        if (!responses && options.given().get("expected").isPresent()) {
            flags.add(
                    new Flag(
                            Place.NONE,
                            rows.parent(),
                            "the compound table lacks an effective carbon number of it or of a product:"
                                    + " areas count as they are"));
        }
        final Optional<Uncertain> own = own(study, options, rows.parent(), responses, flags);
        return responses || own.isPresent()
                ? Optional.of(new LossBasis(options, rows, responses, own))
                : Optional.empty();
    }

    /** What the solution brought along: stated, or as the cold rows show it. */
    private static Optional<Uncertain> own(
            Study study, LossOptions options, String parent, boolean responses, List<Flag> flags) {
        final OptionalDouble stated = options.ownBreakdown(parent);
        if (stated.isPresent()) {
            final String id = "losses/" + parent + "/own";
            return Optional.of(
                    Uncertain.of(
                            stated.getAsDouble(),
                            "1",
                            Root.normal(
                                    id,
                                    Pool.known(id, "breakdown of the solution, as stated"),
                                    Effect.REFERENCE_VALUE,
                                    ActsOn.BOTH,
                                    ID),
                            options.ownUncertainty(parent)));
        }
        if (options.given().get("cold").isEmpty()) {
            return Optional.empty();
        }
        final Rows cold = study.table().rows(Where.of(options.given().mapping("cold")));
        final LossRows found = LossRows.of(study, cold, options, parent);
        flags.addAll(found.flags());
        final List<LossRows.Shot> shots =
                found.groups().stream().flatMap(g -> g.shots().stream()).toList();
        final LossRows.Group group = new LossRows.Group(Double.NaN, Double.NaN, 1, shots);
        if (shots.isEmpty() || group.hidden()) {
            flags.add(
                    new Flag(
                            Place.NONE,
                            parent,
                            "nothing is taken off for the solution's own breakdown: "
                                    + (shots.isEmpty()
                                            ? "no cold injection holds it"
                                            : "a product was not found in a cold injection")));
            return Optional.empty();
        }
        final LossRows together =
                new LossRows(parent + "/cold", List.of(group), false, false, List.of());
        return Optional.of(LossBasis.cold(options, together, parent, responses).of(group));
    }

    private static void detector(Study study, LossOptions options, List<Flag> flags) {
        if (options.given().get("expected").isPresent()) {
            CarbonNumbers.otherDetector(study, "state the responses").ifPresent(flags::add);
        }
    }

    private static Choice choice(String parent, LossLine line) {
        return new Choice(
                ID,
                parent,
                "The Arrhenius line weighs each condition by how well its rate is known and by a scatter"
                        + " between conditions of "
                        + Digits.two(PERCENT * line.between())
                        + " % of the rate",
                "the scatter of injections alone is not all: temperature, flow and the state of the"
                        + " surface differ between settings. The residuals about the line say by how much"
                        + " and scale its uncertainty",
                "Paule and Mandel, J. Res. Natl. Bur. Stand. 87 (1982) 377; Knapp and Hartung, Stat. Med."
                        + " 22 (2003) 2693 (both from memory)");
    }

    private static Choice limits() {
        final Criteria.Criterion low = Criteria.of("organochlorine-breakdown");
        final Criteria.Criterion high = Criteria.of("semivolatiles-breakdown");
        return new Choice(
                ID,
                "",
                "No result is corrected for breakdown",
                "limits for breakdown (for example "
                        + low.limit()
                        + "; "
                        + high.limit()
                        + ") ask for work at the bench before anything is calibrated: new liner, new seal,"
                        + " a shorter column, a cooler inlet. The products are in the sample's"
                        + " chromatogram, and what a surface does changes from day to day",
                low.cited() + "; " + high.cited());
    }

    private static String injected(Study study, LossOptions options, Rows rows) {
        final long injections =
                rows.stream().mapToObj(r -> study.table().injection(r)).distinct().count();
        return injections
                + (injections == 1 ? " injection" : " injections")
                + " of "
                + String.join(", ", options.parents().keySet())
                + ".";
    }

    private static String how() {
        return "Breakdown is the sum of the products over that of parent and products, worked out within"
                + " each injection, where stroke and split cancel. The time in the liner is V (p/p_ref)"
                + " (T_ref/T) / F, the flow F of vent and column being stated at 25 degC and 101.325 kPa;"
                + " the apparent rate is -ln(1 - x) over that time. Its logarithm over the inverse"
                + " temperature gives the activation energy, and the temperature at which the limit is"
                + " reached, looked for only within the temperatures that were measured. What is missing"
                + " against the ladder holds the breakdown: both are never added.";
    }
}
