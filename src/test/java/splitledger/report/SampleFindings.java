package splitledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import splitledger.study.Answer;
import splitledger.study.Criterion;
import splitledger.study.Finding;
import splitledger.study.Judgement;
import splitledger.study.Key;
import splitledger.study.Place;
import splitledger.study.Rows;
import splitledger.study.Trail;
import splitledger.study.Verdict;

/** Invented findings of every kind. */
final class SampleFindings {
    private static final double[] OFF = {0.6, -0.9, 0.4, -0.3, 1.1, -0.8, 0.2, -0.5, 0.9, -0.2};

    private SampleFindings() {}

    static List<Finding> all(List<String> targets) {
        final List<Finding> all = new ArrayList<>();
        for (String target : targets) {
            final double scale = target.equals("limonene") ? 1 : 0.73;
            calibration(all, target, scale);
            detection(all, target, scale);
            repeatability(all, target, scale);
            split(all, target, scale);
            results(all, target, scale);
        }
        common(all);
        return all;
    }

    private static void calibration(List<Finding> all, String target, double scale) {
        final Key key = Key.of("calibration", target, "slope", "unweighted-line");
        all.add(
                Finding.of(
                                key,
                                estimate(0.051234 * scale, "L/mg", 0.000212, 16),
                                Rows.of(0, 2),
                                "")
                        .with(slopeTrail()));
        all.add(
                Finding.of(
                        Key.of("calibration", target, "intercept", "unweighted-line"),
                        estimate(0.0213 * scale, "1", 0.0061, 16),
                        Rows.of(0, 2),
                        ""));
        all.add(statistic("calibration", target, "r-squared", 0.999412));
        all.add(statistic("calibration", target, "lack-of-fit-F", 2.667));
        all.add(statistic("calibration", target, "lack-of-fit-p", 0.0000213));
        all.add(
                Finding.of(
                        Key.of("calibration", target, "curvature-p", "f-test"),
                        new Answer.NotEstimable(
                                "1",
                                "too-few-levels",
                                "needs at least 3 levels with 2 preparations each, found 2"),
                        Rows.NONE,
                        ""));
        for (String level : List.of("L1", "L2", "L3", "L4", "L5", "L10")) {
            final int n = level.charAt(1) - '0' + level.length();
            all.add(
                    Finding.of(
                                    Key.of(
                                                    "calibration",
                                                    target,
                                                    "back-calculated-deviation",
                                                    "unweighted-line")
                                            .with("level", level),
                                    estimate(2.4 * OFF[n], "%", level.equals("L1") ? 3.1 : 0.42, 16),
                                    Rows.NONE,
                                    "deviation of the mean of the preparations")
                            .judged(
                                    List.of(
                                            judgement(
                                                    within("back-calculated-deviation", 0, 5, "%"),
                                                    level.equals("L1")
                                                            ? Verdict.UNDECIDED
                                                            : Verdict.MEETS,
                                                    ""))));
        }
    }

    private static void detection(List<Finding> all, String target, double scale) {
        all.add(
                Finding.of(
                        Key.of("detection", target, "detection-limit", "iso-11843-2"),
                        estimate(0.412 * scale, "mg/L", 0.071, 9),
                        Rows.NONE,
                        ""));
        all.add(
                Finding.of(
                        Key.of("detection", target, "quantification-limit", "iso-11843-2"),
                        new Answer.NotEstimable(
                                "mg/L",
                                "not-defined-by-this-document",
                                "this document does not define such a limit"),
                        Rows.NONE,
                        ""));
        all.add(
                of(
                                Key.of("detection", target, "method-detection-limit", "40-cfr-136-b"),
                                new Answer.Bound(OptionalDouble.of(0.4057 * scale), "mg/L",
                                        OptionalDouble.empty(),
                                        OptionalDouble.of(0.8123 * scale),
                                        0.95,
                                        "too-few-blanks",
                                        "needs at least 7 blanks, found 4"))
                        .judged(
                                List.of(
                                        judgement(
                                                atMost("method-detection-limit", 0.5, "mg/L"),
                                                Verdict.UNDECIDED,
                                                "the upper bound lies above the limit"))));
        all.add(
                of(
                                Key.of("detection", target, "limit-verified", "six-preparations"),
                                new Answer.NotEstimable(
                                        "1",
                                        "too-few-preparations",
                                        "needs at least 6 independent preparations at the limit,"
                                                + " found 2"))
                        .judged(
                                List.of(
                                        judgement(
                                                SampleEvaluation.criterion(
                                                        "limit-verified",
                                                        new Criterion.Limit.AtLeast(1),
                                                        "1"),
                                                Verdict.NOT_SHOWN,
                                                ""))));
    }

