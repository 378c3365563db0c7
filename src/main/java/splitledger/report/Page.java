package splitledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The page as plain data, ready to be set: texts are still to be escaped, numbers are rounded and
 * carry their units.
 *
 * @param title of the study
 * @param facts laboratory, instrument, purpose
 * @param conventions what numbers on this page mean, one sentence each
 * @param answers of every characteristic in short
 * @param results the reported results; empty if none were asked for
 * @param leading the three things that limit the results most
 * @param limits the largest contributions at the lowest and the highest result of each compound
 * @param contents links to the sections
 * @param sections one for every characteristic
 * @param budgetDecisions what holds for all budgets
 * @param budgets one for every compound
 * @param furtherBudgets the others
 * @param worked calculations worked by hand
 * @param elsewhere how many more are kept in the machine-readable record; empty if none
 * @param flags about the data
 * @param decisions about the data as a whole
 * @param evidence files, rows left out, events, program
 * @param signed who prepared and who reviewed it, as far as stated
 */
public record Page(
        String title,
        List<Fact> facts,
        List<String> conventions,
        List<Answered> answers,
        Optional<ResultTable> results,
        List<String> leading,
        List<Limit> limits,
        List<Link> contents,
        List<Section> sections,
        List<Decision> budgetDecisions,
        List<BudgetView> budgets,
        List<BudgetView> furtherBudgets,
        List<Worked> worked,
        String elsewhere,
        List<FlagView> flags,
        List<Decision> decisions,
        Evidence evidence,
        Signed signed) {

    /** What the competent person says of the method by hand. */
    public static final List<String> FITNESS =
            List.of(
                    "The method is fit for",
                    "within these limits of use",
                    "not fit for, or only with these conditions");

    private static final int SIDE_BY_SIDE = 3;

    /** Whether there are further numbers or budgets beside those of the sections. */
    public boolean hasFurther() {
        return !furtherBudgets.isEmpty()
                || sections.stream()
                        .flatMap(s -> s.parts().stream())
                        .anyMatch(p -> p.further().isPresent());
    }

    /** Names to stand beside signatures; empty where none is stated. */
    public record Signed(String laboratory, String prepared, String reviewed) {}

    /** A label with its text. */
    public record Fact(String label, String text) {}

    /** A link inside the page. */
    public record Link(String anchor, String text) {}

    /**
     * A verdict as symbol, colour and words.
     *
     * @param code name in files; chooses symbol and colour
     * @param words as printed
     */
    public record Badge(String code, String words) {}

    /** A characteristic in short: its question, the verdict and a sentence. */
    public record Answered(
            String anchor, String title, String question, Badge badge, List<String> sentences) {}

    /**
     * A number to stand in a column: what precedes the decimal point, and the point with the rest.
     */
    public record Cell(String head, String tail) {
        /** Nothing. */
        public static final Cell EMPTY = new Cell("", "");
    }

    /**
     * The reported results.
     *
     * @param across the same with compounds side by side; empty if that would save no room
     */
    public record ResultTable(
            List<Integer> widths,
            List<ResultGroup> groups,
            boolean judged,
            Optional<ResultsAcross> across) {}

    /** Results with compounds side by side. */
    public record ResultsAcross(List<ResultColumn> columns, List<ResultLine> lines) {}

    /**
     * The heading of one compound's results.
     *
     * @param factor coverage factor, or the range of them
     */
    public record ResultColumn(
            String compound, String unit, String factor, int valueWidth, int expandedWidth) {}

    /** One line of results; a compound that has none here has an empty place. */
    public record ResultLine(String which, List<Optional<ResultRow>> cells) {}

    /** The results of one compound. */
    public record ResultGroup(String compound, List<ResultRow> rows) {}

    /**
     * A reported result.
     *
     * @param instead words in place of numbers; empty if there are numbers
     */
    public record ResultRow(
            String which,
            Cell value,
            Cell expanded,
            String unit,
            String factor,
            Cell degreesOfFreedom,
            String instead,
            Badge badge) {}

    /** The largest shares of one compound's budgets. */
    public record Limit(String compound, String level, String relative, String sources) {}

    /**
     * A characteristic in full.
     *
     * @param howToRead finished markup
     * @param ideas pages of the handbook behind it, where the report holds them
     */
    public record Section(
            String anchor,
            String title,
            String question,
            String injected,
            Badge badge,
            List<Part> parts,
            List<Picture> pictures,
            String how,
            List<Decision> decisions,
            String howToRead,
            List<Link> ideas) {}

    /** A page of the handbook at the end of the report; {@code markup} is finished. */
    public record Idea(String anchor, String title, String markup) {}

    /**
     * Findings of one compound.
     *
     * @param table what a reader looks for first
     * @param further long lists and plain numbers without requirement
     */
    public record Part(Optional<Table> table, Optional<Table> further) {
        /** Name of the compound. */
        public String title() {
            return table.or(() -> further).map(Table::title).orElse("");
        }
    }

    /**
     * Findings of one compound.
     *
     * @param compound its name as files have it; empty for all or several
     * @param method how, unless a row says otherwise; empty if every row says it
     * @param widths width of what follows the decimal point: value, uncertainty, degrees of
     *     freedom, lower, upper
     * @param judged whether any row has a criterion
     * @param matrices numbers without uncertainty of their own under many conditions
     * @param remark what is to be known of the whole table; empty for nothing
     */
    public record Table(
            String compound,
            String title,
            String method,
            String interval,
            List<Integer> widths,
            List<Row> rows,
            boolean judged,
            List<Matrix> matrices,
            String remark) {

        /**
         * The rows as they stand where room is short: several of a list side by side.
         *
         * @return lines, each of one row that stands alone or of up to three from a list
         */
        public List<List<Row>> packed() {
            final List<List<Row>> lines = new ArrayList<>();
            List<Row> open = new ArrayList<>();
            for (Row row : rows) {
                final boolean alone = !row.indented() || !row.instead().isEmpty();
                if (!open.isEmpty() && (alone || open.size() == SIDE_BY_SIDE)) {
                    lines.add(List.copyOf(open));
                    open = new ArrayList<>();
                }
                if (alone) {
                    lines.add(List.of(row));
                } else {
                    open.add(row);
                }
            }
            if (!open.isEmpty()) {
                lines.add(List.copyOf(open));
            }
            return List.copyOf(lines);
        }
    }

    /**
     * Conditions down, quantities or other conditions across.
     *
     * @param title what all of it is; empty if the columns say it
     * @param corner what stands down the side
     */
    public record Matrix(String title, String corner, List<Column> columns, List<Line> lines) {}

    /** A quantity of a matrix. */
    public record Column(String what, String unit, int width) {}

    /** A condition of a matrix with one number for each column, empty where there is none. */
    public record Line(String which, List<Cell> cells) {}

    /**
     * A line of a table of findings.
     *
     * @param heading whether it only heads the lines below it
     * @param indented whether it stands below such a heading
     * @param instead words in place of numbers; empty if there are numbers
     * @param remarks in small print below
     */
    public record Row(
            boolean heading,
            boolean indented,
            String what,
            List<String> remarks,
            Cell value,
            Cell uncertainty,
            Cell degreesOfFreedom,
            Cell lower,
            Cell upper,
            String unit,
            String instead,
            Badge badge) {

        /** The row with other remarks. */
        public Row withRemarks(List<String> others) {
            return new Row(
                    heading,
                    indented,
                    what,
                    List.copyOf(others),
                    value,
                    uncertainty,
                    degreesOfFreedom,
                    lower,
                    upper,
                    unit,
                    instead,
                    badge);
        }
    }

    /**
     * A figure.
     *
     * @param index place among the evaluation's figures
     * @param svg finished markup
     * @param alternative what it shows, in words
     */
    public record Picture(String caption, int index, String svg, String alternative) {}

    /** A choice with its reason and source. */
    public record Decision(String about, String what, String why, String source) {}

    /** A budget in full. */
    public record BudgetView(
            String anchor,
            String title,
            String result,
            String equation,
            String unit,
            List<Integer> widths,
            List<Contribution> contributions,
            boolean negative,
            List<String> correlations,
            List<Interval> intervals,
            String comparison,
            List<Decision> decisions) {}

    /** One contribution; {@code share} in percent, {@code bar} its length between 0 and 100. */
    public record Contribution(
            String words,
            String symbol,
            String origin,
            Cell value,
            Cell uncertainty,
            String unit,
            Cell degreesOfFreedom,
            Cell sensitivity,
            Cell contribution,
            Cell share,
            String bar) {}

    /** An interval and how it was found. */
    public record Interval(String how, String lower, String upper, String uncertainty) {}

    /** A calculation worked by hand. */
    public record Worked(String title, List<Step> steps) {}

    /** One step of it. */
    public record Step(String words, String formula, String numbers, String result) {}

    /** Something a reader must see about the data. */
    public record FlagView(String where, String subject, String what) {}

    /** What the evaluation rests on. */
    public record Evidence(
            List<InputView> inputs,
            List<Left> exclusions,
            List<Material> materials,
            List<Fact> events,
            String rows,
            String program) {}

    /** A file that was read. */
    public record InputView(String role, String name, String digest) {}

    /** A substance or a piece of glassware with its certificate, lot or other source as stated. */
    public record Material(String what, String stated, String source) {}

    /** A row left out on purpose. */
    public record Left(String injection, String compound, String reason, String who) {}
}
