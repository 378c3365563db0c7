package splitledger.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Criterion.Basis;
import splitledger.study.Criterion.Limit;

/** Verdicts worked by hand. */
class JudgeTest {
    private static Criterion criterion(Limit limit, String unit, Basis basis) {
        return new Criterion(
                "q",
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                new TreeMap<>(),
                limit,
                unit,
                basis,
                0.05,
                "our procedure",
                "",
                Place.NONE);
    }

    private static Verdict judge(Limit limit, String unit, Basis basis, Answer answer) {
        return Judge.judge(criterion(limit, unit, basis), answer).verdict();
    }

    /** Deviation, u 0.0025, 3 degrees of freedom, margin 0.0066. */
    @ParameterizedTest
    @CsvSource({"0, MEETS", "-0.004, UNDECIDED", "0.004, UNDECIDED", "0.0135, FAILS"})
    void equivalenceTakesTheNinetyPercentInterval(double deviation, Verdict verdict) {
        final Answer answer = Answers.student(deviation, "1", 0.0025, 3, 0.95);
        final Limit margin = new Limit.Within(0, 0.0066);

        assertThat(judge(margin, "1", Basis.EQUIVALENCE, answer)).isEqualTo(verdict);
    }

    @Test
    void theNinetyPercentIntervalOfThatCase() {
        final double half = 0.0025 * Quantiles.t(0.95, 3);
        assertThat(half).isCloseTo(0.00588, within(0.000005));
        // larger of the two one-sided p-values
        assertThat(Quantiles.tTail(0.0066 / 0.0025, 3)).isCloseTo(0.0388, within(0.00005));
        assertThat(Quantiles.tTail((0.0066 - 0.004) / 0.0025, 3)).isCloseTo(0.187, within(0.0005));

        final Answer answer = Answers.student(0, "1", 0.0025, 3, 0.95);
        final Criterion criterion = criterion(new Limit.Within(0, 0.0066), "1", Basis.EQUIVALENCE);
        assertThat(Judge.judge(criterion, answer).explanation())
                .startsWith("from -0.005883 to 0.005883");
        // the 95 % interval +-0.00796 is another, stricter basis
        assertThat(judge(criterion.limit(), "1", Basis.INTERVAL, answer))
                .isEqualTo(Verdict.UNDECIDED);
    }

    /** RSD 0.70 % of six against 0.848 %: met as observed, the bound beside it is above. */
    @Test
    void aPharmacopoeialLimitIsJudgedAsObservedWithTheBoundBeside() {
        final Answer rsd = Answers.sd(new VarianceEstimate(0.49, 5), 1, "%", 0.95);
        final Criterion criterion = criterion(new Limit.AtMost(0.848), "%", Basis.OBSERVED);
        final Judgement judgement = Judge.judge(criterion, rsd);
        final double upper = 0.70 * Math.sqrt(5 / Quantiles.chiSquare(0.05, 5));

        assertThat(judgement.verdict()).isEqualTo(Verdict.MEETS);
        assertThat(upper).isCloseTo(1.462, within(0.0005));
        assertThat(judgement.explanation()).contains("0.7").contains("1.462").contains("95 %");
        assertThat(judge(criterion.limit(), "%", Basis.UPPER_BOUND, rsd))
                .isEqualTo(Verdict.UNDECIDED);
    }

    @ParameterizedTest
    @CsvSource({
        // value 10, u 1, 10 df: one-sided 95 % bounds 8.1875 and 11.8125
        "UPPER_BOUND, 11.9, MEETS",
        "UPPER_BOUND, 11.7, UNDECIDED",
        "UPPER_BOUND, 8.1, FAILS",
        "OBSERVED, 10, MEETS",
        "OBSERVED, 9.9, FAILS",
        "INTERVAL, 12.3, MEETS",
        "INTERVAL, 12.2, UNDECIDED",
        "INTERVAL, 7.7, FAILS"
    })
    void atMostIsShownByTheUpperEnd(Basis basis, double limit, Verdict verdict) {
        final Answer answer = Answers.student(10, "mg", 1, 10, 0.95);

        assertThat(judge(new Limit.AtMost(limit), "mg", basis, answer)).isEqualTo(verdict);
    }

