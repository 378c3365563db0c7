package splitledger.history;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.report.HousePage;
import splitledger.study.Figure;

/** The page of a trend. */
final class TrendPage {
    private static final Map<Standing, String> MARKS =
            Map.of(
                    Standing.ACT, "fails",
                    Standing.WATCH, "undecided",
                    Standing.EARLIER, "information",
                    Standing.QUIET, "meets",
                    Standing.TOO_FEW, "not-shown");

    private final History history;
    private final Charts.Made made;
    private final TrendOptions options;
    private final Map<Chart, List<Drawn>> figures;

    TrendPage(
            History history,
            Charts.Made made,
            TrendOptions options,
            Map<Chart, List<Drawn>> figures) {
        this.history = history;
        this.made = made;
        this.options = options;
        this.figures = new LinkedHashMap<>(figures);
    }

    /** A figure with its picture. */
    record Drawn(Figure figure, byte[] svg) {
        @Override
        public boolean equals(Object other) {
            return other instanceof Drawn drawn && figure.equals(drawn.figure);
        }

        @Override
        public int hashCode() {
            return figure.hashCode();
        }

        @Override
        public String toString() {
            return figure.id();
        }
    }

    byte[] bytes() {
        final HousePage page = new HousePage("Instruments over time");
        page.paragraph(TrendSummary.studies(history));
        inShort(page);
        charts(page);
        dossiers(page);
        method(page);
        page.cautions();
        return page.bytes();
    }

    private void inShort(HousePage page) {
        page.heading("What needs action");
        final List<Chart> act = standing(Standing.ACT);
        final Map<String, String> advised = new LinkedHashMap<>();
        act.forEach(c -> statement(page, c, advised));
        history.leftOut().stream()
                .filter(History.LeftOut::damaged)
                .forEach(
                        l ->
                                page.statement(
                                        l.what(),
                                        "fails",
                                        Standing.ACT.words(),
                                        List.of(
                                                "Left out: " + l.why() + ".",
                                                "How to look further: 'splitledger recheck' names"
                                                        + " every file that is not as it was; bring the"
                                                        + " dossier back from a copy.")));
        if (!TrendSummary.needsAction(history, made)) {
            page.statement(
                    "Nothing needs action",
                    "meets",
                    Standing.QUIET.words(),
                    List.of(
                            "No chart shows, at its newest dossier, a change for the worse that chance"
                                    + " would seldom bring."));
        }
        page.paragraph(TrendSummary.chance(made));
        final List<Chart> watch = standing(Standing.WATCH);
        if (!watch.isEmpty()) {
            page.heading("What to keep an eye on");
            watch.forEach(c -> statement(page, c, Map.of()));
        }
    }

    private List<Chart> standing(Standing standing) {
        return made.charts().stream().filter(c -> c.standing() == standing).toList();
    }

    /** What a chart says; advice that stands on the page already is referred to. */
    private static void statement(HousePage page, Chart chart, Map<String, String> advised) {
        final TrendWords words = new TrendWords(chart);
        final List<String> sentences = new ArrayList<>(words.sentences());
        if (chart.standing() == Standing.ACT) {
            final String advice = chart.key().watched().advice();
            final String where = advised.getOrDefault(advice, "");
            sentences.add(
                    where.isEmpty()
                            ? "How to look further: " + advice
                            : "How to look further: as for " + where + ".");
            advised.putIfAbsent(advice, words.title());
        }
        page.statement(words.title(), mark(chart), chart.standing().words(), sentences);
    }

    private static String mark(Chart chart) {
        return MARKS.getOrDefault(chart.standing(), "information");
    }

    private void charts(HousePage page) {
        page.heading("All charts");
        page.table(
                "All charts",
                List.of("What", "Newest", "Usual", "Limits", "Dossiers", "Standing"),
                made.charts().stream().map(TrendPage::row).toList());
        if (!made.without().isEmpty()) {
            page.fold("Without a chart: " + made.without().size(), false);
            page.list(made.without());
            page.unfold();
        }
        for (Chart chart : made.charts()) {
            chart(page, chart);
        }
    }

