package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.report.Page.Decision;
import splitledger.report.Page.Fact;
import splitledger.report.Page.Link;
import splitledger.report.Page.Section;
import splitledger.study.Choice;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Verdict;

/** Walks once over an evaluation and lays out the page. */
final class PageBuilder {
    /** Ideas that every report speaks of: verdicts, intervals, rounding, flags. */
    private static final List<String> WORDS =
            List.of("verdicts", "coverage", "reporting", "screening");

    private final Evaluation evaluation;
    private final List<String> drawn;
    private final String programVersion;
    private final FindingTables tables;
    private final List<Evaluation.Question> questions;
    private Optional<HandbookPart> handbook = Optional.empty();

    PageBuilder(Evaluation evaluation, List<String> drawn, String programVersion) {
        this.evaluation = evaluation;
        this.drawn = drawn;
        this.programVersion = programVersion;
        this.tables =
                new FindingTables(
                        evaluation.study().compounds().all(),
                        evaluation.study().protocol().conventions().coverage());
        this.questions = questions();
    }

    Page page() {
        final Protocol protocol = evaluation.study().protocol();
        final BudgetPages budgets = BudgetPages.of(evaluation.budgets());
        final WorkedExamples worked = WorkedExamples.of(evaluation);
        final InShort inShort = new InShort(evaluation);
        final List<Section> sections = sections();
        return new Page(
                protocol.title(),
                facts(protocol),
                conventions(protocol.conventions()),
                questions.stream()
                        .map(q -> inShort.answer(q, anchor(q), findings(q.id())))
                        .toList(),
                inShort.results(),
                BudgetPages.leading(evaluation.budgets()),
                BudgetPages.limits(evaluation.budgets()),
                contents(budgets.shown(), worked),
                sections,
                notSaid(BudgetPages.common(evaluation.budgets()), sections),
                budgets.shown(),
                budgets.others(),
                worked.shown(),
                worked.elsewhere(),
                flags(),
                dataDecisions(),
                EvidencePage.of(evaluation.study(), programVersion, evaluation.seed()),
                signed(protocol.laboratory()));
    }

    /** The questions, and one for every other characteristic that left a finding or a figure. */
    private List<Evaluation.Question> questions() {
        final Map<String, Evaluation.Question> byId = new LinkedHashMap<>();
        evaluation.questions().forEach(q -> byId.put(q.id(), q));
        final TreeSet<String> others = new TreeSet<>(CodePoints.ORDER);
        evaluation.findings().forEach(f -> others.add(f.key().characteristic()));
        evaluation.figures().forEach(f -> others.add(f.characteristic()));
        for (String id : others) {
            byId.computeIfAbsent(
                    id,
                    i ->
                            new Evaluation.Question(
                                    i, Wording.sentence(Wording.plain(i)), "", "", ""));
        }
        return List.copyOf(byId.values());
    }

    private List<Finding> findings(String characteristic) {
        return evaluation.findings().stream()
                .filter(f -> f.key().characteristic().equals(characteristic))
                .toList();
    }

    private String anchor(Evaluation.Question question) {
        return "question-" + (questions.indexOf(question) + 1);
    }

    private static Page.Signed signed(Map<String, String> laboratory) {
        return new Page.Signed(
                laboratory.getOrDefault("name", ""),
                laboratory.getOrDefault("prepared-by", ""),
                laboratory.getOrDefault("reviewed-by", ""));
    }

    private static List<Fact> facts(Protocol protocol) {
        final List<Fact> facts = new ArrayList<>();
        if (!protocol.purpose().isEmpty()) {
            facts.add(new Fact("Purpose", Wording.plain(protocol.purpose())));
        }
        facts("Laboratory", protocol.laboratory(), facts);
        facts("Instrument", protocol.instrument(), facts);
        return List.copyOf(facts);
    }

    private static void facts(String block, Map<String, String> stated, List<Fact> into) {
        for (var e : stated.entrySet()) {
            final boolean main = e.getKey().equals("name") || e.getKey().equals("id");
            into.add(
                    new Fact(
                            main ? block : Wording.sentence(Wording.plain(e.getKey())),
                            e.getValue().isBlank() ? "not stated" : e.getValue()));
        }
    }

    private static List<String> conventions(Protocol.Conventions c) {
        final List<String> lines = new ArrayList<>();
        lines.add(
                "Intervals cover with a probability of "
                        + Wording.percent(c.coverage())
                        + " unless another is stated.");
        if (c.splitRatio().equals("total-to-column")) {
            lines.add("Split ratio: total flow (vent and column) to column flow.");
        } else if (c.splitRatio().equals("vent-to-column")) {
            lines.add("Split ratio in the tables: vent flow to column flow.");
        }
        if (!c.recalibrated().isEmpty()) {
            lines.add("Calibration during the precision study: " + c.recalibrated() + ".");
        }
        return List.copyOf(lines);
    }

