package splitledger.chart;

import java.util.ArrayList;
import java.util.List;
import splitledger.base.Numbers;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Role;

/** Invented figures of every kind of layer, with hostile and awkward texts among them. */
public final class SampleFigures {
    /** A text that would run as a script if it were not escaped. */
    public static final String HOSTILE = "<script>alert('x')</script> & \"quoted\"";

    private static final double[] LEVELS = {2, 5, 10, 20, 35, 50};
    private static final double[] OFF = {0.6, -0.9, 0.4, -0.3, 1.1, -0.8, 0.2, -0.5, 0.9, -0.2};

    private SampleFigures() {}

    /** Figures of one compound. */
    public static List<Figure> of(String compound) {
        final String id = compound.replaceAll("[^A-Za-z0-9]", "-");
        return List.of(
                calibration("calibration-" + id, compound),
                residuals("residuals-" + id, compound),
                runOrder("run-order-" + id, compound),
                budget("budget-" + id, compound),
                split("split-" + id, compound),
                curve("discrimination-" + id, compound),
                tree("structure-" + id, compound));
    }

    /** Boxes joined by lines, without scales. */
    public static Figure tree(String id, String compound) {
        return new Figure(
                id,
                "repeatability",
                compound,
                "How the rows hang together",
                "Each box lies below what it is within.",
                "Days (6) and analysts (2) are crossed.",
                Figure.Axis.bare(0, 1),
                Figure.Axis.bare(-2.5, 0.5),
                List.of(
                        new Figure.Line(
                                "lies within",
                                Role.FIT,
                                Doubles.of(0.5, 0.25, Double.NaN, 0.5, 0.75),
                                Doubles.of(0, -1, Double.NaN, 0, -1)),
                        new Figure.Line(
                                "crossed",
                                Role.REFERENCE,
                                Doubles.of(0.25, 0.75),
                                Doubles.of(-1, -1)),
                        new Figure.Boxes(
                                "labels",
                                Role.DATA,
                                Doubles.of(0.5, 0.25, 0.75),
                                Doubles.of(0, -1, -1),
                                List.of("all rows\n24", "day\n6 labels", HOSTILE))));
    }

    /** Points, fit and two bands. */
    public static Figure calibration(String id, String compound) {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        final List<String> labels = new ArrayList<>();
        for (int level = 0; level < LEVELS.length; level++) {
            for (int k = 0; k < 3; k++) {
                x.add(LEVELS[level]);
                y.add(0.021 + 0.0512 * LEVELS[level] + 0.035 * OFF[(3 * level + k) % 10]);
                labels.add("");
            }
        }
        final double[] at = steps(0, 55, 56);
        final double[] fit = new double[at.length];
        final double[][] band = new double[4][at.length];
        for (int i = 0; i < at.length; i++) {
            fit[i] = 0.021 + 0.0512 * at[i];
            final double d = (at[i] - 20) * (at[i] - 20);
            final double narrow = 0.03 * Math.sqrt(1 + d / 300);
            final double wide = 0.03 * Math.sqrt(9 + d / 300);
            band[0][i] = fit[i] - narrow;
            band[1][i] = fit[i] + narrow;
            band[2][i] = fit[i] - wide;
            band[3][i] = fit[i] + wide;
        }
        return new Figure(
                id,
                "calibration",
                compound,
                "Calibration of " + compound,
                "Each point is one preparation. The inner band holds the line, the outer a new"
                        + " preparation, each with 95 % probability.",
                "Area ratio against amount of "
                        + compound
                        + ", 2 mg/L to 50 mg/L: a straight line"
                        + " of slope 0.0512 per mg/L through 18 points.",
                axis("amount", "mg/L", 0, 55, 10),
                axis("area ratio", "1", -0.2, 3.2, 0.5),
                List.of(
                        new Figure.Band(
                                "new preparation, 95 %",
                                Role.PREDICTION,
                                Doubles.of(at),
                                Doubles.of(band[2]),
                                Doubles.of(band[3])),
                        new Figure.Band(
                                "line, 95 %",
                                Role.CONFIDENCE,
                                Doubles.of(at),
                                Doubles.of(band[0]),
                                Doubles.of(band[1])),
                        new Figure.Line("fitted line", Role.FIT, Doubles.of(at), Doubles.of(fit)),
                        new Figure.Points(
                                "preparations", Role.DATA, Doubles.of(x), Doubles.of(y), labels)));
    }

