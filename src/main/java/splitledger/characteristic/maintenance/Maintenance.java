package splitledger.characteristic.maintenance;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.statistics.LadderEquivalence;
import splitledger.statistics.LadderEquivalence.Change;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Flag;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;
import splitledger.study.Tree;
import splitledger.study.Where;

/** Whether the instrument does after a piece of work what it did before. */
public final class Maintenance implements Characteristic {
    /** In protocols and files. */
    public static final String ID = "maintenance";

    private static final double PERCENT = 100;

    @Override
    public Card card() {
        return MaintenanceCard.CARD;
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
        final boolean marginHolds = margin > 0 && margin < 1;
        final double coverage = study.protocol().conventions().coverage();
        final OccasionScatter scatter = OccasionScatter.of(options, study, earlier.findings());
        final MaintenanceFindings made =
                new MaintenanceFindings(
                        before, after, scatter, coverage, compounds, !first.equals(last));
        if (marginHolds) {
            made.judged(new LadderEquivalence(margin, MaintenanceFindings.RISK));
        } else {
            made.unjudged();
        }
        final Map<String, Change> changes = made.changes();
        final List<Choice> choices = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        if (!changes.isEmpty()) {
            choices.add(scatter.choice());
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
        if (extent.figures() && !changes.isEmpty() && marginHolds) {
            figures.add(MaintenanceFigures.changes(study, changes, margin, coverage, first, last));
            figures.add(
                    MaintenanceFigures.power(
                            new LadderEquivalence(margin, MaintenanceFindings.RISK),
                            made.largestSd(),
                            scatter.sd()));
        }
        final List<Flag> flags = new ArrayList<>(before.leftOut());
        flags.addAll(after.leftOut());
        final Question question =
                new Question(
                        ID,
                        MaintenanceCard.CARD.title(),
                        MaintenanceCard.CARD.question(),
                        injected(before, after, first, last),
                        how(margin));
        return new Contribution(
                question, made.findings(), figures, choices, flags, new TreeMap<>());
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
                + Trail.digits(PERCENT * margin)
                + " % of what it was; all are restored only if each is (intersection-union: nothing is adjusted)."
                + " Not restored means that one is shown to be outside, the risk being shared between the"
                + " compounds. All else is undecided: that no difference was seen shows nothing.";
    }
}
