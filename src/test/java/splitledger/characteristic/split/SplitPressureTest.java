package splitledger.characteristic.split;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.base.MemoryVault;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.study.Finding;

/** The ratio that head pressure, column and vent flow let expect, worked by hand. */
class SplitPressureTest {
    /** Viscosity of helium at 40 degC, Pa s: 20.6, between the tabulated 20.0 at 300 K and 24.4. */
    private static final double HELIUM = 20.6e-6;

    private static final double HEAD = 201_325;
    private static final double END = 101_325;
    private static final double VENT = 60;

    private static final String PROTOCOL =
            """
            splitledger: 1
            title: flows
            instrument: {gas: He, column: 30 m x 0.25 mm, head-pressure: 100 kPa gauge}
            tables: [{file: areas.csv}]
            compounds: {targets: [a]}
            conventions: {split-ratio: total-to-column, flows-at: {temperature: 25 degC, pressure: 101.325 kPa}}
            characteristics:
              split-linearity: {where: {series: split}OPTIONS}
            """;

    private static Evaluation evaluated(String options) throws Exception {
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,day,split_ratio,split_flow\n");
        int number = 0;
        for (int day = 1; day <= 2; day++) {
            for (int ratio : new int[] {10, 20, 50, 100}) {
                number++;
                final double area = 1000.0 / ratio * (1 + 0.001 * ((7 * number) % 5));
                table.append(number).append(",a,").append(area).append(",split,d").append(day);
                table.append(',').append(ratio).append(',').append(VENT).append('\n');
            }
        }
        final MemoryVault vault =
                new MemoryVault(
                        Map.of(
                                "areas.csv",
                                table.toString().getBytes(StandardCharsets.UTF_8),
                                "p.yaml",
                                PROTOCOL.replace("OPTIONS", options)
                                        .getBytes(StandardCharsets.UTF_8)));
        return Evaluator.evaluate(StudyReader.read(vault, "p.yaml"), Extent.FORMULAS);
    }

    private static List<Finding> expected(Evaluation evaluation) {
        return evaluation.findings().stream()
                .filter(f -> f.key().quantity().equals("expected-split-ratio"))
                .filter(f -> f.key().conditionText().equals("ratio=50"))
                .toList();
    }

    @Test
    void theRatioIsOnePlusVentOverTheColumnFlowOfTheTextbook() throws Exception {
        final List<Finding> found =
                expected(
                        evaluated(
                                ", oven-temperature: 40, vent-flow-uncertainty: 2, length-uncertainty: 0.5,"
                                        + " diameter-uncertainty: 1.5, head-pressure-uncertainty: 1"));
        final double column =
                Math.PI
                        * 0.25e-3
                        * 0.25e-3
                        * 0.25e-3
                        * 0.25e-3
                        * (HEAD * HEAD - END * END)
                        * 298.15
                        / (256 * HELIUM * 30 * 101_325 * 313.15)
                        * 60e6;

        assertThat(found).hasSize(1);
        final Answer.Estimate e = (Answer.Estimate) found.get(0).answer();
        // the viscosity in use lies within 1 % of the tabulated one
        assertThat(e.value() - 1).isCloseTo(VENT / column, within(0.01 * VENT / column));
        // relative: vent 2 %, length 0.5 %, diameter 4 x 1.5 %, viscosity 1 %; of the gauge
        // pressure
        // 1 % is 1000 Pa, which changes p_i^2 - p_o^2 by 2 p_i 1000
        final double head = 2 * HEAD * 1000 / (HEAD * HEAD - END * END);
        final double relative =
                Math.sqrt(0.02 * 0.02 + 0.005 * 0.005 + 0.06 * 0.06 + 0.01 * 0.01 + head * head);
        assertThat(e.standardUncertainty()).isCloseTo((e.value() - 1) * relative, within(1e-9));
        assertThat(e.quantity()).isPresent();
    }

    @Test
    void withoutStatedUncertaintiesItHasNoInterval() throws Exception {
        final List<Finding> found = expected(evaluated(", oven-temperature: 40"));

        assertThat(found).hasSize(1);
        assertThat(found.get(0).answer()).isInstanceOf(Answer.Statistic.class);
    }

    @Test
    void whatIsMissingIsNamed() throws Exception {
        final Evaluation evaluation = evaluated("");

        assertThat(expected(evaluation)).isEmpty();
        assertThat(evaluation.choices()).anyMatch(c -> c.why().contains("lacks: oven-temperature"));
    }
}
