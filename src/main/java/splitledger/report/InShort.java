package splitledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.report.Page.ResultRow;
import splitledger.report.Page.ResultTable;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Judgement;
import splitledger.study.Key;
import splitledger.study.Verdict;

/** The first page: verdicts in words and the reported results. */
final class InShort {
    private static final int NAMED = 6;

    private final Evaluation evaluation;

    /** Looked up only, never walked through. */
    private final Map<List<String>, Double> values;

    InShort(Evaluation evaluation) {
        this.evaluation = evaluation;
        this.values = values(evaluation.findings());
    }

    /** A characteristic in short. */
    Page.Answered answer(Evaluation.Question question, String anchor, List<Finding> findings) {
        final List<String> sentences = new ArrayList<>();
        final List<Finding> judged =
                findings.stream().filter(f -> !f.judgements().isEmpty()).toList();
        final long met = judged.stream().filter(f -> f.verdict() == Verdict.MEETS).count();
        if (judged.isEmpty()) {
            sentences.add("No requirement was set.");
        } else if (met == judged.size()) {
            sentences.add(
                    switch (judged.size()) {
                        case 1 -> "The finding under a requirement meets it.";
                        case 2 -> "Both findings under a requirement meet it.";
                        default ->
                                "All " + judged.size() + " findings under a requirement meet it.";
                    });
        } else {
            if (met > 0) {
                sentences.add(met + " of " + judged.size() + " findings meet their requirement.");
            }
            final List<Finding> open =
                    judged.stream()
                            .filter(f -> f.verdict() != Verdict.MEETS)
                            .sorted(Comparator.comparing(Finding::verdict).reversed())
                            .toList();
            open.stream().limit(NAMED).forEach(f -> sentences.add(sentence(f)));
            if (open.size() > NAMED) {
                sentences.add("And " + (open.size() - NAMED) + " more, see below.");
            }
        }
        final long missing =
                findings.stream()
                        .filter(f -> f.answer() instanceof Answer.NotEstimable)
                        .filter(f -> f.judgements().isEmpty())
                        .count();
        if (missing > 0) {
            sentences.add(
                    Wording.count((int) missing, "quantity", "quantities")
                            + " cannot be given from these data; the table says why.");
        }
        return new Page.Answered(
                anchor,
                question.title(),
                question.question(),
                FindingRows.badge(PageBuilder.gravest(findings)),
                List.copyOf(sentences));
    }

    private static String sentence(Finding f) {
        final Key key = f.key();
        final String condition = Wording.condition(key);
        final String limits =
                String.join(
                        "; ",
                        f.judgements().stream()
                                .filter(j -> j.verdict() == f.verdict())
                                .map(Judgement::criterion)
                                .map(Wording::requirement)
                                .toList());
        return Wording.sentence(f.verdict().words())
                + ": "
                + Wording.quantity(key.quantity())
                + (key.compound().isEmpty() ? "" : ", " + key.compound())
                + (condition.isEmpty() ? "" : ", " + condition)
                + ": "
                + number(f)
                + "; required: "
                + limits
                + ".";
    }

    private static String number(Finding f) {
        final Answer a = f.answer();
        final String unit = Wording.unit(a.unit());
        if (a instanceof Answer.Estimate e) {
            return with(Rounded.of(e.value(), e.standardUncertainty()).valueText(), unit)
                    + ", interval "
                    + Rounded.at(e.lower(), e.standardUncertainty()).valueText()
                    + " to "
                    + with(Rounded.at(e.upper(), e.standardUncertainty()).valueText(), unit);
        }
        if (a instanceof Answer.Statistic s) {
            return with(Cells.statistic(f.key().quantity(), s.value()), unit);
        }
        if (a instanceof Answer.Bound b) {
            final List<String> sides = new ArrayList<>();
            b.lower()
                    .ifPresent(
                            v ->
                                    sides.add(
                                            "at least "
                                                    + with(Rounded.alone(v, 3).valueText(), unit)));
            b.upper()
                    .ifPresent(
                            v ->
                                    sides.add(
                                            "at most "
                                                    + with(Rounded.alone(v, 3).valueText(), unit)));
            return sides.isEmpty() ? b.detail() : String.join(" and ", sides);
        }
        return Wording.detail(a);
    }