    @ParameterizedTest
    @CsvSource({
        "LOWER_BOUND, 8.1, MEETS",
        "LOWER_BOUND, 8.3, UNDECIDED",
        "LOWER_BOUND, 11.9, FAILS",
        "OBSERVED, 10, MEETS",
        "OBSERVED, 10.1, FAILS"
    })
    void atLeastIsShownByTheLowerEnd(Basis basis, double limit, Verdict verdict) {
        final Answer answer = Answers.student(10, "mg", 1, 10, 0.95);

        assertThat(judge(new Limit.AtLeast(limit), "mg", basis, answer)).isEqualTo(verdict);
    }

    @Test
    void theRiskOfTheCriterionDecidesWhichBound() {
        final Answer answer = Answers.student(10, "mg", 1, 10, 0.95);
        final Limit limit = new Limit.AtMost(11.9);
        final Criterion strict =
                new Criterion(
                        "q",
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        new TreeMap<>(),
                        limit,
                        "mg",
                        Basis.UPPER_BOUND,
                        0.01,
                        "",
                        "",
                        Place.NONE);

        assertThat(judge(limit, "mg", Basis.UPPER_BOUND, answer)).isEqualTo(Verdict.MEETS);
        assertThat(Judge.judge(strict, answer).verdict()).isEqualTo(Verdict.UNDECIDED);
    }

    @ParameterizedTest
    @EnumSource
    void whatCannotBeEstimatedIsNotShown(Basis basis) {
        final Answer none = new Answer.NotEstimable("1", "too-few-points", "found 2, needs 3");
        final Judgement judgement = Judge.judge(criterion(new Limit.AtMost(1), "1", basis), none);

        assertThat(judgement.verdict()).isEqualTo(Verdict.NOT_SHOWN);
        assertThat(judgement.explanation()).contains("found 2, needs 3");
    }

    @ParameterizedTest
    @CsvSource({
        "true, 4, AtMost, 5, MEETS",
        "true, 6, AtMost, 5, UNDECIDED",
        "true, 4, AtLeast, 5, FAILS",
        "true, 6, AtLeast, 5, UNDECIDED",
        "false, 6, AtLeast, 5, MEETS",
        "false, 4, AtLeast, 5, UNDECIDED",
        "false, 6, AtMost, 5, FAILS",
        "false, 4, AtMost, 5, UNDECIDED"
    })
    void oneBoundShowsOneSide(
            boolean upper, double end, String kind, double limit, Verdict verdict) {
        final OptionalDouble at = OptionalDouble.of(end);
        final OptionalDouble none = OptionalDouble.empty();
        final Answer bound =
                new Answer.Bound(none, "mg", upper ? none : at, upper ? at : none, 0.95, "r", "d");
        final Limit wanted =
                kind.equals("AtMost") ? new Limit.AtMost(limit) : new Limit.AtLeast(limit);

        assertThat(judge(wanted, "mg", Basis.UPPER_BOUND, bound)).isEqualTo(verdict);
    }

    @Test
    void aBoundWithoutAnEndIsUndecided() {
        final OptionalDouble none = OptionalDouble.empty();
        final Answer bound = new Answer.Bound(none, "mg", none, none, 0.95, "r", "d");

        assertThat(judge(new Limit.AtMost(5), "mg", Basis.OBSERVED, bound))
                .isEqualTo(Verdict.UNDECIDED);
    }

    @Test
    void percentAndPlainRatiosAreCompared() {
        final Answer ratio = new Answer.Statistic(0.015, "1");
        final Criterion percent = criterion(new Limit.AtMost(2), "%", Basis.OBSERVED);
        assertThat(Judge.comparable(percent, ratio)).isTrue();
        assertThat(Judge.judge(percent, ratio).verdict()).isEqualTo(Verdict.MEETS);

        final Answer inPercent = new Answer.Statistic(1.5, "%");
        final Criterion plain = criterion(new Limit.AtMost(0.02), "1", Basis.OBSERVED);
        assertThat(Judge.judge(plain, inPercent).verdict()).isEqualTo(Verdict.MEETS);
        assertThat(Judge.judge(criterion(new Limit.AtMost(0.01), "1", Basis.OBSERVED), inPercent))
                .extracting(Judgement::verdict)
                .isEqualTo(Verdict.FAILS);

        assertThat(Judge.comparable(criterion(new Limit.AtMost(2), "mg", Basis.OBSERVED), ratio))
                .isFalse();
        assertThat(Judge.comparable(criterion(new Limit.AtMost(2), "", Basis.OBSERVED), ratio))
                .isTrue();
    }

