package splitledger.report;

import splitledger.base.JsonText;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Comparison;
import splitledger.propagation.Effect;
import splitledger.propagation.MonteCarlo;
import splitledger.propagation.SecondOrder;
import splitledger.study.Budget;

/** A budget in the machine-readable record. */
final class BudgetJson {
    private BudgetJson() {}

    static void write(JsonText json, Budget budget) {
        json.beginObject();
        json.key("compound").value(budget.compound());
        json.key("level").value(budget.level());
        json.key("name").value(budget.name());
        json.key("equation").value(budget.equation());
        json.key("value").value(budget.result().value());
        json.key("unit").value(budget.result().unit());
        json.key("combined_standard_uncertainty").value(budget.result().standardUncertainty());
        json.key("degrees_of_freedom").value(budget.result().degreesOfFreedom());
        json.key("coverage").value(budget.coverage());
        json.key("coverage_factor").value(budget.coverageFactor());
        json.key("expanded_uncertainty").value(budget.expanded());
        json.key("rows").beginArray();
        budget.rows().forEach(row -> row(json, row));
        json.end();
        json.key("correlations").beginArray();
        for (Budget.Correlation c : budget.correlations()) {
            json.beginObject();
            json.key("symbol_a").value(c.symbolA());
            json.key("symbol_b").value(c.symbolB());
            json.key("correlation").value(c.correlation());
            json.key("cause").value(c.cause());
            json.end();
        }
        json.end();
        budget.second().ifPresent(s -> second(json.key("second_order"), s));
        budget.simulated().ifPresent(s -> simulated(json.key("monte_carlo"), s));
        budget.comparison().ifPresent(c -> comparison(json.key("comparison"), c));
        ResultsJson.choices(json.key("choices"), budget.choices());
        FindingJson.trail(json.key("trail"), budget.trail());
        json.end();
    }

    private static void row(JsonText json, Budget.Row row) {
        json.beginObject();
        json.key("symbol").value(row.symbol());
        json.key("effect").value(row.effect().map(Effect::code).orElse(""));
        json.key("acts_on").value(row.actsOn().map(ActsOn::code).orElse(""));
        json.key("words").value(row.words());
        json.key("source").value(row.source());
        json.key("value").value(row.value());
        json.key("unit").value(row.unit());
        json.key("standard_uncertainty").value(row.standardUncertainty());
        json.key("evaluation").value(row.evaluation());
        json.key("distribution").value(row.distribution());
        json.key("degrees_of_freedom").value(row.degreesOfFreedom());
        json.key("sensitivity").value(row.sensitivity());
        json.key("contribution").value(row.contribution());
        row.share().ifPresent(share -> json.key("share_percent").value(share.doubleValue()));
        json.end();
    }

    private static void second(JsonText json, SecondOrder s) {
        json.beginObject();
        json.key("standard_uncertainty").value(s.standardUncertainty());
        json.key("shift").value(s.shift());
        json.end();
    }

    private static void comparison(JsonText json, Comparison c) {
        json.beginObject();
        json.key("validated").value(c.validated());
        json.key("tolerance").value(c.tolerance());
        json.key("lower_difference").value(c.lowerDifference());
        json.key("upper_difference").value(c.upperDifference());
        json.end();
    }

    private static void simulated(JsonText json, MonteCarlo.Simulated s) {
        json.beginObject();
        json.key("trials").value(s.trials());
        json.key("without_value").value(s.withoutValue());
        json.key("mean").value(s.mean());
        if (s.standardDeviationExists()) {
            json.key("standard_uncertainty").value(s.standardDeviation());
        }
        json.key("lower").value(s.lower());
        json.key("upper").value(s.upper());
        json.key("shortest_lower").value(s.shortestLower());
        json.key("shortest_upper").value(s.shortestUpper());
        json.key("median").value(s.median());
        json.key("settled").value(s.settled());
        json.end();
    }
}