    /** Two groups of points about zero, some with names. */
    public static Figure residuals(String id, String compound) {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        final List<String> labels = new ArrayList<>();
        for (int i = 0; i < 18; i++) {
            x.add(LEVELS[i / 3]);
            y.add(2 * OFF[(7 * i) % 10]);
            labels.add(i == 4 ? HOSTILE : i % 5 == 0 ? "P" + (i + 1) : "");
        }
        return new Figure(
                id,
                "calibration",
                compound,
                "Deviation from the line, " + compound,
                "Deviation of each preparation from the fitted line, in percent of its amount.",
                "Deviations between -1.8 % and 2.2 % without a trend; P7 is flagged.",
                axis("amount", "mg/L", 0, 55, 10),
                axis("deviation", "%", -4, 4, 1),
                List.of(
                        level("no deviation", 0, 0, 55),
                        new Figure.Points(
                                "preparations", Role.DATA, Doubles.of(x), Doubles.of(y), labels),
                        new Figure.Points(
                                "flagged",
                                Role.OTHER_DATA,
                                Doubles.of(10, 35),
                                Doubles.of(3.1, -2.9),
                                List.of("P7", "P14"))));
    }

    /** Two days of replicates in run order, with limits and a broken line. */
    public static Figure runOrder(String id, String compound) {
        final double[] x = steps(1, 40, 40);
        final double[] first = new double[40];
        final double[] second = new double[40];
        final double[] mean = new double[40];
        for (int i = 0; i < 40; i++) {
            final double v = 100 + 0.9 * OFF[(3 * i + i / 7) % 10] + 0.02 * i;
            first[i] = i < 20 ? v : Double.NaN;
            second[i] = i < 20 ? Double.NaN : v + 0.8;
            mean[i] = i == 20 ? Double.NaN : i < 20 ? 100.2 : 101.4;
        }
        final List<String> none = java.util.Collections.nCopies(40, "");
        return new Figure(
                id,
                "repeatability",
                compound,
                "Areas in the order of injection, " + compound,
                "Areas relative to the mean of the first day.",
                "Forty injections of two days between 99 % and 103 %; the second day lies 1.2 %"
                        + " higher.",
                axis("injection number", "1", 0, 41, 5),
                axis("relative area", "%", 97, 105, 1),
                List.of(
                        level("mean of the first day", 100, 0, 41),
                        level("warning", 103, 0, 41),
                        new Figure.Line(
                                "mean of each day", Role.FIT, Doubles.of(x), Doubles.of(mean)),
                        new Figure.Points(
                                "2 March", Role.DATA, Doubles.of(x), Doubles.of(first), none),
                        new Figure.Points(
                                "3 March", Role.DATA, Doubles.of(x), Doubles.of(second), none)));
    }

    /** Bars with long words, a small one, a negative one. */
    public static Figure budget(String id, String compound) {
        return new Figure(
                id,
                "budget",
                compound,
                "What the uncertainty of " + compound + " comes from, level L3",
                "Share of the combined variance; a negative share is a correlation that helps.",
                "Precision between days 61 %, recovery 24 %, stock solution 13 %, slope 6 %,"
                        + " flask 0.2 %, intercept with slope -4.2 %.",
                axis("share of the variance", "%", -10, 70, 10),
                new Figure.Axis("", "", 0.5, 6.5, List.of()),
                List.of(
                        new Figure.Bars(
                                "share",
                                Role.SHARE,
                                Doubles.of(61, 24, 13, 6, 0.2, -4.2),
                                List.of(
                                        "precision between days, analysts and instruments, mean of"
                                                + " two independent results",
                                        "recovery of the whole procedure",
                                        "stock solution of the calibrant, shared by all levels",
                                        "slope of the calibration line",
                                        HOSTILE,
                                        "intercept"),
                                List.of("61 %", "24 %", "13 %", "6.0 %", "0.2 %", "−4.2 %"))));
    }

