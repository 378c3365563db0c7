package splitledger.report;

import java.util.List;
import java.util.Optional;

/**
 * The page as plain data, ready to be set: texts are still to be escaped, numbers are rounded and
 * carry their units.
 *
 * @param style the style sheet
 * @param title of the study
 * @param facts laboratory, instrument, purpose
 * @param conventions what numbers on this page mean, one sentence each
 * @param answers of every characteristic in short
 * @param results the reported results; empty if none were asked for
 * @param limits what limits the results most
 * @param contents links to the sections
 * @param sections one for every characteristic
 * @param budgetDecisions what holds for all budgets
 * @param budgets one for every budget
 * @param worked calculations worked by hand
 * @param elsewhere how many more are kept in the machine-readable record; empty if none
 * @param flags about the data
 * @param decisions about the data as a whole
 * @param evidence files, rows left out, events, program
 */
public record Page(
        String style,
        String title,
        List<Fact> facts,
        List<String> conventions,
        List<Answered> answers,
        Optional<ResultTable> results,
        List<Limit> limits,
        List<Link> contents,
        List<Section> sections,
        List<Decision> budgetDecisions,
        List<BudgetView> budgets,
        List<Worked> worked,
        String elsewhere,
        List<FlagView> flags,
        List<Decision> decisions,
        Evidence evidence) {

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

    /** The reported results. */
    public record ResultTable(List<Integer> widths, List<ResultGroup> groups, boolean judged) {}

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

    /** A characteristic in full; {@code howToRead} is finished markup. */
    public record Section(
            String anchor,
            String title,
            String question,
            String injected,
            Badge badge,
            List<Part> parts,
            String how,
            List<Decision> decisions,
            String howToRead) {}

    /** Findings and figures of one compound, or what is left for no single one. */
    public record Part(Optional<Table> table, List<Picture> pictures) {}

    /**
     * Findings of one compound.
     *
     * @param compound its name as files have it; empty for all or several
     * @param method how, unless a row says otherwise; empty if every row says it
     * @param widths width of what follows the decimal point: value, uncertainty, degrees of
     *     freedom, lower, upper
     * @param judged whether any row has a criterion
     * @param matrices numbers without uncertainty of their own under many conditions
     */
    public record Table(
            String compound,
            String title,
            String method,
            String interval,
            List<Integer> widths,
            List<Row> rows,
            boolean judged,
            List<Matrix> matrices) {}

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
            Badge badge) {}

    /** A figure; {@code svg} is finished markup. */
    public record Picture(String caption, String svg) {}

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
            List<Fact> events,
            String rows,
            String program) {}

    /** A file that was read. */
    public record InputView(String role, String name, String digest) {}

    /** A row left out on purpose. */
    public record Left(String injection, String compound, String reason, String who) {}
}
