package splitledger.characteristic.discrimination;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.statistics.LadderFit;
import splitledger.statistics.LadderFitter;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Compounds.Compound;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * Whether the fraction on the column depends on the boiling point: a ladder of homologues against
 * what their masses let expect.
 */
public final class Discrimination implements Characteristic {
    /** Its name in protocols and findings. */
    public static final String ID = "discrimination";

    private static final double PERCENT = 100;
    private static final Card CARD = DiscriminationCard.CARD;

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows all = study.table().rows(Where.of(options.mapping("where")));
        final Set<String> occasions = new LinkedHashSet<>();
        all.stream().forEach(row -> occasions.add(study.table().label("occasion", row)));
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        detector(study, options, flags);
        for (String occasion : occasions) {
            final Rows rows =
                    all.only(row -> study.table().label("occasion", row).equals(occasion));
            one(study, options, rows, occasion, extent, findings, figures, choices, flags);
        }
        final Question question =
                new Question(ID, CARD.title(), CARD.question(), injected(study, all), how(options));
        return new Contribution(question, findings, figures, choices, flags, new TreeMap<>());
    }

    private static void one(
            Study study,
            Tree.Mapping options,
            Rows rows,
            String occasion,
            Extent extent,
            List<Finding> findings,
            List<Figure> figures,
            List<Choice> choices,
            List<Flag> flags) {
        final LadderRows.Expected expected = expected(options);
        final LadderRows ladder =
                LadderRows.of(study, rows, expected, options.text("factor").orElse(""));
        flags.addAll(ladder.leftOut());
        final String reference = options.text("reference").orElse("");
        final DiscriminationFindings made =
                new DiscriminationFindings(
                        study,
                        occasion,
                        reference,
                        options.text("extrapolate").orElse("no").equals("yes"),
                        ladder.rows());
        if (ladder.indexOf(reference) < 0) {
            findings.addAll(
                    made.none(
                            Reason.NO_ROWS,
                            "the reference " + reference + " gave no response in the ladder"));
            return;
        }
        if (ladder.means().slopeVariance().isEmpty()) {
            findings.addAll(
                    made.none(
                            Reason.TOO_FEW_INJECTIONS,
                            "needs 2 injections of the ladder, found 1"));
            return;
        }
        final double[] means = against(study, options, ladder, expected, flags);
        final List<Compound> members = new ArrayList<>();
        final double[] kept = Arrays.stream(means).filter(m -> !Double.isNaN(m)).toArray();
        for (int i = 0; i < means.length; i++) {
            if (!Double.isNaN(means[i])) {
                members.add(ladder.members().get(i));
            }
        }
        if (members.stream().noneMatch(m -> m.name().equals(reference))) {
            findings.addAll(
                    made.none(
                            Reason.NO_ROWS,
                            "the reference " + reference + " gave no response cold on the column"));
            return;
        }
        final Outcome<List<LadderFit>> fits =
                LadderFitter.fit(LadderRows.boilingPoints(members), kept);
        if (fits instanceof Outcome.NotComputed<List<LadderFit>> not) {
            findings.addAll(made.none(not.reason(), not.detail()));
            return;
        }
        final DiscriminationModel model =
                new DiscriminationModel(
                        ID + (occasion.isEmpty() ? "" : "/" + occasion),
                        members,
                        kept,
                        ladder.means().slopeVariance().getAsDouble() / ladder.means().injections(),
                        ladder.means().injections() - 1.0,
                        ((Outcome.Computed<List<LadderFit>>) fits).value());
        findings.addAll(made.of(model));
        choices.add(choice(model, occasion));
        choices.addAll(
                new LadderWidths(study, ladder.rows(), members)
                        .choices(made.heavyIsLow(model), reference));
        if (extent.figures()) {
            figures.add(DiscriminationFigure.of(study, model, reference, occasion));
        }
    }

    /** Member means, less those of the cold series where that is what is expected. */
    private static double[] against(
            Study study,
            Tree.Mapping options,
            LadderRows ladder,
            LadderRows.Expected expected,
            List<Flag> flags) {
        final double[] means = ladder.means().means();
        if (expected != LadderRows.Expected.ON_COLUMN) {
            return means;
        }
        final LadderRows cold =
                LadderRows.of(
                        study, study.table().rows(Where.of(options.mapping("cold"))), expected, "");
        flags.addAll(cold.leftOut());
        final double[] coldMeans = cold.means().means();
        for (int i = 0; i < means.length; i++) {
            final int other = cold.indexOf(ladder.members().get(i).name());
            means[i] = other < 0 ? Double.NaN : means[i] - coldMeans[other];
        }
        return means;
    }

    private static LadderRows.Expected expected(Tree.Mapping options) {
        return switch (options.text("expected").orElse("carbon-number")) {
            case DiscriminationCard.CERTIFIED -> LadderRows.Expected.CERTIFIED;
            case DiscriminationCard.ON_COLUMN -> LadderRows.Expected.ON_COLUMN;
            default -> LadderRows.Expected.CARBON_NUMBER;
        };
    }

    private static void detector(Study study, Tree.Mapping options, List<Flag> flags) {
        if (expected(options) == LadderRows.Expected.CARBON_NUMBER) {
            CarbonNumbers.otherDetector(study, "use certified factors or a cold series")
                    .ifPresent(flags::add);
        }
    }

    private static Choice choice(DiscriminationModel model, String occasion) {
        return new Choice(
                ID,
                "",
                "The ladder"
                        + (occasion.isEmpty() ? "" : " (" + occasion + ")")
                        + " is described by: "
                        + model.chosen().curve().words(),
                "corrected Akaike criterion, the smallest is taken: "
                        + model.fits().stream()
                                .map(f -> f.curve().code() + " " + tenths(f.criterion()))
                                .collect(Collectors.joining(", "))
                        + "; members scatter about it by "
                        + tenths(PERCENT * model.memberSd())
                        + " %, with "
                        + Trail.digits(model.chosen().degreesOfFreedom())
                        + " degrees of freedom. How far other curves that the data support lie, and a"
                        + " cubic, stands in the uncertainty of the factors",
                "Hurvich and Tsai, Biometrika 76 (1989) 297; Burnham and Anderson, Model Selection and"
                        + " Multimodel Inference, 2nd ed. 2002 (both from memory)");
    }

    private static String tenths(double value) {
        return Trail.digits(Math.rint(10 * value) / 10);
    }

    private static String injected(Study study, Rows rows) {
        final Set<String> injections = new LinkedHashSet<>();
        rows.stream().forEach(row -> injections.add(study.table().injection(row)));
        return injections.size()
                + (injections.size() == 1 ? " injection" : " injections")
                + " of a ladder of "
                + study.compounds().ladder().size()
                + " members.";
    }

    private static String how(Tree.Mapping options) {
        final String expected =
                switch (expected(options)) {
                    case CARBON_NUMBER ->
                            "its amount times effective carbon number over molar mass (flame ionisation)";
                    case CERTIFIED -> "its amount times its certified response factor";
                    case ON_COLUMN -> "what the same solution gave cold on the column";
                };
        return "Each member's response is divided by "
                + expected
                + ". The logarithm is injection + curve over the boiling point + member + noise; injection and"
                + " member vary at random, so that more injections do not make a member's mass or response factor"
                + " better known. Ratios of members are as measured; factors of targets are read from the curve."
                + " Loss in the needle, in the inlet, at a cold place before the detector (peaks grow wide) and"
                + " by precipitation from a cold solvent look alike here: only the same solution injected cold onto"
                + " the column tells the inlet apart.";
    }
}
