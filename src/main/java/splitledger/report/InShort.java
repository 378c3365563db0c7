package splitledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
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

    InShort(Evaluation evaluation) {
        this.evaluation = evaluation;
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
                    "All "
                            + Wording.count(
                                    judged.size(),
                                    "finding under a requirement meets it.",
                                    "findings under a requirement meet it."));
            if (judged.size() == 1) {
                sentences.set(0, "The finding under a requirement meets it.");
            }
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
                FindingTables.badge(PageBuilder.gravest(findings)),
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
                                .map(c -> c.text())
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

    /** The reported results, in order of compounds and labels. */
    Optional<ResultTable> results() {
        final List<String> compounds = evaluation.study().compounds().all();
        final List<Finding> found =
                evaluation.findings().stream()
                        .filter(f -> f.key().quantity().equals("result"))
                        .sorted(
                                Comparator.<Finding>comparingInt(
                                                f -> compounds.indexOf(f.key().compound()))
                                        .thenComparing(
                                                f -> f.key().conditionText(), NaturalOrder.ORDER))
                        .toList();
        if (found.isEmpty()) {
            return Optional.empty();
        }
        final List<ResultRow> rows = found.stream().map(this::row).toList();
        return Optional.of(
                new ResultTable(
                        List.of(
                                Cells.width(rows.stream().map(ResultRow::value).toList()),
                                Cells.width(rows.stream().map(ResultRow::expanded).toList())),
                        rows,
                        found.stream().anyMatch(f -> !f.judgements().isEmpty())));
    }

    private ResultRow row(Finding f) {
        final String which = Wording.condition(f.key());
        final String unit = Wording.unit(f.answer().unit());
        if (!(f.answer() instanceof Answer.Estimate e)) {
            final String words =
                    f.answer() instanceof Answer.Bound ? number(f) : FindingTables.notShown(f);
            return new ResultRow(
                    f.key().compound(),
                    which,
                    Page.Cell.EMPTY,
                    Page.Cell.EMPTY,
                    unit,
                    "",
                    "",
                    words,
                    FindingTables.badge(f.verdict()));
        }
        final double expanded =
                beside(f.key(), "expanded-uncertainty").orElse((e.upper() - e.lower()) / 2);
        final Rounded pair = Rounded.of(e.value(), expanded);
        return new ResultRow(
                f.key().compound(),
                which,
                Cells.of(pair.valueText()),
                Cells.of(pair.uncertaintyText()),
                unit,
                beside(f.key(), "coverage-factor")
                        .or(() -> ratio(expanded, e.standardUncertainty()))
                        .map(k -> Wording.decimals(k, 2))
                        .orElse(""),
                Wording.degreesOfFreedom(e.degreesOfFreedom()),
                "",
                FindingTables.badge(f.verdict()));
    }

    private static Optional<Double> ratio(double expanded, double u) {
        return u > 0 ? Optional.of(expanded / u) : Optional.empty();
    }

    /** The value of another quantity of the same compound and condition. */
    private Optional<Double> beside(Key key, String quantity) {
        return evaluation.findings().stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().characteristic().equals(key.characteristic()))
                .filter(f -> f.key().compound().equals(key.compound()))
                .filter(f -> f.key().condition().equals(key.condition()))
                .map(Finding::answer)
                .flatMap(InShort::value)
                .findFirst();
    }

    private static Stream<Double> value(Answer answer) {
        if (answer instanceof Answer.Estimate e) {
            return Stream.of(e.value());
        }
        return answer instanceof Answer.Statistic s ? Stream.of(s.value()) : Stream.empty();
    }
}