    private static void repeatability(List<Finding> all, String target, double scale) {
        final boolean good = scale == 1;
        all.add(
                Finding.of(
                                Key.of("repeatability", target, "rsd-repeatability", "moments"),
                                new Answer.Estimate(
                                        good ? 0.8432 : 2.4117,
                                        "%",
                                        good ? 0.19 : 0.54,
                                        10,
                                        good ? 0.589 : 1.685,
                                        good ? 1.48 : 4.233,
                                        0.95,
                                        Answer.Law.CHI_SQUARE,
                                        Optional.empty()),
                                Rows.NONE,
                                "")
                        .judged(
                                List.of(
                                        judgement(
                                                atMost("rsd-repeatability", 2, "%"),
                                                good ? Verdict.MEETS : Verdict.FAILS,
                                                "observed value against the limit; the upper"
                                                        + " one-sided 95 % bound is "
                                                        + (good ? "1.34 %" : "3.84 %")),
                                        judgement(
                                                atMost("rsd-repeatability", 5, "%"),
                                                Verdict.MEETS,
                                                ""))));
        all.add(
                Finding.of(
                        Key.of("repeatability", target, "sd-between", "moments")
                                .with("factor", "analyst"),
                        new Answer.Bound(OptionalDouble.empty(), "pA s",
                                OptionalDouble.empty(),
                                OptionalDouble.of(12.4),
                                0.95,
                                "too-few-labels",
                                "needs at least 5 analysts, found 2"),
                        Rows.NONE,
                        ""));
        all.add(
                Finding.of(
                        Key.of("repeatability", target, "sd-between", "moments")
                                .with("factor", "day"),
                        estimate(4.31, "pA s", 1.9, 4),
                        Rows.NONE,
                        ""));
        all.add(
                Finding.of(
                        Key.of("repeatability", target, "mean", "all-results"),
                        estimate(2345678, "pA s", 1234, 19),
                        Rows.NONE,
                        ""));
    }

    private static void split(List<Finding> all, String target, double scale) {
        all.add(
                of(
                                Key.of("split-linearity", target, "split-exponent", "log-log"),
                                estimate(0.9887 + (1 - scale) / 100, "1", 0.0084, 6))
                        .judged(
                                List.of(
                                        judgement(
                                                within("split-exponent", 1, 0.03, "1"),
                                                Verdict.MEETS,
                                                ""))));
        for (String ratio : List.of("10", "20", "50", "100", "200")) {
            all.add(
                    of(
                            Key.of("split-linearity", target, "response-kept", "log-log")
                                    .with("ratio", ratio),
                            estimate(97 + 4.2 * Double.parseDouble(ratio) / 200, "%", 0.61, 6)));
        }
    }

