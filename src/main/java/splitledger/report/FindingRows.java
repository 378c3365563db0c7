package splitledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import splitledger.base.CodePoints;
import splitledger.report.Page.Cell;
import splitledger.report.Page.Row;
import splitledger.study.Answer;
import splitledger.study.Criterion;
import splitledger.study.Finding;
import splitledger.study.Judgement;
import splitledger.study.Key;
import splitledger.study.Verdict;

/** Findings as lines of a table: rounded numbers, words where there are none, remarks below. */
final class FindingRows {
    /** How a remark about the method begins. */
    static final String METHOD = "Method: ";

    /** How a remark about a requirement begins. */
    static final String REQUIRED = "Required: ";

    private static final int DIGITS_OF_BOUND = 3;
    private static final int FEW = 3;

    private final double coverage;

    /**
     * For one evaluation.
     *
     * @param coverage of the intervals, unless a finding says otherwise
     */
    FindingRows(double coverage) {
        this.coverage = coverage;
    }

    /** The method of at least three groups and of more than any other; empty if there is none. */
    static String usualMethod(List<List<Finding>> groups) {
        final Map<String, Integer> counts = new TreeMap<>(CodePoints.ORDER);
        groups.forEach(g -> counts.merge(g.get(0).key().method(), 1, Integer::sum));
        String usual = "";
        int most = FEW - 1;
        for (var e : counts.entrySet()) {
            if (e.getValue() > most) {
                most = e.getValue();
                usual = e.getKey();
            }
        }
        return usual;
    }

    /**
     * A finding by itself.
     *
     * @param usual method that need not be named
     */
    Row single(Finding finding, String usual) {
        return row(finding, false, full(finding), remarks(finding, usual));
    }

    /** Findings below a heading, which says once what is the same for all of them. */
    List<Row> group(
            List<Finding> group, String heading, String usual, Function<Finding, String> label) {
        final List<String> shared = new ArrayList<>(remarks(group.get(0), usual));
        group.forEach(f -> shared.retainAll(remarks(f, usual)));
        final List<Row> rows = new ArrayList<>();
        rows.add(heading(heading, shared));
        for (Finding f : group) {
            final List<String> own =
                    remarks(f, usual).stream().filter(r -> !shared.contains(r)).toList();
            rows.add(row(f, true, label.apply(f), own));
        }
        return rows;
    }

    /**
     * A long list in short: a line that says how many numbers there are, how far they reach and how
     * they were judged, and every number that does not meet its requirement.
     */
    List<Row> summary(List<Finding> group, String usual) {
        final List<String> shared = new ArrayList<>(remarks(group.get(0), usual));
        group.forEach(f -> shared.retainAll(remarks(f, usual)));
        final List<Row> rows = new ArrayList<>();
        final Finding first = group.get(0);
        final Row line = row(first, false, quantityOf(first), shared);
        final Verdict worst =
                group.stream()
                        .map(Finding::verdict)
                        .max(java.util.Comparator.naturalOrder())
                        .orElse(Verdict.INFORMATION);
        rows.add(
                new Row(
                        false,
                        false,
                        line.what(),
                        line.remarks(),
                        Cell.EMPTY,
                        Cell.EMPTY,
                        Cell.EMPTY,
                        Cell.EMPTY,
                        Cell.EMPTY,
                        "",
                        extent(group),
                        shortBadge(worst)));
        for (Finding f : group) {
            if (!f.judgements().isEmpty() && f.verdict() != Verdict.MEETS) {
                final List<String> own =
                        remarks(f, usual).stream().filter(r -> !shared.contains(r)).toList();
                rows.add(row(f, true, Wording.condition(f.key()), own));
            }
        }
        return rows;
    }

    private static String quantityOf(Finding finding) {
        return Wording.sentence(Wording.quantity(finding.key().quantity()));
    }

    /** How many numbers and how far they reach. */
    private static String extent(List<Finding> group) {
        Optional<Finding> least = Optional.empty();
        Optional<Finding> largest = Optional.empty();
        for (Finding f : group) {
            if (valueOf(f).isPresent()) {
                final double v = valueOf(f).getAsDouble();
                if (least.isEmpty() || v < valueOf(least.get()).orElse(v)) {
                    least = Optional.of(f);
                }
                if (largest.isEmpty() || v > valueOf(largest.get()).orElse(v)) {
                    largest = Optional.of(f);
                }
            }
        }
        final String count = Wording.count(group.size(), "number", "numbers");
        if (least.isEmpty() || largest.isEmpty()) {
            return count + ", see the further numbers";
        }
        final String unit = Wording.unit(group.get(0).answer().unit());
        return count
                + ", "
                + printed(least.get())
                + " to "
                + printed(largest.get())
                + (unit.isEmpty() ? "" : " " + unit)
                + ", see the further numbers";
    }

    private static OptionalDouble valueOf(Finding f) {
        final Answer answer = f.answer();
        if (answer instanceof Answer.Estimate e) {
            return OptionalDouble.of(e.value());
        }
        if (answer instanceof Answer.Statistic s) {
            return OptionalDouble.of(s.value());
        }
        return answer instanceof Answer.Bound b ? b.value() : OptionalDouble.empty();
    }

