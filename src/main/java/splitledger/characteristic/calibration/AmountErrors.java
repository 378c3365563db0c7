package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.Numbers;
import splitledger.characteristic.Digits;
import splitledger.propagation.ActsOn;
import splitledger.propagation.CurveParts;
import splitledger.propagation.Effect;
import splitledger.propagation.LineParts;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LineFit;
import splitledger.statistics.ScatterFit;
import splitledger.study.Answers;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.StandardAmounts;
import splitledger.study.Standards;
import splitledger.study.Study;

/**
 * Errors of the amounts of one compound's calibrants: which of them move the line beside the
 * scatter of the preparations about it.
 *
 * <p>A cause that acts on <em>one</em> calibrant preparation alone moves its point off the line by
 * b dx, independently of all others. That is what the residuals are made of: the residual variance
 * already contains b^2 u^2 of it, and with it the variances of intercept and slope; to add it would
 * count it twice. This holds whether a level has one preparation or several.
 *
 * <p>A cause that <em>several</em> preparations share does not scatter: one that moves all amounts
 * in proportion (purity, weighing, the stock's flask, temperature) leaves the residuals as they are
 * and is added in full, exactly. One that moves only some (a pipette used for two levels, an early
 * step of a serial dilution, the flask or pipette of a level made several times) shows in the
 * residuals in part; as that part cannot be told from other scatter, it is added in full as well,
 * which errs on the side of too much, and never by more than what the residuals hold of it.
 *
 * <p>Where several preparations are of one level, each was filled by itself: the repeatability of
 * its own filling is a cause of one preparation. The pieces of glassware named for the level are
 * taken to be the same for all its preparations.
 */
public final class AmountErrors {
    private static final String COLUMN = "amount_u";
    private static final String BERKSON =
            "Berkson, J. Am. Stat. Assoc. 45 (1950) 164 (from memory)";

    private final Study study;
    private final Calibrants calibrants;
    private final boolean common;
    private final Optional<StandardAmounts> made;
    private final List<Uncertain> amounts = new ArrayList<>();
    private final SortedMap<Root, Integer> points = new TreeMap<>();
    private final Map<String, Rows> solutions = new LinkedHashMap<>();

    private AmountErrors(
            Study study, Calibrants calibrants, Optional<StandardAmounts> made, boolean common) {
        this.study = study;
        this.calibrants = calibrants;
        this.common = common;
        this.made = made;
        for (Calibrants.Preparation p : calibrants.preparations()) {
            final Uncertain amount = amount(p);
            amounts.add(amount);
            amount.roots().forEach(root -> points.merge(root, 1, Integer::sum));
        }
    }

    /** Amounts as they follow from how calibrants were made, if the protocol tells it. */
    public static Optional<StandardAmounts> made(Study study) {
        return study.standards()
                .map(s -> StandardAmounts.of(s, study.protocol().conventions().amountUnit()));
    }

    /**
     * The errors of one compound's calibrants.
     *
     * @param made amounts as they follow from how they were made, of all compounds
     * @param common whether the stated standard uncertainties of the amounts (amount_u) are one
     *     error that all levels share; else each level has its own
     */
    static AmountErrors of(
            Study study, Calibrants calibrants, Optional<StandardAmounts> made, boolean common) {
        return new AmountErrors(study, calibrants, made, common);
    }

    /** What the shared causes do to a line on the calibrants. */
    LineParts parts(LineFit line) {
        return LineParts.of(line, shared(), calibrants.means());
    }

    /**
     * What the shared causes do to a fit on the calibrants.
     *
     * @param shares variance of each preparation relative to the law of scatter
     */
    CurveParts parts(ScatterFit fit, double[] shares) {
        return CurveParts.of(fit, shares, shared(), calibrants.means());
    }

    private List<Uncertain> shared() {
        return amounts.stream().map(x -> x.only(this::isShared)).toList();
    }

    /** Each solution's amount, as it follows from how it was made. */
    List<Finding> findings() {
        final double coverage = study.protocol().conventions().coverage();
        final List<Finding> findings = new ArrayList<>();
        solutions.forEach(
                (solution, rows) ->
                        made.ifPresent(
                                tree ->
                                        tree.amount(solution, calibrants.compound())
                                                .ifPresent(
                                                        a ->
                                                                findings.add(
                                                                        finding(
                                                                                solution, rows, a,
                                                                                tree, coverage)))));
        return findings;
    }