    private List<Link> contents(List<Page.BudgetView> budgets, WorkedExamples worked) {
        final List<Link> links = new ArrayList<>();
        questions.forEach(q -> links.add(new Link(anchor(q), q.title())));
        if (!budgets.isEmpty()) {
            links.add(new Link("budgets", "Uncertainty budgets"));
        }
        if (!worked.shown().isEmpty()) {
            links.add(new Link("worked", "Worked by hand"));
        }
        links.add(new Link("data", "About the data"));
        links.add(new Link("cautions", "Cautions"));
        links.add(new Link("evidence", "Evidence"));
        return List.copyOf(links);
    }

    /** Choices that no section gives with their reasons already. */
    private static List<Decision> notSaid(List<Decision> choices, List<Section> sections) {
        final Set<List<String>> said =
                sections.stream()
                        .flatMap(s -> s.decisions().stream())
                        .map(d -> List.of(d.what(), d.why()))
                        .collect(Collectors.toCollection(LinkedHashSet::new));
        return choices.stream().filter(d -> !said.contains(List.of(d.what(), d.why()))).toList();
    }

    /** What the report holds of the handbook; what is built afterwards leads to it. */
    HandbookPart withHandbook() {
        final Map<String, String> anchors = new LinkedHashMap<>();
        questions.forEach(q -> anchors.put(q.id(), anchor(q)));
        final HandbookPart part = new HandbookPart(anchors, WORDS);
        handbook = Optional.of(part);
        return part;
    }

    private List<Section> sections() {
        final List<Section> sections = new ArrayList<>();
        final Pictures pictures = new Pictures(evaluation.figures(), drawn);
        for (Evaluation.Question q : questions) {
            final List<Finding> findings = findings(q.id());
            sections.add(
                    new Section(
                            anchor(q),
                            q.title(),
                            q.question(),
                            q.injected(),
                            FindingRows.badge(gravest(findings)),
                            tables.of(findings),
                            pictures.of(q.id()),
                            q.how(),
                            decisions(evaluation.choices(), q.id()),
                            handbook.map(h -> h.howToRead(q.id())).orElse(""),
                            handbook.map(h -> h.ideas(q.id())).orElse(List.of())));
        }
        return List.copyOf(sections);
    }

    /** The gravest verdict of some findings. */
    static Verdict gravest(List<Finding> findings) {
        return findings.stream()
                .map(Finding::verdict)
                .max(java.util.Comparator.naturalOrder())
                .orElse(Verdict.INFORMATION);
    }

    /** Choices of one characteristic; the same choice for several compounds is one. */
    private static List<Decision> decisions(List<Choice> choices, String characteristic) {
        final Map<Choice, Set<String>> compounds = new LinkedHashMap<>();
        for (Choice c : choices) {
            if (c.characteristic().equals(characteristic)) {
                compounds
                        .computeIfAbsent(
                                new Choice("", "", c.what(), c.why(), c.source()),
                                k -> new LinkedHashSet<>())
                        .add(c.compound());
            }
        }
        return compounds.entrySet().stream()
                .map(e -> decision(e.getKey(), String.join(", ", e.getValue())))
                .toList();
    }

    /** A choice as the page shows it. */
    static Decision decision(Choice choice, String about) {
        return new Decision(about, choice.what(), choice.why(), choice.source());
    }

    /** The flags; where the same is said of several subjects, it is said once. */
    private List<Page.FlagView> flags() {
        final Map<List<String>, Set<String>> subjects = new LinkedHashMap<>();
        Stream.concat(evaluation.study().flags().stream(), evaluation.flags().stream())
                .forEach(
                        f ->
                                subjects.computeIfAbsent(
                                                List.of(f.what(), where(f.place())),
                                                k -> new LinkedHashSet<>())
                                        .add(f.subject()));
        return subjects.entrySet().stream()
                .map(
                        e ->
                                new Page.FlagView(
                                        e.getKey().get(1),
                                        String.join(", ", e.getValue()),
                                        e.getKey().get(0)))
                .toList();
    }

    private static String where(Place place) {
        return place.file().isEmpty()
                ? ""
                : place.row() > 0 ? place.file() + ", line " + place.row() : place.file();
    }

    /** What reading decided, and choices that belong to no characteristic of this page. */
    private List<Decision> dataDecisions() {
        final Set<String> shown =
                questions.stream()
                        .map(Evaluation.Question::id)
                        .collect(Collectors.toCollection(LinkedHashSet::new));
        return Stream.concat(
                        evaluation.study().choices().stream(),
                        evaluation.choices().stream()
                                .filter(c -> !shown.contains(c.characteristic())))
                .distinct()
                .map(c -> decision(c, c.compound()))
                .toList();
    }

    /** A value with its uncertainty and unit, in a sentence. */
    static String withUncertainty(Rounded r, String unit) {
        final String after = unit.isEmpty() ? "" : " " + unit;
        if (r.power() != 0) {
            return "(" + r.value() + " ± " + r.uncertainty() + ")" + r.powerText() + after;
        }
        return r.value() + after + " ± " + r.uncertainty() + after;
    }
}
