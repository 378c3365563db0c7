package splitledger.characteristic.maintenance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.statistics.RandomStream;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Extent;

/**
 * Simulated studies of known truth, evaluated whole: how often "restored" is said where one
 * response lies at the margin, and where nothing changed.
 */
class MaintenanceRatesTest {
    private static final int STUDIES = 150;
    private static final double RISK = 0.05;
    private static final double SCATTER = 0.01;
    private static final int DAYS = 8;
    private static final int INJECTIONS = 6;

    private static final String HEAD =
            """
            splitledger: 1
            title: after maintenance
            tables: [{file: areas.csv}]
            compounds: {targets: [a, b, c]}
            conventions: {preparation: each-injection}
            characteristics:
              maintenance: {where: {series: check}, margin: 5%s}
            """;
    private static final String PRECISION =
            "  repeatability: {where: {series: precision}, factors: [day]}\n";

    /**
     * One study.
     *
     * @param shift of the logarithm of compound a after the work
     * @param occasionSd of all responses of a day
     */
    private static Evaluation study(long seed, double shift, double occasionSd, String protocol)
            throws IOException, ProblemException {
        final RandomStream random = RandomStream.of(4417, seed);
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,day,occasion\n");
        for (int day = 1; day <= DAYS; day++) {
            group(table, random, "precision,d" + day + ",", occasionSd, 0, 3);
        }
        group(table, random, "check,b,before", occasionSd, 0, INJECTIONS);
        group(table, random, "check,a,after", occasionSd, shift, INJECTIONS);
        final MemoryVault vault =
                new MemoryVault(
                        Map.of(
                                "areas.csv",
                                table.toString().getBytes(StandardCharsets.UTF_8),
                                "p.yaml",
                                protocol.getBytes(StandardCharsets.UTF_8)));
        return Evaluator.evaluate(StudyReader.read(vault, "p.yaml"), Extent.FORMULAS);
    }

    private static void group(
            StringBuilder table,
            RandomStream random,
            String labels,
            double occasionSd,
            double shift,
            int injections) {
        final double day = occasionSd * random.nextNormal();
        for (int i = 1; i <= injections; i++) {
            for (String compound : new String[] {"a", "b", "c"}) {
                final double own = SCATTER * random.nextNormal();
                final double log = day + own + (compound.equals("a") ? shift : 0);
                table.append(labels.replace(',', '-'))
                        .append(i)
                        .append(',')
                        .append(compound)
                        .append(',');
                table.append(1000 * StrictMath.exp(log)).append(',').append(labels).append('\n');
            }
        }
    }

    private static double restored(
            int studies, double shift, double occasionSd, String option, String more)
            throws IOException, ProblemException {
        int restored = 0;
        for (int s = 0; s < studies; s++) {
            final Evaluation evaluation =
                    study(s, shift, occasionSd, HEAD.replace("%s", option) + more);
            restored +=
                    (int)
                            evaluation.findings().stream()
                                    .filter(f -> f.key().quantity().equals("restored"))
                                    .filter(
                                            f ->
                                                    f.answer() instanceof Answer.Statistic r
                                                            && r.value() == 1)
                                    .count();
        }
        return restored / (double) studies;
    }

    private static double most() {
        return RISK + 2.6 * Math.sqrt(RISK * (1 - RISK) / STUDIES);
    }

    @Test
    void aFalseRestoredIsRareWithoutScatterBetweenOccasions() throws Exception {
        assertThat(restored(STUDIES, StrictMath.log(0.95), 0, "", "")).isLessThan(most());
    }

    @Test
    void aFalseRestoredIsRareWhereTheScatterBetweenOccasionsIsStated() throws Exception {
        assertThat(restored(STUDIES, StrictMath.log(0.95), 0.01, ", occasion-scatter: 1", ""))
                .isLessThan(most());
    }

    @Test
    void aFalseRestoredIsRareWhereRepeatabilityFindsTheScatterBetweenOccasions() throws Exception {
        assertThat(restored(STUDIES, StrictMath.log(0.95), 0.01, "", PRECISION)).isLessThan(most());
    }

    @Test
    void unchangedResponsesAreMostlySaidToBeRestored() throws Exception {
        // u = 0.01 sqrt(2 / 6) = 0.0058 against a margin of 0.051 on either side
        assertThat(restored(50, 0, 0, "", "")).isEqualTo(1);
        // u = 0.0153: the nearer margin is 3.2 u away, t at a few dozen degrees of freedom 1.7
        assertThat(restored(STUDIES, 0, 0.01, ", occasion-scatter: 1", "")).isGreaterThan(0.7);
    }

    @Test
    void withoutAnyKnowledgeOfOccasionsTheWordsAreThisBatchAgainstThatBatch() throws Exception {
        final Evaluation alone = study(1, 0, 0, HEAD.replace("%s", ""));
        assertThat(alone.choices())
                .anyMatch(
                        c ->
                                c.what()
                                        .equals(
                                                "This batch of injections is compared with that batch"));
        final Evaluation known = study(1, 0, 0.02, HEAD.replace("%s", "") + PRECISION);
        assertThat(known.choices())
                .anyMatch(
                        c ->
                                c.what().equals("Scatter between occasions enters every change")
                                        && c.source().contains("factor=day"));
        assertThat(known.findings())
                .filteredOn(f -> f.key().quantity().equals("response-change"))
                .allMatch(f -> f.note().isEmpty());
    }
}