    /** Intervals against a margin on an axis of unequal ticks. */
    public static Figure split(String id, String compound) {
        return new Figure(
                id,
                "split-linearity",
                compound,
                "Response kept at each split ratio, " + compound,
                "Response times split ratio, relative to split ratio 50, with 95 % intervals.",
                "Between 97 % at a split ratio of 10 and 101 % at 200; all within the margin of"
                        + " 5 %.",
                new Figure.Axis(
                        "split ratio (total to column)",
                        "1",
                        0.8,
                        2.5,
                        List.of(
                                new Figure.Tick(1, "10"),
                                new Figure.Tick(1.30103, "20"),
                                new Figure.Tick(1.69897, "50"),
                                new Figure.Tick(2, "100"),
                                new Figure.Tick(2.30103, "200"))),
                axis("response kept", "%", 92, 108, 2),
                List.of(
                        level("margin", 95, 0.8, 2.5),
                        level("margin", 105, 0.8, 2.5),
                        new Figure.Intervals(
                                "response kept",
                                Role.DATA,
                                Doubles.of(1, 1.30103, 1.69897, 2, 2.30103),
                                Doubles.of(97, 99.1, 100, 100.8, 101.2),
                                Doubles.of(95.8, 98.2, 99.4, 99.9, 99.8),
                                Doubles.of(98.2, 100, 100.6, 101.7, 102.6))));
    }

    /** Named points along a curve. */
    public static Figure curve(String id, String compound) {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        final List<String> names = new ArrayList<>();
        for (int carbon = 8; carbon <= 40; carbon += 2) {
            x.add(-20 + 14.2 * carbon - 0.07 * carbon * carbon);
            y.add(carbon < 24 ? 1 + 0.008 * OFF[carbon % 10] : 1 - 0.012 * (carbon - 24));
            names.add("n-C" + carbon);
        }
        return new Figure(
                id,
                "discrimination",
                "",
                "Response against boiling point of the ladder with a title that is so long that it"
                        + " has to be broken into two lines to be read",
                "Response per mass relative to n-C20.",
                "Flat up to about 300 degC, then falling to 0.81 at n-C40.",
                axis("boiling point", "°C", 80, 460, 50),
                axis("relative response", "1", 0.7, 1.1, 0.1),
                List.of(
                        level("ideal", 1, 80, 460),
                        level("limit", 0.8, 80, 460),
                        new Figure.Points(
                                "members", Role.DATA, Doubles.of(x), Doubles.of(y), names)));
    }

    private static Figure.Line level(String name, double at, double from, double to) {
        return new Figure.Line(name, Role.REFERENCE, Doubles.of(from, to), Doubles.of(at, at));
    }

    private static Figure.Axis axis(
            String label, String unit, double from, double to, double step) {
        final List<Figure.Tick> ticks = new ArrayList<>();
        final long first = (long) Math.ceil(from / step - 1e-9);
        for (long k = first; k * step <= to + 1e-9; k++) {
            final double at = Math.rint(k * step * 1e6) / 1e6;
            ticks.add(new Figure.Tick(at, Numbers.text(at)));
        }
        return new Figure.Axis(label, unit, from, to, ticks);
    }

    private static double[] steps(double from, double to, int n) {
        final double[] at = new double[n];
        for (int i = 0; i < n; i++) {
            at[i] = from + (to - from) * i / (n - 1);
        }
        return at;
    }
}