    private static String with(String number, String unit) {
        return unit.isEmpty() ? number : number + " " + unit;
    }

    /**
     * The reported results by compound; those at calibration levels only if there are no others.
     */
    Optional<ResultTable> results() {
        final List<Finding> all =
                evaluation.findings().stream()
                        .filter(f -> f.key().quantity().equals("result"))
                        .filter(f -> !f.key().condition().containsKey("level"))
                        .sorted(
                                Comparator.comparing(
                                        f -> f.key().conditionText(), NaturalOrder.ORDER))
                        .toList();
        final List<Finding> reported =
                all.stream().filter(f -> !f.key().condition().containsKey("level")).toList();
        final List<Finding> found = reported.isEmpty() ? all : reported;
        if (found.isEmpty()) {
            return Optional.empty();
        }
        final Map<String, List<ResultRow>> byCompound = new LinkedHashMap<>();
        evaluation.study().compounds().all().forEach(c -> byCompound.put(c, new ArrayList<>()));
        found.forEach(
                f ->
                        byCompound
                                .computeIfAbsent(f.key().compound(), c -> new ArrayList<>())
                                .add(row(f)));
        byCompound.values().removeIf(List::isEmpty);
        final List<ResultRow> rows = byCompound.values().stream().flatMap(List::stream).toList();
        return Optional.of(
                new ResultTable(
                        List.of(
                                Cells.width(rows.stream().map(ResultRow::value).toList()),
                                Cells.width(rows.stream().map(ResultRow::expanded).toList()),
                                Cells.width(
                                        rows.stream().map(ResultRow::degreesOfFreedom).toList())),
                        byCompound.entrySet().stream()
                                .map(e -> new Page.ResultGroup(e.getKey(), e.getValue()))
                                .toList(),
                        found.stream().anyMatch(f -> !f.judgements().isEmpty()),
                        ResultsSideBySide.of(byCompound)));
    }

    private ResultRow row(Finding f) {
        final String which = Wording.condition(f.key());
        final String unit = Wording.unit(f.answer().unit());
        if (!(f.answer() instanceof Answer.Estimate e)) {
            final String words =
                    f.answer() instanceof Answer.Bound ? number(f) : FindingRows.notShown(f);
            return new ResultRow(
                    which,
                    Page.Cell.EMPTY,
                    Page.Cell.EMPTY,
                    unit,
                    "",
                    Page.Cell.EMPTY,
                    words,
                    FindingRows.shortBadge(f.verdict()));
        }
        final double expanded =
                beside(f.key(), "expanded-uncertainty").orElse((e.upper() - e.lower()) / 2);
        final Rounded pair = Rounded.of(e.value(), expanded);
        return new ResultRow(
                which,
                Cells.of(pair.valueText()),
                Cells.of(pair.uncertaintyText()),
                unit,
                beside(f.key(), "coverage-factor")
                        .or(() -> ratio(expanded, e.standardUncertainty()))
                        .map(k -> Wording.decimals(k, 2))
                        .orElse(""),
                Cells.of(Wording.degreesOfFreedom(e.degreesOfFreedom())),
                "",
                FindingRows.shortBadge(f.verdict()));
    }

    private static Optional<Double> ratio(double expanded, double u) {
        return u > 0 ? Optional.of(expanded / u) : Optional.empty();
    }

    /** The value of another quantity of the same compound and condition. */
    private Optional<Double> beside(Key key, String quantity) {
        return Optional.ofNullable(values.get(place(key, quantity)));
    }

    private static List<String> place(Key key, String quantity) {
        return List.of(key.characteristic(), key.compound(), key.conditionText(), quantity);
    }

    private static Map<List<String>, Double> values(List<Finding> findings) {
        final Map<List<String>, Double> values = new HashMap<>();
        for (Finding f : findings) {
            final List<String> place = place(f.key(), f.key().quantity());
            if (f.answer() instanceof Answer.Estimate e) {
                values.putIfAbsent(place, e.value());
            } else if (f.answer() instanceof Answer.Statistic s) {
                values.putIfAbsent(place, s.value());
            }
        }
        return values;
    }
}