    private static List<String> row(Chart chart) {
        final ChartPoint last = chart.last();
        final String unit = chart.key().unit();
        return List.of(
                new TrendWords(chart).title(),
                Shortly.number(last.value().value(), unit),
                Shortly.number(last.centre()),
                last.hasLimits()
                        ? Shortly.number(last.lower())
                                + " to "
                                + Shortly.number(last.upper())
                                + (chart.isProvisional() ? " (provisional)" : "")
                        : "–",
                Integer.toString(chart.points().size()),
                chart.standing().words());
    }

    private void chart(HousePage page, Chart chart) {
        final TrendWords words = new TrendWords(chart);
        final List<Drawn> drawn = figures.getOrDefault(chart, List.of());
        final List<String> earlier = words.earlier();
        final List<String> said = new ArrayList<>(chart.remarks());
        words.missing().ifPresent(said::add);
        if (drawn.isEmpty() && earlier.isEmpty() && said.isEmpty()) {
            return;
        }
        page.fold(
                words.title() + ": " + chart.standing().words(),
                chart.standing() == Standing.ACT || chart.standing() == Standing.WATCH);
        if (!drawn.isEmpty()) {
            page.figures(
                    drawn.stream().map(Drawn::svg).toList(),
                    drawn.stream().map(d -> d.figure().caption()).toList());
        }
        said.forEach(page::paragraph);
        if (!earlier.isEmpty()) {
            page.paragraph("Seen at earlier dossiers:");
            page.list(earlier);
        }
        page.unfold();
    }

    private void dossiers(HousePage page) {
        page.heading("What was read");
        page.fold("Dossiers: " + history.studies().size(), false);
        page.table(
                "Dossiers",
                List.of("Dossier", "Instrument", "Time", "Told by"),
                TrendSummary.inOrder(history.studies()).stream()
                        .map(d -> List.of(d.dossier(), d.instrument(), d.time(), d.from()))
                        .toList());
        page.unfold();
        page.part("Left out");
        if (history.leftOut().isEmpty()) {
            page.paragraph("Nothing was left out.");
        } else {
            page.list(history.leftOut().stream().map(l -> l.what() + ": " + l.why()).toList());
        }
    }

    private void method(HousePage page) {
        page.heading("How it was done");
        page.list(
                List.of(
                        "Limits of single values: mean of the first "
                                + options.base()
                                + " values (or of all, if there are fewer) plus and minus 2.66 times the mean"
                                + " moving range, on the scale on which the quantity scatters evenly: ratios,"
                                + " areas and detection limits as logarithms, breakdown as the logarithm of"
                                + " share to rest. (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2,"
                                + " from memory; the scales: own reasoning.)",
                        "A value's own uncertainty is drawn and does not move the limits: much of it is"
                                + " the same in all dossiers and cancels over time. Where it is more than"
                                + " twice the usual, the words say so (own reasoning, no source).",
                        "Standard deviations are held against the pooled standard deviation of the"
                                + " others by F with their degrees of freedom, at the tail of three standard"
                                + " deviations; with many others that is the chi-square limit.",
                        "Moving average: weight "
                                + splitledger.statistics.MovingAverage.WEIGHT
                                + " for the newest value, limits "
                                + splitledger.statistics.MovingAverage.WIDTH
                                + " of its standard deviations at each time (e-Handbook, 6.3.2.4; Lucas and"
                                + " Saccucci, Technometrics 32 (1990) 1; from memory).",
                        "Rules that ask for action: one value beyond three standard deviations, eight in a"
                                + " row on one side, the moving average beyond its limits, if it is a change"
                                + " for the worse. To keep an eye on: two of three beyond two, four of five"
                                + " beyond one, a jump between neighbours, any change for the better.",
                        options.anewAfter().isEmpty()
                                ? "Limits run through all work on the instrument. Whether work changes what"
                                        + " is usual is the laboratory's decision: --anew-after column sets"
                                        + " limits anew after work on the column."
                                : "Limits were set anew after work on: "
                                        + String.join(", ", options.anewAfter())
                                        + ".",
                        "Limits say what is usual for this instrument, not what is good enough:"
                                + " requirements stand in the protocols."));
    }
}
