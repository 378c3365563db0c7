package splitledger.study;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How results are reported and what they are held against.
 *
 * @param sample column whose label tells samples apart; their preparations are averaged too
 * @param preparations preparations that a reported result averages in routine, for budgets at
 *     levels; at least 1
 * @param injections injections of each of them; empty: as results of this study usually have
 * @param belowLimit what is reported below a limit, if the protocol says so
 * @param specifications limits for the results themselves
 * @param evidence values from outside that results can be compared with
 */
public record Reporting(
        Optional<String> sample,
        int preparations,
        OptionalDouble injections,
        Optional<BelowLimit> belowLimit,
        List<Specification> specifications,
        List<Evidence> evidence) {
    /** Nothing asked. */
    public static final Reporting PLAIN =
            new Reporting(
                    Optional.empty(),
                    1,
                    OptionalDouble.empty(),
                    Optional.empty(),
                    List.of(),
                    List.of());

    public Reporting {
        specifications = List.copyOf(specifications);
        evidence = List.copyOf(evidence);
    }

    /**
     * What is reported where less was found than a limit.
     *
     * @param words whether words take the place of the value
     * @param quantity finding that is the limit, in the unit of the amount found
     * @param method of the finding; empty if any
     */
    public record BelowLimit(
            boolean words, String quantity, Optional<String> method, Place place) {}

    /**
     * A limit for results, judged with a guard band (JCGM 106:2012).
     *
     * @param of compound; empty: every target
     * @param atLeast lower limit, in the unit of the measurand
     * @param atMost upper limit, in the unit of the measurand
     * @param risk of accepting what does not conform, at the limit
     * @param source of the limit
     */
    public record Specification(
            Optional<String> of,
            OptionalDouble atLeast,
            OptionalDouble atMost,
            double risk,
            String source,
            Place place) {}

    /**
     * A value from outside.
     *
     * @param name tells it apart
     * @param kind {@code reference-material} or {@code interlaboratory}
     * @param of compound
     * @param result label of the preparation or sample that was measured
     * @param value in the unit of the measurand
     * @param standardUncertainty in the unit of the measurand
     * @param expanded U of it, with the factor of its certificate
     * @param source as stated
     */
    public record Evidence(
            String name,
            String kind,
            String of,
            String result,
            double value,
            double standardUncertainty,
            double expanded,
            String source,
            Place place) {}
}
