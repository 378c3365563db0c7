package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.characteristic.Criteria;
import splitledger.characteristic.Responses;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.PrecisionFigures;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Trail;
import splitledger.study.Tree;

/** What others ask of precision, or predict for it, beside what was found. */
final class PrecisionAcceptance {
    private static final String TABLED = "criterion";
    private static final double PERCENT = 100;

    private final OptionalDouble upperLimit;
    private final OptionalDouble massFraction;

    /** For the options of the characteristic. */
    PrecisionAcceptance(Tree.Mapping options) {
        this.upperLimit = options.number("upper-limit-b");
        this.massFraction = options.number("mass-fraction");
    }

    /**
     * The limits that the options ask for.
     *
     * @param picked the responses of one compound, of one level if there are several
     * @param found what came out for them
     */
    List<Finding> of(String compound, Responses.Picked picked, List<Finding> found) {
        final List<Finding> findings = new ArrayList<>();
        upperLimit.ifPresent(b -> findings.add(pharmacopoeial(compound, picked, found, b)));
        massFraction.ifPresent(c -> findings.addAll(predicted(compound, picked, found, c)));
        return findings;
    }

    private static Finding pharmacopoeial(
            String compound, Responses.Picked picked, List<Finding> found, double b) {
        final Criteria.Criterion criterion = Criteria.of("pharmacopoeial-repeatability");
        final Map<String, Integer> injections = new LinkedHashMap<>();
        picked.used().forEach(r -> injections.merge(r.preparation(), 1, Integer::sum));
        final List<Integer> numbers = injections.values().stream().distinct().toList();
        final String asked =
                "B = "
                        + Trail.digits(b)
                        + " %, n = "
                        + String.join(", ", numbers.stream().map(String::valueOf).toList());
        final Answer answer;
        if (!(b > 0)) {
            answer = Answers.not("%", Reason.NOT_DEFINED, "B must be above 0: " + asked);
        } else if (numbers.size() != 1) {
            answer =
                    Answers.not(
                            "%",
                            Reason.NOT_DEFINED,
                            "needs one number of injections for every preparation: " + asked);
        } else {
            answer =
                    PrecisionFigures.areaRepeatabilityLimit(numbers.get(0), b)
                            .<Answer>fold(
                                    v -> new Answer.Statistic(v, "%"),
                                    not -> Answers.not("%", not));
        }
        final OptionalDouble rsd = value(found, "rsd-injection");
        final String compared =
                rsd.isPresent() && answer instanceof Answer.Statistic limit
                        ? "; rsd-injection was found "
                                + (rsd.getAsDouble() <= limit.value()
                                        ? "not above it: "
                                        : "above it: ")
                                + Trail.digits(rsd.getAsDouble())
                                + " %"
                        : "";
        return Finding.of(
                PrecisionFindings.key(compound, "pharmacopoeial-limit", TABLED),
                answer,
                picked.rows(),
                criterion.limit() + "; " + asked + compared + "; " + criterion.cited());
    }

    private static List<Finding> predicted(
            String compound, Responses.Picked picked, List<Finding> found, double c) {
        final Criteria.Criterion criterion = Criteria.of("horwitz");
        final boolean defined = c > 0 && c <= 1;
        final Answer none =
                Answers.not(
                        "%",
                        Reason.NOT_DEFINED,
                        "mass-fraction = " + c + ", must lie above 0 and not above 1");
        final double rsd = defined ? PERCENT * PrecisionFigures.predictedSd(c) / c : Double.NaN;
        final OptionalDouble own = value(found, "rsd-repeatability");
        final Answer ratio;
        if (!defined) {
            ratio = Answers.not("1", Reason.NOT_DEFINED, "without a predicted value no ratio");
        } else if (own.isEmpty()) {
            ratio = Answers.not("1", Reason.NO_FINDING, "rsd-repeatability was not found");
        } else {
            ratio = new Answer.Statistic(own.getAsDouble() / rsd, "1");
        }
        return List.of(
                Finding.of(
                        PrecisionFindings.key(compound, "horwitz-rsd", TABLED),
                        defined ? new Answer.Statistic(rsd, "%") : none,
                        picked.rows(),
                        criterion.limit() + "; c = " + c + "; " + criterion.cited()),
                Finding.of(
                        PrecisionFindings.key(compound, "horwitz-ratio", TABLED),
                        ratio,
                        picked.rows(),
                        "rsd-repeatability over horwitz-rsd: scatter of one laboratory against what is predicted"
                                + " across laboratories, so well below 1 is usual; "
                                + criterion.cited()));
    }

    private static OptionalDouble value(List<Finding> found, String quantity) {
        return PrecisionLevels.estimate(found, quantity).stream()
                .mapToDouble(Answer.Estimate::value)
                .findFirst();
    }
}
