package splitledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Place;
import splitledger.study.Protocol.Found;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Reporting;
import splitledger.study.Reporting.Evidence;
import splitledger.study.Reporting.Specification;
import splitledger.study.Rows;

/** Results against limits and values from outside, worked by hand with tables of normal and t. */
class ConformityTest {
    private static final Key KEY =
            Key.of("budget", "linalool", "result", "law of propagation").with("sample", "S1");

    private static Measurand measurand(
            List<Specification> specifications, List<Evidence> evidence) {
        return new Measurand(
                "w",
                "mg/g",
                "found",
                Map.of(),
                List.of(),
                Optional.empty(),
                Found.AMOUNT,
                new Reporting(
                        Optional.empty(),
                        1,
                        OptionalDouble.empty(),
                        Optional.empty(),
                        specifications,
                        evidence),
                Place.NONE);
    }

    private static Specification limits(Optional<String> of, double least, double most) {
        return new Specification(
                of,
                Double.isNaN(least) ? OptionalDouble.empty() : OptionalDouble.of(least),
                Double.isNaN(most) ? OptionalDouble.empty() : OptionalDouble.of(most),
                0.05,
                "invented",
                Place.NONE);
    }

    private static Uncertain result(double u, double freedom) {
        final Pool pool =
                Double.isInfinite(freedom)
                        ? Pool.known("p", "test")
                        : new Pool("p", freedom, "test");
        return Uncertain.of(
                10, "mg/g", Root.normal("r", pool, Effect.MODEL, ActsOn.SAMPLE, "test"), u);
    }

    private static Finding only(List<Finding> findings, String quantity) {
        final List<Finding> found =
                findings.stream().filter(f -> f.key().quantity().equals(quantity)).toList();
        assertThat(found).hasSize(1);
        return found.get(0);
    }

    private static double number(List<Finding> findings, String quantity) {
        assertThat(only(findings, quantity).answer()).isInstanceOf(Answer.Statistic.class);
        return ((Answer.Statistic) only(findings, quantity).answer()).value();
    }

    private static List<Finding> judged(double least, double most, double u, double freedom) {
        return new Conformity(measurand(List.of(limits(Optional.empty(), least, most)), List.of()))
                .of(KEY, result(u, freedom), Rows.NONE);
    }

    /** 10 with u = 1, known: guard band 1.6449; Phi(2) = 0.97725, Phi(1) = 0.84134. */
    @ParameterizedTest
    @CsvSource({
        "NaN, 12, 1, 0.977250",
        "NaN, 8, 0, 0.022750",
        "8, NaN, 1, 0.977250",
        "12, NaN, 0, 0.022750",
        "8, 12, 1, 0.954500",
        "9, 12, -1, 0.818595",
        "8, 11, -1, 0.818595",
        "NaN, 11, -1, 0.841345",
        "NaN, 9, -1, 0.158655",
        "9, NaN, -1, 0.841345",
        "11, NaN, -1, 0.158655"
    })
    void aResultConformsWhereItKeepsTheGuardBand(
            double least, double most, int verdict, double probability) {
        final List<Finding> found = judged(least, most, 1, Double.POSITIVE_INFINITY);

        assertThat(number(found, "guard-band")).isCloseTo(1.644854, within(1e-6));
        assertThat(number(found, "conformance-probability")).isCloseTo(probability, within(1e-6));
        if (verdict < 0) {
            assertThat(only(found, "conforms").answer())
                    .isInstanceOfSatisfying(
                            Answer.NotEstimable.class,
                            a -> assertThat(a.reason()).isEqualTo("undecided"));
        } else {
            assertThat(number(found, "conforms")).isEqualTo(verdict);
            assertThat(only(found, "conforms").note())
                    .startsWith(verdict == 1 ? "conforms: " : "does not conform: ");
        }
    }

