package splitledger.study;

import java.util.List;
import java.util.Optional;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Comparison;
import splitledger.propagation.Effect;
import splitledger.propagation.MonteCarlo;
import splitledger.propagation.SecondOrder;
import splitledger.propagation.Uncertain;

/**
 * The uncertainty budget of one result.
 *
 * @param compound its compound; empty for a budget without compounds
 * @param level calibration level it stands for; empty for a budget without levels
 * @param name of the measurand
 * @param equation the measurement equation as text
 * @param result the value with all its parts
 * @param coverage coverage probability
 * @param coverageFactor k
 * @param expanded U = k u, in the unit of the result
 * @param rows contributions in order of the equation's symbols
 * @param correlations between rows
 * @param second the law of propagation with terms of second order, where they can be given
 * @param simulated by Monte Carlo, if it was run
 * @param comparison of both methods, if Monte Carlo was run
 * @param choices decisions about this budget
 * @param trail the result worked by hand
 */
public record Budget(
        String compound,
        String level,
        String name,
        String equation,
        Uncertain result,
        double coverage,
        double coverageFactor,
        double expanded,
        List<Row> rows,
        List<Correlation> correlations,
        Optional<SecondOrder> second,
        Optional<MonteCarlo.Simulated> simulated,
        Optional<Comparison> comparison,
        List<Choice> choices,
        Trail trail) {
    public Budget {
        rows = List.copyOf(rows);
        correlations = List.copyOf(correlations);
        choices = List.copyOf(choices);
    }

    /**
     * One contribution.
     *
     * @param symbol unique in the budget
     * @param effect what makes it uncertain; empty for an input without uncertainty
     * @param actsOn on which side; empty with {@code effect}
     * @param words what it is, for pages
     * @param source where the number comes from
     * @param value of the input, in {@code unit}
     * @param standardUncertainty this row's part of the input's uncertainty, in {@code unit}
     * @param evaluation {@code A} from data of the study, {@code B} from elsewhere
     * @param distribution code of the shape
     * @param degreesOfFreedom may be infinite
     * @param sensitivity derivative of the result by the input
     * @param contribution |sensitivity| x standard uncertainty, in the unit of the result
     * @param share of the combined variance, percent; may be negative by correlation; empty if u =
     *     0
     */
    public record Row(
            String symbol,
            Optional<Effect> effect,
            Optional<ActsOn> actsOn,
            String words,
            String source,
            double value,
            String unit,
            double standardUncertainty,
            String evaluation,
            String distribution,
            double degreesOfFreedom,
            double sensitivity,
            double contribution,
            Optional<Double> share) {}

    /** A correlation between two rows and its cause in words. */
    public record Correlation(String symbolA, String symbolB, double correlation, String cause) {}
}