    @Test
    void aCriterionIsAboutTheTargetsUnlessItNamesAnotherCompound() {
        final Key target = Key.of("repeatability", "limonene", "q", "moments");
        final Key ladder = Key.of("repeatability", "n-C20", "q", "moments");
        final Key all = Key.of("repeatability", "", "q", "moments");
        final List<String> targets = List.of("limonene", "linalool");
        final Criterion any = criterion(new Limit.AtMost(1), "", Basis.OBSERVED);

        assertThat(Judge.isAbout(any, target, targets)).isTrue();
        assertThat(Judge.isAbout(any, ladder, targets)).isFalse();
        assertThat(Judge.isAbout(any, all, targets)).isTrue();
        assertThat(Judge.isAbout(any, Key.of("x", "limonene", "other", "m"), targets)).isFalse();
        final Criterion of = about(Optional.of("n-C20"), Optional.empty(), Optional.empty(), "");
        assertThat(Judge.isAbout(of, ladder, targets)).isTrue();
        assertThat(Judge.isAbout(of, target, targets)).isFalse();
    }

    @Test
    void aCriterionMayNameReferenceMethodAndCondition() {
        final Key key =
                Key.of("discrimination", "n-C40", "q", "line")
                        .with("reference", "n-C20")
                        .with("ratio", "50");
        final List<String> none = List.of();
        final Optional<String> of = Optional.of("n-C40");

        assertThat(Judge.isAbout(about(of, Optional.of("n-C20"), Optional.empty(), ""), key, none))
                .isTrue();
        assertThat(Judge.isAbout(about(of, Optional.of("n-C16"), Optional.empty(), ""), key, none))
                .isFalse();
        assertThat(Judge.isAbout(about(of, Optional.empty(), Optional.of("line"), ""), key, none))
                .isTrue();
        assertThat(Judge.isAbout(about(of, Optional.empty(), Optional.of("hinge"), ""), key, none))
                .isFalse();
        assertThat(Judge.isAbout(about(of, Optional.empty(), Optional.empty(), "50"), key, none))
                .isTrue();
        assertThat(Judge.isAbout(about(of, Optional.empty(), Optional.empty(), "20"), key, none))
                .isFalse();
    }

    private static Criterion about(
            Optional<String> of, Optional<String> to, Optional<String> method, String ratio) {
        final TreeMap<String, String> condition = new TreeMap<>();
        if (!ratio.isEmpty()) {
            condition.put("ratio", ratio);
        }
        return new Criterion(
                "q",
                of,
                to,
                method,
                condition,
                new Limit.AtMost(1),
                "",
                Basis.OBSERVED,
                0.05,
                "",
                "",
                Place.NONE);
    }

    @Test
    void theGravestVerdictOfAllCriteriaStands() {
        final Criterion criterion = criterion(new Limit.AtMost(1), "", Basis.OBSERVED);
        final Finding finding =
                Finding.of(Key.of("c", "", "q", "m"), new Answer.Statistic(1, "1"), Rows.NONE, "");

        assertThat(finding.verdict()).isEqualTo(Verdict.INFORMATION);
        assertThat(
                        finding.judged(
                                        List.of(
                                                new Judgement(criterion, Verdict.MEETS, ""),
                                                new Judgement(criterion, Verdict.FAILS, ""),
                                                new Judgement(criterion, Verdict.UNDECIDED, "")))
                                .verdict())
                .isEqualTo(Verdict.FAILS);
        assertThat(Verdict.values())
                .containsExactly(
                        Verdict.INFORMATION,
                        Verdict.MEETS,
                        Verdict.UNDECIDED,
                        Verdict.NOT_SHOWN,
                        Verdict.FAILS);
    }

    @Test
    void aLimitIsToldInWords() {
        assertThat(criterion(new Limit.AtMost(2), "%", Basis.OBSERVED).text())
                .isEqualTo("at most 2 %");
        assertThat(criterion(new Limit.AtLeast(0.8), "1", Basis.OBSERVED).text())
                .isEqualTo("at least 0.8");
        assertThat(criterion(new Limit.Within(1, 0.03), "", Basis.EQUIVALENCE).text())
                .isEqualTo("1 within 0.03");
    }
}