    private Finding finding(
            String solution, Rows rows, Uncertain amount, StandardAmounts tree, double coverage) {
        final Key key =
                Key.of(
                                Calibration.ID,
                                calibrants.compound(),
                                "standard-amount",
                                "weighing and dilution")
                        .with("level", solution);
        return Finding.of(key, Answers.student(amount, coverage), rows, "")
                .with(tree.trail(solution, calibrants.compound()));
    }

    /** What is added and what is not, with the reason. */
    List<Choice> choices() {
        final List<Choice> choices = new ArrayList<>();
        if (points.values().stream().anyMatch(n -> n > 1)) {
            choices.add(
                    choice(
                            "Errors of the calibrants' amounts that several preparations share are"
                                    + " added to intercept and slope: "
                                    + sizes(),
                            "such an error moves the line and does not show as scatter about it; it"
                                    + " goes through to every amount read off the line"));
        }
        if (points.values().stream().anyMatch(n -> n == 1)) {
            choices.add(
                    choice(
                            "Errors of the amount of one calibrant preparation alone are not added",
                            "they are part of the scatter of the preparations about the line, whose"
                                    + " standard deviation holds them already; added, they would count"
                                    + " twice"));
        }
        if (study.standards().isPresent() && stated()) {
            choices.add(
                    choice(
                            "Of calibrants whose making the protocol tells, the column amount_u is"
                                    + " not used",
                            "their uncertainty follows from weighing, purity and glassware"));
        }
        return choices;
    }

    private boolean stated() {
        return calibrants.preparations().stream()
                .anyMatch(
                        p ->
                                study.table().number(COLUMN, p.rows().get(0)) > 0
                                        && solution(p).isPresent());
    }

    private Choice choice(String what, String why) {
        return new Choice(Calibration.ID, calibrants.compound(), what, why, BERKSON);
    }

    /** Relative standard uncertainties of the shared part, smallest and largest. */
    private String sizes() {
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        for (Uncertain x : amounts) {
            if (x.value() > 0) {
                final double u = 100 * x.only(this::isShared).standardUncertainty() / x.value();
                low = Math.min(low, u);
                high = Math.max(high, u);
            }
        }
        final String a = Digits.two(low);
        final String b = Digits.two(high);
        return (a.equals(b) ? a : a + " to " + b) + " % of the amount, one standard uncertainty";
    }

    private boolean isShared(Root root) {
        return points.getOrDefault(root, 0) > 1;
    }

    private Optional<String> solution(Calibrants.Preparation p) {
        return study.standards().flatMap(s -> solution(s, p));
    }

    private Optional<String> solution(Standards standards, Calibrants.Preparation p) {
        return standards
                .solution(study.table(), p.rows().get(0))
                .filter(s -> made.flatMap(m -> m.amount(s, calibrants.compound())).isPresent());
    }

    private Uncertain amount(Calibrants.Preparation p) {
        final Optional<String> solution = solution(p);
        if (solution.isPresent()) {
            final String name = solution.get();
            solutions.merge(name, Rows.of(rows(p)), (a, b) -> together(a, b));
            final Uncertain all =
                    made.flatMap(m -> m.amount(name, calibrants.compound()))
                            .orElseThrow(() -> new IllegalStateException("no amount of " + name));
            final boolean several =
                    calibrants.preparations().stream()
                                    .filter(o -> solution(o).equals(solution))
                                    .count()
                            > 1;
            final Uncertain own =
                    several ? all.only(r -> !StandardAmounts.isFillingOf(r, name)) : all;
            return own.at(p.amount());
        }
        final String unit = study.protocol().conventions().amountUnit();
        final double u = study.table().number(COLUMN, p.rows().get(0));
        return u > 0
                ? Uncertain.of(p.amount(), unit, stated(p), u)
                : Uncertain.exact(p.amount(), unit);
    }

    private Root stated(Calibrants.Preparation p) {
        final String level = p.level().isEmpty() ? Numbers.text(p.amount()) : p.level();
        final String id = COLUMN + "/" + calibrants.compound() + (common ? "" : "/level/" + level);
        final String words =
                common ? "stated uncertainty of the amounts" : "stated uncertainty of " + level;
        return Root.normal(
                id, Pool.known(id, words), Effect.STANDARD_AMOUNT, ActsOn.CALIBRANT, words);
    }

    private static int[] rows(Calibrants.Preparation p) {
        return p.rows().stream().mapToInt(Integer::intValue).toArray();
    }

    private static Rows together(Rows a, Rows b) {
        return Rows.of(
                java.util.stream.IntStream.concat(a.stream(), b.stream()).sorted().toArray());
    }
}
