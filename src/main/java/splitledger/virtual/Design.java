package splitledger.virtual;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.study.Tree;

/**
 * An experiment to be simulated: the instrument with its faults, the solutions, the days.
 *
 * @param title what it is
 * @param seed of every random stream
 * @param losses what decomposes in the liner; none if empty
 * @param instruments relative, of a compound's response from instrument to instrument, one draw for
 *     each of both, the internal standard apart
 * @param stocks of which levels are made; a level of none is exact
 * @param standard the internal standard, the same in every solution; without it responses are areas
 * @param targets compounds that the laboratory quantifies
 * @param forced compounds whose peak window is integrated even where no peak is seen
 * @param compounds every peak by name, in the order of the columns
 * @param levels amounts added, mg/L by compound, by level
 * @param oils mass fractions, mg/g by compound, by oil
 * @param impurities amounts that every solution holds, mg/L by compound
 * @param recovered share of a compound that the procedure recovers from whatever holds a test
 *     portion; all of it where none is named
 * @param days in order
 * @param incidents mishaps at the bench
 * @param protocol what the protocol of the tables shall say beyond what the design tells; its keys
 *     are those of a protocol
 */
public record Design(
        String title,
        long seed,
        Inlet inlet,
        Discrimination discrimination,
        Effects.Needle needle,
        Effects.Split split,
        List<Loss> losses,
        Detector detector,
        Integration integration,
        Preparation preparation,
        Parameter instruments,
        List<Effects.Stock> stocks,
        Effects.Mishaps mishaps,
        Optional<Standard> standard,
        List<String> targets,
        List<String> forced,
        Map<String, Compound> compounds,
        Map<String, Map<String, Double>> levels,
        Map<String, Map<String, Double>> oils,
        Map<String, Double> impurities,
        Map<String, Parameter> recovered,
        List<Plan.Day> days,
        List<Plan.Incident> incidents,
        Tree.Mapping protocol) {
    private static final String REFERENCE = "n-C20";

    public Design {
        losses = List.copyOf(losses);
        stocks = List.copyOf(stocks);
        targets = List.copyOf(targets);
        forced = List.copyOf(forced);
        compounds = ordered(compounds);
        levels = ordered(levels);
        oils = ordered(oils);
        impurities = ordered(impurities);
        recovered = ordered(recovered);
        days = List.copyOf(days);
        incidents = List.copyOf(incidents);
    }

    /** The same design with other draws. */
    public Design seeded(long otherSeed) {
        return new Design(
                title,
                otherSeed,
                inlet,
                discrimination,
                needle,
                split,
                losses,
                detector,
                integration,
                preparation,
                instruments,
                stocks,
                mishaps,
                standard,
                targets,
                forced,
                compounds,
                levels,
                oils,
                impurities,
                recovered,
                days,
                incidents,
                protocol);
    }

    /** Every batch, in order. */
    List<Plan.Batch> batches() {
        return days.stream().flatMap(day -> day.sessions().stream()).flatMap(List::stream).toList();
    }

    /** The batches of one experiment, in order. */
    List<Plan.Batch> batches(String experiment) {
        return batches().stream().filter(b -> b.experiment().equals(experiment)).toList();
    }

    /** Share of a compound that the procedure recovers. */
    double recovery(String compound) {
        final Parameter share = recovered.get(compound);
        return share == null ? 1 : share.fraction();
    }

    /** Name of the internal standard; empty without one. */
    String standardName() {
        return standard.map(Standard::compound).orElse("");
    }

    /** Compounds that decompose or are formed. */
    Set<String> labile() {
        final Set<String> labile = new LinkedHashSet<>();
        for (Loss loss : losses) {
            labile.add(loss.parent());
            labile.addAll(loss.products().keySet());
        }
        return labile;
    }

    /** The instruments by label, in order of appearance; none if they have no labels. */
    Set<String> instrumentLabels() {
        final Set<String> labels = new LinkedHashSet<>();
        batches().forEach(b -> labels.addAll(b.instruments()));
        return labels;
    }

    /** The member of the ladder that others are compared with, if the design holds it. */
    Optional<String> reference() {
        return compounds.containsKey(REFERENCE) ? Optional.of(REFERENCE) : Optional.empty();
    }

    /**
     * What a peak is.
     *
     * @throws IllegalArgumentException if the design has no such compound
     */
    public Compound compound(String name) {
        final Compound known = compounds.get(name);
        if (known == null) {
            throw new IllegalArgumentException("compound = " + name + ", is not in the design");
        }
        return known;
    }

    /**
     * Syringe, split and liner.
     *
     * @param injectedVolume uL
     * @param strokeScatter relative, common to all peaks of an injection
     * @param splitRatio working ratio, total flow to column flow
     * @param splitSettingScatter relative error of a ratio, drawn anew at each set-up
     * @param temperature working temperature of the inlet, degC
     * @param columnFlow mL/min at 25 degC and 101.325 kPa
     * @param linerVolume mL
     * @param pressure in the inlet, absolute, kPa
     * @param runTime minutes from one injection to the next
     * @param carryOver share of what the syringe took up before that comes with an injection, from
     *     the injection before it on the same instrument and day
     */
    public record Inlet(
            Parameter injectedVolume,
            Parameter strokeScatter,
            Parameter splitRatio,
            Parameter splitSettingScatter,
            Parameter temperature,
            Parameter columnFlow,
            Parameter linerVolume,
            Parameter pressure,
            Parameter runTime,
            Parameter carryOver) {}

    /**
     * The share of a compound that the inlet keeps back, by boiling point.
     *
     * @param heavyEndLoss share lost far above the midpoint
     * @param midpoint boiling point of half that loss, degC
     * @param width degC in which the loss grows by the factor e, far below the midpoint
     * @param scatter relative, per 100 degC above {@code scatterFrom}, one draw an injection
     * @param scatterFrom boiling point without scatter, degC
     * @param occasions other heavy-end losses, by occasion (after maintenance, say)
     */
    public record Discrimination(
            Parameter heavyEndLoss,
            Parameter midpoint,
            Parameter width,
            Parameter scatter,
            Parameter scatterFrom,
            Map<String, Parameter> occasions) {
        public Discrimination {
            occasions = ordered(occasions);
        }
    }

    /**
     * Decomposition of first order in the hot liner. What is formed does not decompose further.
     *
     * @param parent the compound that decomposes
     * @param products moles of each formed from a mole of parent, as shares
     * @param rate at {@code rateTemperature}, 1/s
     * @param rateTemperature degC
     * @param activationEnergy kJ/mol
     */
    public record Loss(
            String parent,
            Map<String, Parameter> products,
            Parameter rate,
            Parameter rateTemperature,
            Parameter activationEnergy) {
        public Loss {
            products = ordered(products);
        }
    }

    /**
     * The flame ionisation detector.
     *
     * @param response pA*s per ng of effective carbon
     * @param responseDeviation relative, of a compound from its effective carbon number, drawn once
     *     for each compound
     * @param dayGain relative, common to all peaks of a day
     * @param saturation area that a peak never reaches, pA*s: what would be A is A / (1 + A /
     *     saturation); infinite if there is no such limit
     * @param drift relative, of all peaks, from one injection of a day to the next
     * @param driftAgainstStandard the same, of all peaks but the internal standard's
     */
    public record Detector(
            Parameter response,
            Parameter responseDeviation,
            Parameter dayGain,
            Parameter saturation,
            Parameter drift,
            Parameter driftAgainstStandard) {}

    /**
     * Finding and measuring peaks.
     *
     * @param constant standard deviation of every area, pA*s
     * @param proportional relative standard deviation of every area
     * @param threshold smallest area that is reported as a peak unless integration is forced, pA*s
     * @param significantDigits digits that the data system prints
     */
    public record Integration(
            Parameter constant,
            Parameter proportional,
            Parameter threshold,
            int significantDigits) {}

    /**
     * Making solutions.
     *
     * @param dilution relative, common to all compounds of a flask but the internal standard
     * @param standardAddition relative, of the internal standard in a flask
     * @param balance of a test portion, mg
     * @param flaskVolume of a test portion's flask, mL
     * @param volume nominal volume of that flask, mL
     * @param portion smallest and largest test portion, mg
     * @param between relative, of the whole procedure from test portions on, by compound: days
     * @param analysts the same, by compound: analysts
     * @param dayByAnalyst the same, by compound: an analyst on a day
     */
    public record Preparation(
            Parameter dilution,
            Parameter standardAddition,
            Parameter balance,
            Parameter flaskVolume,
            Parameter volume,
            Range portion,
            Parameter between,
            Parameter analysts,
            Parameter dayByAnalyst) {}

    /** From the smallest to the largest, in {@code unit}. */
    public record Range(double from, double to, String unit) {}

    /** The internal standard and its amount in every solution, mg/L. */
    public record Standard(String compound, Parameter amount) {}

    /**
     * What a peak is.
     *
     * @param boilingPoint degC
     * @param carbonNumber effective carbon number
     * @param molarMass g/mol
     */
    public record Compound(
            String name, double boilingPoint, double carbonNumber, double molarMass) {}

    private static <V> Map<String, V> ordered(Map<String, V> map) {
        return Collections.unmodifiableMap(new LinkedHashMap<>(map));
    }
}
