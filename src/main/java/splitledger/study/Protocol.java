package splitledger.study;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Shape;
import splitledger.statistics.Moments;

/**
 * What the laboratory wants shown, and by which rules.
 *
 * @param title of the study
 * @param purpose as stated; empty if not
 * @param laboratory stated facts (name, prepared-by, ...), in order of the file
 * @param instrument stated facts, in order of the file
 * @param conventions what numbers mean
 * @param characteristics options by id, in order of the file
 * @param requirements the criteria
 * @param measurand if results are wanted
 * @param exclusions rows left out on purpose
 * @param events what was done to the instrument
 */
public record Protocol(
        String title,
        String purpose,
        Map<String, String> laboratory,
        Map<String, String> instrument,
        Conventions conventions,
        Map<String, Tree.Mapping> characteristics,
        List<Criterion> requirements,
        Optional<Measurand> measurand,
        List<Exclusion> exclusions,
        List<Event> events) {
    public Protocol {
        laboratory = Collections.unmodifiableMap(new LinkedHashMap<>(laboratory));
        instrument = Collections.unmodifiableMap(new LinkedHashMap<>(instrument));
        characteristics = Collections.unmodifiableMap(new LinkedHashMap<>(characteristics));
        requirements = List.copyOf(requirements);
        exclusions = List.copyOf(exclusions);
        events = List.copyOf(events);
    }

    /**
     * What numbers mean.
     *
     * @param splitRatio {@code total-to-column} or {@code vent-to-column}; empty if no table holds
     *     a ratio
     * @param recalibrated {@code once} or {@code daily}: how the precision study was calibrated
     * @param coverage coverage probability of every interval
     * @param areaUnit unit of areas, as printed
     * @param amountUnit unit of calibrant amounts, as printed
     * @param flowsAt temperature and pressure that stated flows refer to, as written; may be empty
     */
    public record Conventions(
            String splitRatio,
            String recalibrated,
            double coverage,
            String areaUnit,
            String amountUnit,
            Map<String, String> flowsAt) {
        public Conventions {
            flowsAt = Collections.unmodifiableMap(new LinkedHashMap<>(flowsAt));
        }

        /** Conventions that do not say at which conditions flows are stated. */
        public Conventions(
                String splitRatio,
                String recalibrated,
                double coverage,
                String areaUnit,
                String amountUnit) {
            this(splitRatio, recalibrated, coverage, areaUnit, amountUnit, Map.of());
        }
    }

    /**
     * A result to report.
     *
     * @param name of the measurand
     * @param unit of the result
     * @param equation right-hand side as text
     * @param inputs by symbol, in order of the file
     * @param correlations between given inputs, in order of the file
     * @param resultsFor which rows get a result
     * @param found what {@code found} stands for
     * @param reporting how results are reported
     * @param place where it stands
     */
    public record Measurand(
            String name,
            String unit,
            String equation,
            Map<String, Input> inputs,
            List<Correlated> correlations,
            Optional<Where> resultsFor,
            Found found,
            Reporting reporting,
            Place place) {
        public Measurand {
            inputs = Collections.unmodifiableMap(new LinkedHashMap<>(inputs));
            correlations = List.copyOf(correlations);
        }
    }

    /** What the symbol {@code found} of the equation stands for. */
    public enum Found {
        /** The amount read off the calibration line. */
        AMOUNT,
        /** The amount by standard addition. */
        ADDITION,
        /** The compound's share of the areas of all compounds, in percent. */
        AREA_SHARE
    }

    /**
     * Given inputs that belong together.
     *
     * @param symbols in an order; none stands in two groups
     * @param coefficients correlation coefficients by row and column of {@code symbols}
     * @param observed whether they come from replicates observed together
     */
    public record Correlated(
            List<String> symbols, List<List<Double>> coefficients, boolean observed) {
        public Correlated {
            symbols = List.copyOf(symbols);
            coefficients = coefficients.stream().map(List::copyOf).toList();
        }
    }

    /** What a symbol of the equation stands for. */
    public sealed interface Input {
        /** Where it stands. */
        Place place();
    }

    /**
     * A given value.
     *
     * @param value in {@code unit}
     * @param unit its unit; {@code "1"} if none
     * @param standardUncertainty in {@code unit}
     * @param shape distribution
     * @param degreesOfFreedom infinite unless stated
     * @param source as stated
     * @param home what it is an error of, where the protocol says so
     */
    public record Given(
            double value,
            String unit,
            double standardUncertainty,
            Shape shape,
            double degreesOfFreedom,
            String source,
            Home home,
            Place place)
            implements Input {}

    /**
     * Where a contribution belongs.
     *
     * @param effect what makes it uncertain; empty if not stated
     * @param actsOn on which side; empty if not stated
     * @param differs why a transfer factor is not the same for calibrants and samples, as stated;
     *     empty if the tables decide
     * @param disjoint why it is not part of the recovery, as stated; empty if not
     */
    public record Home(
            Optional<Effect> effect,
            Optional<ActsOn> actsOn,
            Optional<String> differs,
            Optional<String> disjoint) {
        /** Nothing stated. */
        public static final Home NOT_STATED =
                new Home(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    /**
     * The mean of readings.
     *
     * @param values the readings in their order, in {@code unit}
     * @param unit their unit; {@code "1"} if none
     * @param standardDeviation of one reading, in {@code unit}: of these, or stated from elsewhere
     * @param degreesOfFreedom of the standard deviation
     * @param pooled whether the standard deviation is stated from elsewhere
     * @param source as stated
     */
    public record Readings(
            Doubles values,
            String unit,
            double standardDeviation,
            double degreesOfFreedom,
            boolean pooled,
            String source,
            Place place)
            implements Input {

        /** Their mean. */
        public double mean() {
            return Moments.ofAll(values.toArray()).mean();
        }

        /** Standard uncertainty of the mean, s / sqrt(n) (JCGM 100:2008, 4.2.3). */
        public double standardUncertainty() {
            return standardDeviation / Math.sqrt(values.size());
        }
    }

    /**
     * A number of each result row.
     *
     * @param column its column
     * @param unit its unit
     * @param standardUncertainty in {@code unit}, the same for all rows and independent between
     *     them
     */
    public record RowVariable(
            String column, String unit, double standardUncertainty, String source, Place place)
            implements Input {}

    /**
     * A value whose uncertainty is the scatter of a finding.
     *
     * @param value usually 1
     * @param quantity name of the finding's quantity, a relative standard deviation
     * @param meanOf number of independent results a reported one averages
     */
    public record Spread(double value, String quantity, OptionalDouble meanOf, Place place)
            implements Input {}

    /**
     * A finding's value, for example a recovery.
     *
     * @param quantity its quantity
     * @param method its method; empty: any
     * @param condition conditions it must have
     * @param home where it belongs, as far as stated
     */
    public record FromFinding(
            String quantity,
            Optional<String> method,
            Map<String, String> condition,
            Home home,
            Place place)
            implements Input {
        public FromFinding {
            condition = Collections.unmodifiableMap(new LinkedHashMap<>(condition));
        }
    }

    /**
     * The mean amount found in other rows by the same calibration, for example in procedural
     * blanks.
     *
     * @param rows which
     */
    public record AmountOf(Where rows, Place place) implements Input {}

    /**
     * The share on column of a sample injection to that of a calibrant injection, by the split
     * ratios in the tables; its uncertainty as stated, or by the response kept at both ratios.
     *
     * @param relativeUncertainty standard uncertainty relative to the factor; empty: from findings
     * @param source as stated
     */
    public record SplitFactor(OptionalDouble relativeUncertainty, String source, Place place)
            implements Input {}

    /**
     * A factor that the laboratory decided not to correct for: 1 without uncertainty, and said so.
     */
    public record NotCorrected(Place place) implements Input {}

    /**
     * Rows left out on purpose.
     *
     * @param injection its label
     * @param compound a compound, or {@code all}
     * @param reason why
     * @param who decided
     */
    public record Exclusion(
            String injection, String compound, String reason, String who, Place place) {}

    /** What was done to the instrument, and when, as stated. */
    public record Event(String date, String what) {}
}
