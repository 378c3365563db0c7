package splitledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import splitledger.report.Page.Row;
import splitledger.report.Page.Table;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Judgement;
import splitledger.study.Key;
import splitledger.study.Verdict;

/**
 * Findings as tables, one for each compound. Findings of one quantity under several conditions
 * stand below one heading; what is the same for all of them is said there once. Many compounds with
 * few findings each share one table.
 */
final class FindingTables {
    private static final int MANY_COMPOUNDS = 5;
    private static final int FEW_FINDINGS = 3;
    private static final String ALL = "All compounds together";

    private static final Comparator<Finding> READING =
            Comparator.<Finding>comparingInt(f -> Wording.rank(f.key().quantity()))
                    .thenComparing(f -> f.key().quantity(), NaturalOrder.ORDER)
                    .thenComparing(f -> f.key().method(), NaturalOrder.ORDER)
                    .thenComparing(f -> f.key().conditionText(), NaturalOrder.ORDER);

    private final List<String> compounds;
    private final double coverage;

    /**
     * For one evaluation.
     *
     * @param compounds in the order in which they are to stand
     * @param coverage of the intervals, unless a finding says otherwise
     */
    FindingTables(List<String> compounds, double coverage) {
        this.compounds = compounds;
        this.coverage = coverage;
    }

    /** The tables of one characteristic. */
    List<Table> of(List<Finding> findings) {
        final Map<String, List<Finding>> byCompound = new LinkedHashMap<>();
        Stream.concat(Stream.of(""), compounds.stream())
                .forEach(c -> byCompound.put(c, new ArrayList<>()));
        findings.stream()
                .sorted(READING)
                .forEach(
                        f ->
                                byCompound
                                        .computeIfAbsent(f.key().compound(), c -> new ArrayList<>())
                                        .add(f));
        byCompound.values().removeIf(List::isEmpty);
        final boolean joined =
                byCompound.size() >= MANY_COMPOUNDS
                        && byCompound.values().stream().allMatch(l -> l.size() <= FEW_FINDINGS);
        if (joined) {
            final List<Row> rows = new ArrayList<>();
            byCompound.forEach(
                    (compound, list) -> {
                        rows.add(heading(titleOf(compound), List.of(), Verdict.INFORMATION));
                        list.forEach(f -> rows.add(row(f, true, full(f), remarks(f))));
                    });
            return List.of(table("Each compound", rows));
        }
        final List<Table> tables = new ArrayList<>();
        byCompound.forEach((compound, list) -> tables.add(table(titleOf(compound), rows(list))));
        return List.copyOf(tables);
    }

    private static String titleOf(String compound) {
        return compound.isEmpty() ? ALL : compound;
    }

    private List<Row> rows(List<Finding> findings) {
        final List<Row> rows = new ArrayList<>();
        int from = 0;
        while (from < findings.size()) {
            int to = from + 1;
            while (to < findings.size() && sameQuantity(findings.get(from), findings.get(to))) {
                to++;
            }
            rows.addAll(group(findings.subList(from, to)));
            from = to;
        }
        return rows;
    }

    private static boolean sameQuantity(Finding a, Finding b) {
        return a.key().quantity().equals(b.key().quantity())
                && a.key().method().equals(b.key().method());
    }

    private List<Row> group(List<Finding> group) {
        final Finding first = group.get(0);
        if (group.size() == 1) {
            return List.of(row(first, false, full(first), remarks(first)));
        }
        final List<String> shared = new ArrayList<>(remarks(first));
        group.forEach(f -> shared.retainAll(remarks(f)));
        final List<Row> rows = new ArrayList<>();
        rows.add(
                heading(
                        Wording.sentence(Wording.quantity(first.key().quantity())),
                        shared,
                        Verdict.INFORMATION));
        for (Finding f : group) {
            final String condition = Wording.condition(f.key());
            rows.add(
                    row(
                            f,
                            true,
                            condition.isEmpty() ? "without condition" : condition,
                            remarks(f).stream().filter(r -> !shared.contains(r)).toList()));
        }
        return rows;
    }

