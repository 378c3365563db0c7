package splitledger.characteristic;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LadderEquivalence;
import splitledger.statistics.LadderEquivalence.Change;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
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
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/** Whether the instrument does after a piece of work what it did before. */
public final class Maintenance implements Characteristic {
    /** In protocols and files. */
    public static final String ID = "maintenance";

    private static final String METHOD = "occasions";
    private static final double PERCENT = 100;
    private static final double RISK = 0.05;
    private static final double POWER = 0.9;
    private static final int FEWEST = 3;

    private static final Card CARD =
            new Card(
                    ID,
                    "Check after maintenance",
                    "Are the responses after the work what they were before it?",
                    List.of(
                            new Option(
                                    "where",
                                    Form.WHERE,
                                    List.of(),
                                    true,
                                    "The rows of both occasions; the column occasion tells them apart."),
                            new Option(
                                    "margin",
                                    Form.NUMBER,
                                    List.of(),
                                    true,
                                    "Largest change of a response that does not matter, in percent; set before the"
                                            + " injections."),
                            new Option(
                                    "before",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Label of the earlier occasion; without it the one that comes first."),
                            new Option(
                                    "after",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Label of the later occasion; without it the one that comes last."),
                            new Option(
                                    "occasion-scatter",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "Relative standard deviation between occasions on which nothing was done, in percent,"
                                            + " from the laboratory's own record; without it this batch of injections is"
                                            + " compared with that batch.")),
                    List.of(
                            new Quantity(
                                    "response-change",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of(),
                                    "Response after over response before."),
                            statistic(
                                    "equivalence-p",
                                    "Probability of so small a change if it were the margin."),
                            statistic(
                                    "restored",
                                    "1 if every response is shown to be within the margin, 0 if one is shown to be"
                                            + " outside."),
                            statistic(
                                    "injections-needed",
                                    "Injections an occasion for the next check, decided before it.")),
                    List.of());

    private static Quantity statistic(String name, String meaning) {
        return new Quantity(name, Kind.STATISTIC, "1", List.of(), meaning);
    }

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows rows = study.table().rows(Where.of(options.mapping("where")));
        final List<String> labels = occasions(study, rows);
        final String first = options.text("before").orElse(labels.get(0));
        final String last = options.text("after").orElse(labels.get(labels.size() - 1));
        final List<String> compounds = compounds(study);
        final MaintenanceRows before = MaintenanceRows.of(study, rows, first, compounds);
        final MaintenanceRows after = MaintenanceRows.of(study, rows, last, compounds);
        final double margin = options.number("margin").orElse(0) / PERCENT;
        final double occasionSd = options.number("occasion-scatter").orElse(0) / PERCENT;
        final List<Finding> findings = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>(before.leftOut());
        flags.addAll(after.leftOut());
        final Map<String, Uncertain> logs = new LinkedHashMap<>();
        boolean whole = !first.equals(last) && margin > 0 && margin < 1;
        for (String compound : compounds) {
            final int fewest = Math.min(before.count(compound), after.count(compound));
            if (before.count(compound) + after.count(compound) == 0) {
                continue;
            }
            if (fewest < FEWEST || first.equals(last)) {
                whole = false;
                findings.add(
                        Finding.of(
                                key(compound, "response-change"),
                                Answers.not(
                                        "1",
                                        Reason.TOO_FEW_INJECTIONS,
                                        "needs "
                                                + FEWEST
                                                + " injections with a response on each of two occasions, found "
                                                + before.count(compound)
                                                + " and "
                                                + (first.equals(last) ? 0 : after.count(compound))),
                                both(before, after),
                                ""));
            } else {
                logs.put(compound, change(compound, before, after, occasionSd));
            }
        }
        final Map<String, Change> changes = new TreeMap<>();
        logs.forEach(
                (c, x) ->
                        changes.put(
                                c,
                                new Change(
                                        x.value(), x.standardUncertainty(), x.degreesOfFreedom())));
        final double coverage = study.protocol().conventions().coverage();
        logs.forEach(
                (c, x) ->
                        findings.add(
                                Finding.of(
                                        key(c, "response-change"),
                                        ratio(x, coverage),
                                        both(before, after),
                                        occasionSd > 0
                                                ? ""
                                                : "this batch of injections against that batch: scatter between"
                                                        + " occasions is not in it")));
        if (margin > 0 && margin < 1) {
            judged(
                    new LadderEquivalence(margin, RISK),
                    before,
                    after,
                    occasionSd,
                    changes,
                    whole,
                    findings);
        } else {
            findings.add(
                    Finding.of(
                            key("", "restored"),
                            Answers.not(
                                    "1",
                                    Reason.NO_FINITE_VALUE,
                                    "the margin must lie between 0 and 100 percent"),
                            both(before, after),
                            ""));
        }
        if (!changes.isEmpty()) {
            choices.add(
                    new Choice(
                            ID,
                            "",
                            "What changed from " + first + " to " + last,
                            String.join(
                                    ". ",
                                    new MaintenanceWords(study, before, after, changes).all()),
                            "worked by hand; Welch, Biometrika 34 (1947) 28 (from memory)"));
        }
        final List<Figure> figures = new ArrayList<>();
        if (extent.figures() && !changes.isEmpty() && margin > 0 && margin < 1) {
            figures.add(MaintenanceFigures.changes(study, changes, margin, coverage, first, last));
            figures.add(
                    MaintenanceFigures.power(
                            new LadderEquivalence(margin, RISK),
                            largestSd(before, after, changes),
                            occasionSd));
        }
        final Question question =
                new Question(
                        ID,
                        CARD.title(),
                        CARD.question(),
                        injected(before, after, first, last),
                        how(margin));
        return new Contribution(question, findings, figures, choices, flags, new TreeMap<>());
    }

    private static void judged(
            LadderEquivalence test,
            MaintenanceRows before,
            MaintenanceRows after,
            double occasionSd,
            Map<String, Change> changes,
            boolean whole,
            List<Finding> findings) {
        final Rows rows = both(before, after);
        changes.forEach(
                (compound, c) ->
                        findings.add(
                                Finding.of(
                                        key(compound, "equivalence-p"),
                                        new Answer.Statistic(test.p(c), "1"),
                                        rows,
                                        "")));
        final LadderEquivalence.Decision said = test.decide(List.copyOf(changes.values()));
        final Answer answer =
                switch (said) {
                    case RESTORED ->
                            whole
                                    ? new Answer.Statistic(1, "1")
                                    : undecided("a compound has too few responses to be judged");
                    case NOT_RESTORED -> new Answer.Statistic(0, "1");
                    case UNDECIDED ->
                            undecided(
                                    "neither every response is shown to be within the margin, nor one to be"
                                            + " outside");
                };
        findings.add(
                Finding.of(
                        key("", "restored"),
                        answer,
                        rows,
                        "the number of injections is fixed beforehand; adding injections until it is decided"
                                + " makes a false 'restored' several times as likely"));
        final OptionalInt needed =
                test.needed(largestSd(before, after, changes), occasionSd, POWER);
        findings.add(
                Finding.of(
                        key("", "injections-needed"),
                        needed.isPresent()
                                ? new Answer.Statistic(needed.getAsInt(), "1")
                                : Answers.not(
                                        "1",
                                        Reason.NO_FINITE_VALUE,
                                        "not even "
                                                + LadderEquivalence.MOST
                                                + " injections show a change within this margin in nine of ten"
                                                + " checks: scatter between injections or occasions is too large"),
                        rows,
                        "on each occasion of the next, separate check; at least nine of ten such checks show the"
                                + " compound that scatters most to be within the margin if nothing changed"));
    }

    private static Answer undecided(String why) {
        return Answers.not("1", Reason.UNDECIDED, why);
    }

    private static double largestSd(
            MaintenanceRows before, MaintenanceRows after, Map<String, Change> changes) {
        double largest = 0;
        for (String compound : changes.keySet()) {
            final Moments a = before.moments(compound);
            final Moments b = after.moments(compound);
            largest =
                    Math.max(largest, (a.squares() + b.squares()) / (a.count() + b.count() - 2.0));
        }
        return Math.sqrt(largest);
    }

    /** Difference of mean log areas, scatter of each occasion its own pool. */
    private static Uncertain change(
            String compound, MaintenanceRows before, MaintenanceRows after, double occasionSd) {
        final Moments a = before.moments(compound);
        final Moments b = after.moments(compound);
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(injections(compound, "before", a), -Math.sqrt(a.variance() / a.count()));
        parts.put(injections(compound, "after", b), Math.sqrt(b.variance() / b.count()));
        if (occasionSd > 0) {
            parts.put(occasion("before"), -occasionSd);
            parts.put(occasion("after"), occasionSd);
        }
        return Uncertain.of(b.mean() - a.mean(), "1", parts);
    }

    private static Root injections(String compound, String when, Moments m) {
        final String id = ID + "/" + when + "/" + compound;
        return Root.normal(
                id,
                new Pool(id, m.count() - 1.0, "injections " + when),
                Effect.STROKE,
                ActsOn.BOTH,
                "injections " + when + " the work");
    }

    private static Root occasion(String when) {
        return Root.normal(
                ID + "/occasion/" + when,
                Pool.known(ID + "/occasions", "the laboratory's own record"),
                Effect.DAY,
                ActsOn.BOTH,
                "scatter between occasions, as stated");
    }

    private static Answer ratio(Uncertain log, double coverage) {
        final double value = FastMath.exp(log.value());
        final double half =
                log.standardUncertainty() > 0
                        ? Quantiles.coverageFactor(coverage, log.degreesOfFreedom())
                                * log.standardUncertainty()
                        : 0;
        return Answers.ends(
                log.scaled(value, "1").at(value),
                FastMath.exp(log.value() - half),
                FastMath.exp(log.value() + half),
                coverage);
    }

    private static List<String> occasions(Study study, Rows rows) {
        final Set<String> labels = new LinkedHashSet<>();
        rows.stream().forEach(row -> labels.add(study.table().label("occasion", row)));
        return labels.isEmpty() ? List.of("") : List.copyOf(labels);
    }

    /** Ladder and targets. */
    private static List<String> compounds(Study study) {
        final Set<String> all = new LinkedHashSet<>(study.compounds().ladder());
        all.addAll(study.compounds().targets());
        return List.copyOf(all);
    }

    private static Rows both(MaintenanceRows before, MaintenanceRows after) {
        return Rows.of(
                java.util.stream.IntStream.concat(before.rows().stream(), after.rows().stream())
                        .distinct()
                        .toArray());
    }

    private static Key key(String compound, String quantity) {
        return Key.of(ID, compound, quantity, METHOD);
    }

    private static String injected(
            MaintenanceRows before, MaintenanceRows after, String first, String last) {
        return before.areas().values().stream().mapToInt(Map::size).max().orElse(0)
                + " injections on the occasion '"
                + first
                + "', "
                + after.areas().values().stream().mapToInt(Map::size).max().orElse(0)
                + " on the occasion '"
                + last
                + "'";
    }

    private static String how(double margin) {
        return "Mean log areas of both occasions are compared, each occasion with its own scatter (Welch)."
                + " A response is restored if two one-sided tests at a risk of 5 % each show it within "
                + splitledger.study.Trail.digits(PERCENT * margin)
                + " % of what it was; all are restored only if each is (intersection-union: nothing is adjusted)."
                + " Not restored means that one is shown to be outside, the risk being shared between the"
                + " compounds. All else is undecided: that no difference was seen shows nothing.";
    }
}
