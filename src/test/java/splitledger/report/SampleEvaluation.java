package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import splitledger.chart.SampleFigures;
import splitledger.propagation.Shape;
import splitledger.study.Budget;
import splitledger.study.Choice;
import splitledger.study.Compounds;
import splitledger.study.Criterion;
import splitledger.study.Doubles;
import splitledger.study.Evaluation;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.InputFile;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Reporting;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * An invented evaluation as a laboratory would meet it: two targets, every status and verdict, long
 * words, and texts that would do harm if they were not escaped.
 */
final class SampleEvaluation {
    static final String HOSTILE = SampleFigures.HOSTILE;
    static final String FORMULA = "=cmd|' /C calc'!A0";
    static final List<String> TARGETS = List.of("limonene", "linalyl acetate");

    private SampleEvaluation() {}

    static Evaluation evaluation() {
        final List<Finding> findings = SampleFindings.all(TARGETS);
        final List<Budget> budgets = new ArrayList<>();
        for (String target : TARGETS) {
            for (String level : List.of("L1", "L10", "L2", "L6")) {
                budgets.add(SampleBudgets.of(target, level));
            }
        }
        final List<Figure> figures = new ArrayList<>();
        TARGETS.forEach(t -> figures.addAll(SampleFigures.of(t)));
        return new Evaluation(
                study(),
                questions(),
                findings.stream().sorted().toList(),
                budgets,
                figures,
                choices(),
                List.of(
                        new Flag(
                                new Place("areas.csv", 17, "area"),
                                "injection 0016, limonene",
                                "the area is the same to the last digit as that of injection 0015"),
                        new Flag(Place.NONE, HOSTILE, "peak without a compound; ignored")),
                20260210);
    }

    static Study study() {
        return new Study(
                protocol(),
                new Compounds(
                        TARGETS,
                        List.of("n-C8", "n-C20", "n-C40"),
                        List.of("myrcene"),
                        Optional.of(
                                new Compounds.InternalStandard(
                                        "n-C14", OptionalDouble.of(50), 0.3, "mg/L")),
                        List.of(
                                new Compounds.Compound(
                                        "limonene", OptionalDouble.of(176), "invented"))),
                table(),
                List.of(
                        new InputFile(
                                "area-table",
                                "datasets/flower-oil/areas.csv",
                                "../../datasets/flower-oil/areas.csv",
                                "0f".repeat(32)),
                        new InputFile(
                                "protocol", "protocol.yaml", "protocol.yaml", "a1".repeat(32))),
                List.of(new Flag(Place.NONE, "unknown 1", "peak is not in compounds; ignored")),
                List.of(
                        new Choice(
                                "",
                                "",
                                "Empty cells are read as not detected.",
                                "the protocol says so",
                                "protocol, tables")));
    }

    private static Protocol protocol() {
        final Map<String, String> laboratory = new LinkedHashMap<>();
        laboratory.put("name", "Invented Laboratory & <b>Sons</b>");
        laboratory.put("prepared-by", "");
        laboratory.put("reviewed-by", "");
        final Map<String, String> instrument = new LinkedHashMap<>();
        instrument.put("id", "GC-3");
        instrument.put("detector", "FID");
        instrument.put("gas", "He");
        instrument.put("column", "30 m x 0.25 mm");
        instrument.put("liner", "4 mm x 78 mm");
        final Map<String, Tree> options = new LinkedHashMap<>();
        options.put("series", new Tree.Scalar(Place.NONE, "calibration", false));
        final Map<String, Protocol.Input> inputs = new LinkedHashMap<>();
        inputs.put(
                "V",
                new Protocol.Given(
                        10,
                        "mL",
                        0.0102,
                        new Shape.Triangular(),
                        Double.POSITIVE_INFINITY,
                        "flask class A",
                        Protocol.Home.NOT_STATED,
                        Place.NONE));
        inputs.put("oil", new Protocol.RowVariable("oil", "mg", 0.1, "balance", Place.NONE));
        inputs.put(
                "R",
                new Protocol.FromFinding(
                        "recovery",
                        Optional.empty(),
                        Map.of(),
                        Protocol.Home.NOT_STATED,
                        Place.NONE));
        inputs.put(
                "precision",
                new Protocol.Spread(1, "rsd-intermediate", OptionalDouble.of(2), Place.NONE));
        inputs.put("D", new Protocol.NotCorrected(Place.NONE));
        return new Protocol(
                "Terpenes in flower oil by GC-FID, split 50",
                "full-validation",
                laboratory,
                instrument,
                new Protocol.Conventions("total-to-column", "once", 0.95, "pA s", "mg/L"),
                Map.of("calibration", new Tree.Mapping(Place.NONE, options)),
                List.of(SampleFindings.atMost("rsd-repeatability", 2, "%")),
                Optional.of(
                        new Protocol.Measurand(
                                "mass fraction in the oil",
                                "mg/g",
                                "found * V / oil * precision / R",
                                inputs,
                                List.of(),
                                Optional.empty(),
                                Protocol.Found.AMOUNT,
                                Reporting.PLAIN,
                                Place.NONE)),
                List.of(
                        new Protocol.Exclusion(
                                "0317", "all", "vial not crimped", "M. Invented", Place.NONE)),
                List.of(new Protocol.Event("2026-03-04", "liner")));
    }