    private static String full(Finding finding) {
        final Key key = finding.key();
        final String condition = Wording.condition(key);
        return Wording.sentence(Wording.quantity(key.quantity()))
                + (condition.isEmpty() ? "" : ", " + condition);
    }

    /** Method, requirements, note: what stands in small print. */
    private List<String> remarks(Finding finding) {
        final List<String> remarks = new ArrayList<>();
        final String method = Wording.method(finding.key().method());
        if (!method.isEmpty()) {
            remarks.add("by " + method);
        }
        for (Judgement j : finding.judgements()) {
            remarks.add(
                    "required: "
                            + j.criterion().text()
                            + source(j.criterion().source(), j.criterion().set()));
            if (!j.explanation().isEmpty()) {
                remarks.add(j.explanation());
            }
        }
        if (finding.answer() instanceof Answer.Bound b) {
            remarks.add(
                    "only a bound, holding with "
                            + Wording.percent(b.coverage())
                            + " probability: "
                            + b.detail());
        }
        if (finding.answer() instanceof Answer.Estimate e && e.coverage() != coverage) {
            remarks.add("interval of " + Wording.percent(e.coverage()));
        }
        if (!finding.note().isEmpty()) {
            remarks.add(finding.note());
        }
        return remarks;
    }

    private static String source(String source, String set) {
        final String where = source.isEmpty() ? "" : source;
        final String when = set.isEmpty() ? "" : "set " + set;
        final String both = where.isEmpty() || when.isEmpty() ? where + when : where + ", " + when;
        return both.isEmpty() ? "" : " (" + both + ")";
    }

    private static Row heading(String what, List<String> remarks, Verdict verdict) {
        return new Row(
                true,
                false,
                what,
                List.copyOf(remarks),
                Page.Cell.EMPTY,
                Page.Cell.EMPTY,
                "",
                Page.Cell.EMPTY,
                Page.Cell.EMPTY,
                "",
                "",
                badge(verdict));
    }

    private static Row row(Finding f, boolean indented, String what, List<String> remarks) {
        Page.Cell value = Page.Cell.EMPTY;
        Page.Cell uncertainty = Page.Cell.EMPTY;
        Page.Cell lower = Page.Cell.EMPTY;
        Page.Cell upper = Page.Cell.EMPTY;
        String freedom = "";
        String instead = "";
        final Answer answer = f.answer();
        if (answer instanceof Answer.Estimate e) {
            final Rounded pair = Rounded.of(e.value(), e.standardUncertainty());
            value = Cells.of(pair.valueText());
            uncertainty = Cells.of(pair.uncertaintyText());
            lower = Cells.of(Rounded.at(e.lower(), e.standardUncertainty()).valueText());
            upper = Cells.of(Rounded.at(e.upper(), e.standardUncertainty()).valueText());
            freedom = Wording.degreesOfFreedom(e.degreesOfFreedom());
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
                badge(f.verdict()));
    }

    /** Words in place of a number. */
    static String notShown(Finding finding) {
        final String why = Wording.detail(finding.answer());
        final String what =
                finding.verdict() == Verdict.NOT_SHOWN ? "not shown" : "cannot be given";
        return why.isEmpty() ? what : what + ": " + why;
    }

    private static Page.Cell alone(double value) {
        return Cells.of(Rounded.alone(value, 3).valueText());
    }

    /** The badge of a verdict. */
    static Page.Badge badge(Verdict verdict) {
        return new Page.Badge(verdict.code(), verdict.words());
    }

    private Table table(String title, List<Row> rows) {
        return new Table(
                title,
                Wording.percent(coverage),
                List.of(
                        Cells.width(rows.stream().map(Row::value).toList()),
                        Cells.width(rows.stream().map(Row::uncertainty).toList()),
                        Cells.width(rows.stream().map(Row::lower).toList()),
                        Cells.width(rows.stream().map(Row::upper).toList())),
                List.copyOf(rows),
                rows.stream().anyMatch(r -> !r.badge().code().equals("information")));
    }
}
