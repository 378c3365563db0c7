package splitledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import splitledger.report.Page.Row;
import splitledger.report.Page.Table;
import splitledger.study.Finding;

/**
 * Findings as tables, one for each compound. Findings of one quantity under several conditions
 * stand below one heading; what is the same for all of them is said there once. Plain numbers under
 * many conditions go into a matrix. Many compounds with few findings each share one table. Long
 * lists, and plain numbers without a requirement, stand apart as further numbers; a long list has a
 * line in the first table that says how far it reaches, and whatever in it does not meet its
 * requirement stands there too.
 */
final class FindingTables {
    private static final int MANY_COMPOUNDS = 5;
    private static final int FEW_FINDINGS = 3;
    private static final int FEW_LINES = 6;
    private static final String ALL = "All compounds together";

    private static final Comparator<Finding> READING =
            Comparator.<Finding>comparingInt(f -> Wording.rank(f.key().quantity()))
                    .thenComparing(f -> f.key().quantity(), NaturalOrder.ORDER)
                    .thenComparing(f -> f.key().method(), NaturalOrder.ORDER)
                    .thenComparing(f -> f.key().conditionText(), NaturalOrder.ORDER);

    private final List<String> compounds;
    private final FindingRows rows;
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
        this.rows = new FindingRows(coverage);
    }

    /** The tables of one characteristic. */
    List<Page.Part> of(List<Finding> findings) {
        final Map<String, List<Finding>> byCompound = new LinkedHashMap<>();
        Stream.concat(Stream.of(""), compounds.stream())
                .forEach(c -> byCompound.put(c, new ArrayList<>()));
        findings.stream()
                .sorted(
                        Comparator.<Finding, String>comparing(
                                        f -> f.key().compound(), NaturalOrder.ORDER)
                                .thenComparing(READING))
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
            final List<Finding> all = byCompound.values().stream().flatMap(List::stream).toList();
            return List.of(new Page.Part(Optional.of(joined(all)), Optional.empty()));
        }
        final List<Page.Part> parts = new ArrayList<>();
        byCompound.forEach((compound, list) -> parts.add(single(compound, list)));
        return SaidOnce.in(parts);
    }

    private static String titleOf(String compound) {
        return compound.isEmpty() ? ALL : compound;
    }

    /** Quantities as headings, compounds below them in the order given. */
    private Table joined(List<Finding> findings) {
        final List<Row> lines = new ArrayList<>();
        final List<List<Finding>> groups =
                groups(
                        findings,
                        f ->
                                List.of(
                                        f.key().quantity(),
                                        f.key().method(),
                                        f.key().conditionText()));
        final String usual = FindingRows.usualMethod(groups);
        groups.sort(Comparator.comparing(g -> g.get(0), READING));
        for (List<Finding> group : groups) {
            lines.addAll(
                    rows.group(
                            group, FindingRows.full(group.get(0)), usual, FindingTables::compound));
        }
        return table("", "Each compound", usual, lines, List.of());
    }

    private static String compound(Finding finding) {
        return titleOf(finding.key().compound());
    }

    /** Quantities of one compound, their conditions below them. */
    private Page.Part single(String compound, List<Finding> findings) {
        final List<List<Finding>> groups =
                groups(findings, f -> List.of(f.key().quantity(), f.key().method()));
        final List<List<Finding>> crossed = groups.stream().filter(CrossTable::suits).toList();
        final List<List<Finding>> plain =
                groups.stream()
                        .filter(FindingMatrix::suits)
                        .filter(g -> !crossed.contains(g))
                        .toList();
        final boolean matrix = plain.size() > 1;
        final String usual = FindingRows.usualMethod(groups);
        final List<Row> first = new ArrayList<>();
        final List<Row> further = new ArrayList<>();
        final boolean all = findings.size() <= FEW_LINES;
        for (List<Finding> group : groups) {
            final boolean inMatrix = crossed.contains(group) || (matrix && plain.contains(group));
            if (inMatrix) {
                continue;
            }
            final Interest interest = all ? Interest.FIRST : Interest.of(group, groups);
            if (interest == Interest.SUMMARY) {
                first.addAll(rows.summary(group, usual));
            }
            (interest == Interest.FIRST ? first : further).addAll(lines(group, usual));
        }
        final List<Page.Matrix> matrices = matrices(matrix ? plain : List.of(), crossed);
        final boolean none = further.isEmpty() && matrices.isEmpty();
        return new Page.Part(
                first.isEmpty()
                        ? Optional.empty()
                        : Optional.of(table(compound, titleOf(compound), usual, first, List.of())),
                none
                        ? Optional.empty()
                        : Optional.of(
                                table(compound, titleOf(compound), usual, further, matrices)));
    }

    private List<Row> lines(List<Finding> group, String usual) {
        final Finding first = group.get(0);
        final String heading = Wording.sentence(Wording.quantity(first.key().quantity()));
        return group.size() == 1
                ? List.of(rows.single(first, usual))
                : rows.group(group, heading, usual, FindingTables::condition);
    }

    private static List<Page.Matrix> matrices(
            List<List<Finding>> plain, List<List<Finding>> crossed) {
        final List<Page.Matrix> matrices = new ArrayList<>();
        if (!plain.isEmpty()) {
            matrices.add(FindingMatrix.of(plain));
        }
        crossed.forEach(g -> matrices.add(CrossTable.of(g)));
        return List.copyOf(matrices);
    }

    private static String condition(Finding finding) {
        final String condition = Wording.condition(finding.key());
        return condition.isEmpty() ? "as a whole" : condition;
    }

    private static List<List<Finding>> groups(
            List<Finding> findings, Function<Finding, List<String>> of) {
        final Map<List<String>, List<Finding>> groups = new LinkedHashMap<>();
        findings.forEach(f -> groups.computeIfAbsent(of.apply(f), k -> new ArrayList<>()).add(f));
        return new ArrayList<>(groups.values());
    }

    private Table table(
            String compound,
            String title,
            String usual,
            List<Row> lines,
            List<Page.Matrix> matrices) {
        return new Table(
                compound,
                title,
                Wording.method(usual),
                Wording.percent(coverage),
                List.of(
                        Cells.width(lines.stream().map(Row::value).toList()),
                        Cells.width(lines.stream().map(Row::uncertainty).toList()),
                        Cells.width(lines.stream().map(Row::degreesOfFreedom).toList()),
                        Cells.width(lines.stream().map(Row::lower).toList()),
                        Cells.width(lines.stream().map(Row::upper).toList())),
                List.copyOf(lines),
                lines.stream().anyMatch(r -> !r.badge().code().equals("information")),
                matrices,
                "");
    }
}