    /** t(0.95, 4) = 2.1318. */
    @Test
    void fewDegreesOfFreedomWidenTheGuardBand() {
        assertThat(number(judged(Double.NaN, 12, 1, 4), "guard-band"))
                .isCloseTo(2.1318, within(5e-5));
    }

    @Test
    void anExactResultAtTheLimitConforms() {
        final List<Finding> most = judged(Double.NaN, 10, 0, Double.POSITIVE_INFINITY);
        assertThat(number(most, "conformance-probability")).isEqualTo(1);
        assertThat(number(most, "guard-band")).isZero();
        assertThat(number(most, "conforms")).isEqualTo(1);
        assertThat(
                        number(
                                judged(Double.NaN, 9.9, 0, Double.POSITIVE_INFINITY),
                                "conformance-probability"))
                .isZero();
    }

    @Test
    void theLimitsAreToldInWords() {
        assertThat(only(judged(8, 12, 1, 9), "conformance-probability").note())
                .isEqualTo("at least 8 mg/g, at most 12 mg/g (invented)");
        assertThat(only(judged(Double.NaN, 12, 1, 9), "conformance-probability").note())
                .isEqualTo("at most 12 mg/g (invented)");
    }

    @Test
    void aLimitOfAnotherCompoundSaysNothing() {
        final Measurand other =
                measurand(List.of(limits(Optional.of("geraniol"), 8, 12)), List.of());

        assertThat(new Conformity(other).of(KEY, result(1, 9), Rows.NONE)).isEmpty();
        final Measurand own = measurand(List.of(limits(Optional.of("linalool"), 8, 12)), List.of());
        assertThat(new Conformity(own).of(KEY, result(1, 9), Rows.NONE)).hasSize(3);
    }

    private static Evidence evidence(String of, String label, double u) {
        return new Evidence(
                "CRM", "reference-material", of, label, 8, u, 2 * u, "invented", Place.NONE);
    }

    /** 10 against 8, u = 1 and 2: zeta 2/sqrt(5); E_n = 2/sqrt(1.959964^2 + 4^2) = 0.448997. */
    @Test
    void aValueFromOutsideIsScored() {
        final Measurand asked = measurand(List.of(), List.of(evidence("linalool", "S1", 2)));
        final List<Finding> found =
                new Conformity(asked).of(KEY, result(1, Double.POSITIVE_INFINITY), Rows.NONE);

        assertThat(number(found, "zeta")).isCloseTo(0.894427, within(1e-6));
        assertThat(number(found, "e-n")).isCloseTo(0.448997, within(1e-6));
        assertThat(only(found, "zeta").key().condition()).containsEntry("evidence", "CRM");
        assertThat(only(found, "zeta").note())
                .startsWith("against CRM (reference material, invented): 8 mg/g, u = 2");
        assertThat(Conformity.unanswered(asked, found)).isEmpty();
    }

    @Test
    void twoExactValuesHaveNoScore() {
        final Measurand asked = measurand(List.of(), List.of(evidence("linalool", "S1", 0)));
        final List<Finding> found =
                new Conformity(asked).of(KEY, result(0, Double.POSITIVE_INFINITY), Rows.NONE);

        assertThat(found)
                .hasSize(2)
                .allSatisfy(f -> assertThat(f.answer()).isInstanceOf(Answer.NotEstimable.class));
    }

    @ParameterizedTest
    @CsvSource({"geraniol, S1", "linalool, S2"})
    void aValueForAnotherResultIsSaidToBeUnanswered(String compound, String label) {
        final Measurand asked = measurand(List.of(), List.of(evidence(compound, label, 2)));
        final List<Finding> found = new Conformity(asked).of(KEY, result(1, 9), Rows.NONE);

        assertThat(found).isEmpty();
        final List<Finding> unanswered = Conformity.unanswered(asked, found);
        assertThat(unanswered).extracting(f -> f.key().quantity()).containsExactly("e-n", "zeta");
        assertThat(unanswered)
                .allSatisfy(f -> assertThat(f.answer()).isInstanceOf(Answer.NotEstimable.class));
    }
}