    /** Four rows are enough for findings to point at. */
    private static InjectionTable table() {
        return InjectionTable.ofSize(4)
                .labels(
                        "injection",
                        new InjectionTable.Labels(
                                InjectionTable.Codes.of(0, 0, 1, 1), List.of("0015", "0016")))
                .labels(
                        "compound",
                        new InjectionTable.Labels(InjectionTable.Codes.of(0, 1, 0, 1), TARGETS))
                .numbers("area", Doubles.of(101.2, 55.1, 101.2, 54.8))
                .states(java.util.Collections.nCopies(4, State.MEASURED))
                .places(
                        List.of("areas.csv"),
                        InjectionTable.Codes.of(0, 0, 0, 0),
                        InjectionTable.Codes.of(16, 16, 17, 17))
                .build();
    }

    private static List<Evaluation.Question> questions() {
        return List.of(
                question(
                        "calibration",
                        "Calibration",
                        "What does a response mean, and over which range?",
                        "6 levels from 2 mg/L to 50 mg/L, 3 independent preparations each, every"
                                + " preparation injected twice.",
                        "A straight line through the means of the preparations; lack of fit is"
                                + " tested against the scatter between preparations (ISO 11095,"
                                + " from memory)."),
                question(
                        "detection",
                        "Detection",
                        "How little can be told from nothing?",
                        "10 blanks and the calibration.",
                        "Each document's own definition, side by side."),
                question(
                        "repeatability",
                        "Repeatability and intermediate precision",
                        "How do results agree within a run and between days and analysts?",
                        "2 analysts on 5 days, 2 preparations each.",
                        "Moments of the crossed analysis of variance (ISO 5725-3, from memory)."),
                question(
                        "split-linearity",
                        "Split linearity",
                        "Does the response follow the split ratio?",
                        "5 split ratios from 10 to 200, each set up twice.",
                        "One generalised least-squares fit over all compounds and settings."),
                question(
                        "discrimination",
                        "Discrimination",
                        "Does the fraction on column depend on the boiling point?",
                        "17 homologues in equal masses.",
                        "Effective carbon numbers as expected response."),
                question(
                        "budget",
                        "Results and their uncertainty",
                        "What is the result, and how well is it known?",
                        "8 samples, 2 injections each.",
                        "Law of propagation of uncertainty (JCGM 100:2008, 5.1), checked by Monte"
                                + " Carlo (JCGM 101:2008, 7)."));
    }

    private static Evaluation.Question question(
            String id, String title, String question, String injected, String how) {
        return new Evaluation.Question(id, title, question, injected, how);
    }

    private static List<Choice> choices() {
        final List<Choice> choices = new ArrayList<>();
        for (String target : TARGETS) {
            choices.add(
                    new Choice(
                            "calibration",
                            target,
                            "The line is fitted without weights.",
                            "the scatter of the response does not grow with its size (p = 0.41)",
                            "common practice, no source"));
        }
        choices.add(
                new Choice(
                        "repeatability",
                        "linalyl acetate",
                        "Analyst counts as crossed with day.",
                        "every analyst worked on every day " + HOSTILE,
                        "ISO 5725-3, from memory"));
        choices.add(
                new Choice(
                        "nowhere",
                        "",
                        "A choice without a section.",
                        "it must be shown all the same",
                        ""));
        return choices;
    }

    static Criterion criterion(String quantity, Criterion.Limit limit, String unit) {
        return new Criterion(
                quantity,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                new TreeMap<>(),
                limit,
                unit,
                Criterion.Basis.OBSERVED,
                0.05,
                "our procedure 12, edition 3",
                "2026-02-10",
                Place.NONE);
    }
}
