package splitledger.characteristic.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.propagation.Effect;
import splitledger.propagation.Uncertain;
import splitledger.statistics.RandomStream;
import splitledger.study.Answer;
import splitledger.study.Budget;
import splitledger.study.Evaluation;

/** What is found of split and ladder carries its causes, so that covariances follow from them. */
class FindingsWithRootsTest {
    private static final double[] RATIOS = {10, 20, 50, 100, 200};
    private static final String[] COMPOUNDS = {"a", "b", "c"};

    private static Evaluation evaluated(MemoryVault vault, String table, String protocol)
            throws IOException, ProblemException {
        vault.write("areas.csv", table.getBytes(StandardCharsets.UTF_8));
        vault.write("p.yaml", protocol.getBytes(StandardCharsets.UTF_8));
        return Evaluator.evaluate(StudyReader.read(vault, "p.yaml"));
    }

    private static Answer.Estimate estimate(
            Evaluation evaluation, String quantity, String compound, String condition) {
        return evaluation.findings().stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().compound().equals(compound))
                .filter(f -> f.key().conditionText().equals(condition))
                .map(f -> (Answer.Estimate) f.answer())
                .findFirst()
                .orElseThrow();
    }

    private static Evaluation split() throws IOException, ProblemException {
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,day,split_ratio\n");
        final RandomStream random = RandomStream.of(20260304, 8);
        int number = 0;
        for (int day = 1; day <= 2; day++) {
            for (double ratio : RATIOS) {
                final double shared = 0.02 * random.nextNormal();
                for (int i = 0; i < 2; i++) {
                    number++;
                    for (int c = 0; c < COMPOUNDS.length; c++) {
                        final double own = 0.004 * (c + 1) * random.nextNormal();
                        final double area = 1e6 / ratio * StrictMath.exp(shared + own);
                        table.append(
                                String.format(
                                        Locale.ROOT,
                                        "%d,%s,%.6f,split,d%d,%.0f%n",
                                        number,
                                        COMPOUNDS[c],
                                        area,
                                        day,
                                        ratio));
                    }
                }
            }
        }
        return evaluated(
                new MemoryVault(java.util.Map.of()),
                table.toString(),
                """
                splitledger: 1
                title: split
                tables: [{file: areas.csv}]
                compounds: {targets: [a, b, c]}
                conventions: {split-ratio: total-to-column}
                characteristics: {split-linearity: {where: {series: split}, reference-ratio: 50}}
                """);
    }

    @Test
    void theCausesGiveTheUncertaintyThatIsPrinted() throws IOException, ProblemException {
        final Evaluation split = split();
        for (String compound : List.of("a", "b", "c", "")) {
            final List<Answer.Estimate> all =
                    List.of(
                            estimate(split, "split-exponent", compound, ""),
                            estimate(split, "response-kept", compound, "ratio=10"),
                            estimate(split, "response-kept", compound, "ratio=200"));
            for (Answer.Estimate e : all) {
                final Uncertain x = e.quantity().orElseThrow();
                assertThat(x.value()).isEqualTo(e.value());
                assertThat(x.standardUncertainty())
                        .isCloseTo(e.standardUncertainty(), within(1e-12 * e.value()));
                assertThat(x.degreesOfFreedom()).isCloseTo(e.degreesOfFreedom(), within(1e-9));
            }
        }
        assertThat(estimate(split, "effective-split-ratio", "", "ratio=10").quantity()).isPresent();
    }

    @Test
    void theMeanOfTheExponentsIsAsUncertainAsThatOfAllTogether()
            throws IOException, ProblemException {
        final Evaluation split = split();
        final List<Uncertain> each =
                List.of("a", "b", "c").stream()
                        .map(c -> estimate(split, "split-exponent", c, "").quantity().orElseThrow())
                        .toList();
        final Uncertain pooled = estimate(split, "split-exponent", "", "").quantity().orElseThrow();
        final double third = 1.0 / 3;
        final Uncertain mean =
                Uncertain.combine(pooled.value(), "1", new double[] {third, third, third}, each);

        assertThat(each.stream().mapToDouble(Uncertain::value).average().orElseThrow())
                .isCloseTo(pooled.value(), within(1e-12));
        assertThat(mean.standardUncertainty())
                .isCloseTo(pooled.standardUncertainty(), within(1e-12));
        assertThat(mean.correlation(pooled)).isCloseTo(1, within(1e-9));
        assertThat(each.get(0).correlation(each.get(1))).isGreaterThan(0.5);
    }

    private static final String LADDER_PROTOCOL =
            """
            splitledger: 1
            title: ladder
            tables: [{file: areas.csv}]
            compounds: {from: compounds.csv, targets: [inside, other], ladder: [m1, m2, m3, m4, m5, m6, m7, m8]}
            characteristics:
              discrimination: {where: {series: ladder}, reference: REFERENCE}
            """;

    private static final String BUDGET =
            """
              calibration: {where: {series: calibration}}
            measurand:
              name: amount
              unit: mg/L
              equation: found / disc
              inputs: {disc: {finding: discrimination-factor, differs: calibrants were injected on-column}}
              results-for: {series: sample}
            """;

    private static Evaluation ladder(String reference, String more)
            throws IOException, ProblemException {
        final StringBuilder compounds =
                new StringBuilder(
                        """
                        name,boiling_point,source,effective_carbon_number,molar_mass
                        inside,130,invented,10,100
                        other,200,invented,10,100
                        """);
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,amount,level,preparation\n");
        final double[] own = {0.004, -0.003, 0.001, -0.005, 0.006, -0.002, 0.003, -0.004};
        for (int m = 1; m <= own.length; m++) {
            compounds.append("m").append(m).append(',').append(80 + 20 * m);
            compounds.append(",invented,10,100\n");
            for (int j = 0; j < 3; j++) {
                final double log = -0.01 * m + own[m - 1] + 0.002 * j * m;
                table.append("L").append(j).append(",m").append(m).append(',');
                table.append(100 * StrictMath.exp(log)).append(",ladder,10,,\n");
            }
        }
        final double[] off = {0.1, -0.2, 0.15, -0.05, 0.1};
        for (String target : List.of("inside", "other")) {
            for (int i = 1; i <= 5; i++) {
                table.append("c").append(i).append(',').append(target).append(',');
                table.append(10 * i + off[i - 1]).append(",calibration,").append(i);
                table.append(",L").append(i).append(",c").append(i).append('\n');
            }
            table.append("s,").append(target).append(",25,sample,,,s\n");
        }
        final MemoryVault vault = new MemoryVault(java.util.Map.of());
        vault.write("compounds.csv", compounds.toString().getBytes(StandardCharsets.UTF_8));
        return evaluated(
                vault, table.toString(), LADDER_PROTOCOL.replace("REFERENCE", reference) + more);
    }

    private static Uncertain factor(Evaluation ladder, String of, String reference) {
        final Uncertain factor =
                estimate(ladder, "discrimination-factor", of, "reference=" + reference)
                        .quantity()
                        .orElseThrow();
        // how far other curves lie is no linear cause
        return factor.only(root -> root.effect() == Effect.DISCRIMINATION);
    }

    @Test
    void theRatioOfTwoFactorsIsAsUncertainAsAFactorAgainstTheOther()
            throws IOException, ProblemException {
        final Evaluation first = ladder("m1", "");
        final Evaluation second = ladder("m6", "");
        final Uncertain inside = factor(first, "inside", "m1");
        // boils where m6 does
        final Uncertain other = factor(first, "other", "m1");
        final double ratio = inside.value() / other.value();
        final Uncertain combined =
                Uncertain.combine(
                        ratio,
                        "1",
                        new double[] {ratio / inside.value(), -ratio / other.value()},
                        List.of(inside, other));
        final Uncertain direct = factor(second, "inside", "m6");

        assertThat(ratio).isCloseTo(direct.value(), within(1e-9));
        assertThat(combined.standardUncertainty())
                .isCloseTo(direct.standardUncertainty(), within(1e-9));
        assertThat(inside.covariance(other)).isNotZero();
    }

    @Test
    void aFactorEntersABudgetByItsNameWithItsUncertainty() throws IOException, ProblemException {
        final Evaluation evaluation = ladder("m1", BUDGET);
        final Answer.Estimate factor =
                estimate(evaluation, "discrimination-factor", "inside", "reference=m1");
        final Answer.Estimate result = estimate(evaluation, "result", "inside", "preparation=s");
        final Answer.Estimate found =
                estimate(evaluation, "predicted-amount", "inside", "preparation=s");

        assertThat(result.value()).isCloseTo(found.value() / factor.value(), within(1e-9));
        assertThat(evaluation.budgets())
                .filteredOn(b -> b.compound().equals("inside"))
                .isNotEmpty()
                .allSatisfy(b -> assertThat(shareOf(b, factor)).isCloseTo(1, within(1e-9)));
    }

    /** The relative uncertainty that the factor brings, over the factor's own. */
    private static double shareOf(Budget budget, Answer.Estimate factor) {
        final Uncertain result = budget.result();
        final Uncertain only =
                result.only(r -> factor.quantity().orElseThrow().roots().contains(r));
        return only.standardUncertainty()
                / result.value()
                / (factor.standardUncertainty() / factor.value());
    }
}