    private static void results(List<Finding> all, String target, double scale) {
        for (int i = 1; i <= 10; i++) {
            final String label = "P" + i;
            final double value = (i == 10 ? 123.4 : 6.1 + 3.37 * i) * scale;
            if (i == 7) {
                all.add(
                        Finding.of(
                                Key.of("budget", target, "result", "law-of-propagation")
                                        .with("preparation", label),
                                new Answer.NotEstimable(
                                        "mg/g",
                                        "not-detected",
                                        "the peak was not detected in 2 of 2 injections"),
                                Rows.NONE,
                                ""));
                continue;
            }
            final double u = 0.021 * value;
            final Key key = Key.of("budget", target, "result", "law-of-propagation");
            all.add(
                    of(
                            key.with("preparation", label), estimate(value, "mg/g", u, 23.4)));
            all.add(
                    Finding.of(
                            Key.of("budget", target, "expanded-uncertainty", "law-of-propagation")
                                    .with("preparation", label),
                            new Answer.Statistic(2.07 * u, "mg/g"),
                            Rows.NONE,
                            ""));
            all.add(
                    Finding.of(
                            Key.of("budget", target, "coverage-factor", "law-of-propagation")
                                    .with("preparation", label),
                            new Answer.Statistic(2.07, "1"),
                            Rows.NONE,
                            ""));
        }
    }

    private static void common(List<Finding> all) {
        all.add(
                Finding.of(
                        Key.of("repeatability", "", "share-common-mode", "detrended-log-areas"),
                        estimate(0.62, "1", 0.09, 27),
                        Rows.NONE,
                        "shared by all peaks: volume, split or detector gain"));
        for (int carbon = 8; carbon <= 40; carbon += 4) {
            all.add(
                    Finding.of(
                            Key.of("discrimination", "n-C" + carbon, "relative-response", "areas")
                                    .with("reference", "n-C20"),
                            estimate(carbon < 24 ? 1.002 : 1 - 0.012 * (carbon - 24), "1", 0.011, 5),
                            Rows.NONE,
                            ""));
        }
        all.add(
                Finding.of(
                        Key.of("discrimination", SampleEvaluation.FORMULA, "breakdown", "+raw")
                                .with("a;b", "c=d%"),
                        estimate(1.5e-9, "1", 2.5e-10, Double.POSITIVE_INFINITY),
                        Rows.NONE,
                        SampleEvaluation.HOSTILE));
        for (String hard : List.of("\uFB00-compound", "\uD83D\uDE00-compound")) {
            all.add(statistic("discrimination", hard, "equivalence-p", 0.0388));
        }
    }

    private static Finding of(Key key, Answer answer) {
        return Finding.of(key, answer, Rows.NONE, "");
    }

    private static Trail slopeTrail() {
        return new Trail(
                List.of(
                        new Trail.Step(
                                "Sum of squares of the amounts about their mean",
                                "Sxx = sum (x - xm)^2",
                                "(2 - 20.33)^2 + (5 - 20.33)^2 + ... + (50 - 20.33)^2",
                                5268.0,
                                "mg2/L2"),
                        new Trail.Step(
                                "Slope", "b = Sxy / Sxx", "269.9 / 5268.0", 0.0512339, "L/mg")));
    }

    private static Finding statistic(
            String characteristic, String compound, String quantity, double value) {
        return Finding.of(
                Key.of(characteristic, compound, quantity, "least-squares"),
                new Answer.Statistic(value, "1"),
                Rows.NONE,
                "");
    }

    private static Answer estimate(double value, String unit, double u, double df) {
        final double k = Double.isInfinite(df) ? 1.96 : 1.96 + 2.5 / df;
        return new Answer.Estimate(
                value,
                unit,
                u,
                df,
                value - k * u,
                value + k * u,
                0.95,
                Answer.Law.STUDENT,
                Optional.empty());
    }

    private static Judgement judgement(Criterion criterion, Verdict verdict, String words) {
        return new Judgement(criterion, verdict, words);
    }

    static Criterion atMost(String quantity, double limit, String unit) {
        return SampleEvaluation.criterion(quantity, new Criterion.Limit.AtMost(limit), unit);
    }

    private static Criterion within(String quantity, double equals, double margin, String unit) {
        return new Criterion(
                quantity,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                new TreeMap<>(),
                new Criterion.Limit.Within(equals, margin),
                unit,
                Criterion.Basis.EQUIVALENCE,
                0.05,
                "our procedure 12, edition 3",
                "2026-02-10",
                Place.NONE);
    }
}