    private static String printed(Finding f) {
        if (f.answer() instanceof Answer.Estimate e) {
            return Rounded.of(e.value(), e.standardUncertainty()).valueText();
        }
        final double value = valueOf(f).orElseThrow();
        return f.answer() instanceof Answer.Statistic
                ? Cells.statistic(f.key().quantity(), value)
                : Rounded.alone(value, DIGITS_OF_BOUND).valueText();
    }

    /** Quantity and conditions in words. */
    static String full(Finding finding) {
        final Key key = finding.key();
        final String condition = Wording.condition(key);
        return Wording.sentence(Wording.quantity(key.quantity()))
                + (condition.isEmpty() ? "" : ", " + condition);
    }

    /**
     * Method, requirements, note: what stands in small print. Of a plain number the verdict needs
     * no explanation.
     */
    private List<String> remarks(Finding finding, String usual) {
        final List<String> remarks = new ArrayList<>();
        final String method = Wording.method(finding.key().method());
        if (!method.isEmpty() && !finding.key().method().equals(usual)) {
            remarks.add(METHOD + method);
        }
        for (Judgement j : finding.judgements()) {
            remarks.add(REQUIRED + Wording.requirement(j.criterion()) + origin(j.criterion()));
            if (!j.explanation().isEmpty() && !(finding.answer() instanceof Answer.Statistic)) {
                remarks.add(Wording.sentence(j.explanation()));
            }
        }
        if (finding.answer() instanceof Answer.Bound b) {
            remarks.add(
                    "Only a bound, holding with "
                            + Wording.percent(b.coverage())
                            + " probability: "
                            + b.detail());
        }
        if (finding.answer() instanceof Answer.Estimate e && e.coverage() != coverage) {
            remarks.add("Interval of " + Wording.percent(e.coverage()));
        }
        if (!finding.note().isEmpty()) {
            remarks.add(Wording.sentence(finding.note()));
        }
        return remarks;
    }

    private static String origin(Criterion criterion) {
        final String set = criterion.set().isEmpty() ? "" : "set " + criterion.set();
        final String both =
                Stream.of(criterion.source(), set)
                        .filter(t -> !t.isEmpty())
                        .collect(Collectors.joining(", "));
        return both.isEmpty() ? "" : " (" + both + ")";
    }

    private static Row heading(String what, List<String> remarks) {
        return new Row(
                true,
                false,
                what,
                List.copyOf(remarks),
                Cell.EMPTY,
                Cell.EMPTY,
                Cell.EMPTY,
                Cell.EMPTY,
                Cell.EMPTY,
                "",
                "",
                badge(Verdict.INFORMATION));
    }

    private static Row row(Finding f, boolean indented, String what, List<String> remarks) {
        Cell value = Cell.EMPTY;
        Cell uncertainty = Cell.EMPTY;
        Cell freedom = Cell.EMPTY;
        Cell lower = Cell.EMPTY;
        Cell upper = Cell.EMPTY;
        String instead = "";
        final Answer answer = f.answer();
        if (answer instanceof Answer.Estimate e) {
            final double u = e.standardUncertainty();
            final Rounded pair = Rounded.of(e.value(), u);
            value = Cells.of(pair.valueText());
            uncertainty = Cells.of(pair.uncertaintyText());
            freedom = Cells.of(Wording.degreesOfFreedom(e.degreesOfFreedom()));
            lower = Cells.of(Rounded.at(e.lower(), u).valueText());
            upper = Cells.of(Rounded.at(e.upper(), u).valueText());
        } else if (answer instanceof Answer.Bound b) {
            value = b.value().isPresent() ? alone(b.value().getAsDouble()) : value;
            lower = b.lower().isPresent() ? alone(b.lower().getAsDouble()) : lower;
            upper = b.upper().isPresent() ? alone(b.upper().getAsDouble()) : upper;
        } else if (answer instanceof Answer.Statistic s) {
            value = Cells.of(Cells.statistic(f.key().quantity(), s.value()));
        } else {
            instead = notShown(f);
        }
        return new Row(
                false,
                indented,
                what,
                List.copyOf(remarks),
                value,
                uncertainty,
                freedom,
                lower,
                upper,
                Wording.unit(answer.unit()),
                instead,
                shortBadge(f.verdict()));
    }

    /** Words in place of a number. */
    static String notShown(Finding finding) {
        final String why = Wording.detail(finding.answer());
        final String what =
                finding.verdict() == Verdict.NOT_SHOWN ? "not shown" : "cannot be given";
        return why.isEmpty() ? what : what + ": " + why;
    }

    private static Cell alone(double value) {
        return Cells.of(Rounded.alone(value, DIGITS_OF_BOUND).valueText());
    }

    /** The badge of a verdict beside a heading. */
    static Page.Badge badge(Verdict verdict) {
        return new Page.Badge(
                verdict.code(),
                verdict == Verdict.INFORMATION ? "no requirement" : verdict.words());
    }

    /** The badge of a verdict inside a table. */
    static Page.Badge shortBadge(Verdict verdict) {
        return new Page.Badge(verdict.code(), Wording.plain(verdict.code()));
    }
}
