package splitledger.planning.ahead;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;

/** Plan files for tests. */
final class PlanTexts {
    static final String HEAD =
            """
            splitledger-plan: 1
            title: planned
            targets: [limonene]
            start: 2026-04-01
            """;

    static final String AMOUNTS =
            """
            amounts:
              lowest: {value: 4, unit: mg/L, basis: invented}
              highest: {value: 100, unit: mg/L, basis: invented}
              result: {value: 52, unit: mg/L, basis: invented}
            """;

    /** Everything is wanted, and nothing is hard. */
    static final String FULL =
            HEAD
                    + """
                    wanted:
                      expanded-uncertainty: {value: 6, unit: "%", basis: invented}
                      detection-limit: {value: 0.5, unit: mg/L, basis: invented}
                      equivalence-margin: {value: 10, unit: "%", basis: invented}
                    prior:
                      blank: {value: 0.1, unit: mg/L, basis: invented}
                    inlet: {convention: total-to-column}
                    """
                    + AMOUNTS;

    /** The wanted uncertainty needs more than the fewest days. */
    static final String TIGHT =
            HEAD
                    + """
                    wanted:
                      expanded-uncertainty: {value: 4, unit: "%", basis: invented}
                    prior:
                      injection: {value: 1, unit: "%", basis: invented}
                      preparation: {value: 1.5, unit: "%", basis: invented}
                      day: {value: 0.8, unit: "%", basis: invented}
                    costs: {unit: min, injection: 25, preparation: 20, day: 60}
                    inlet: {convention: total-to-column}
                    """
                    + AMOUNTS;

    private PlanTexts() {}

    static PlanFile file(String text) throws ProblemException, IOException {
        return PlanFileReader.read(
                new MemoryVault(Map.of("plan.yaml", text.getBytes(StandardCharsets.UTF_8))),
                "plan.yaml");
    }

    static StudyPlan plan(String text) throws ProblemException, IOException {
        return Planner.plan("plan.yaml", file(text));
    }
}
