package splitledger.virtual;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;

/**
 * From the vial to the printed area: stroke, split, discrimination, loss in the liner, detector,
 * integration. Pure: an injection's areas depend on the design and on the injection alone.
 */
public final class VirtualInlet {
    private static final double CARBON = 12.011;
    private static final double HUNDRED_DEGREES = 100;

    private final Design design;
    private final Streams streams;
    private final Solutions solutions;
    private final LinerLoss loss;
    private final Integrator integrator;

    /** The inlet of a design. */
    public VirtualInlet(Design design) {
        this.design = design;
        this.streams = new Streams(design.seed());
        this.solutions = new Solutions(design);
        this.loss = new LinerLoss(design);
        this.integrator = new Integrator(design);
    }

    /**
     * One injection as the data system prints it.
     *
     * @param areas pA*s by compound; a compound that is missing was not detected
     */
    public record Chromatogram(Injection injection, Map<String, Double> areas) {
        public Chromatogram {
            areas = Collections.unmodifiableMap(new LinkedHashMap<>(areas));
        }
    }

    /** Every injection of the design, in order. */
    public List<Chromatogram> chromatograms() {
        return Timetable.of(design).stream().map(this::inject).toList();
    }

    /** One injection. */
    public Chromatogram inject(Injection injection) {
        final Design.Inlet inlet = design.inlet();
        final String flask = injection.flask().label();
        final String number = Integer.toString(injection.number());
        final double volume =
                inlet.injectedVolume().value()
                        * (1
                                + inlet.strokeScatter().fraction()
                                        * streams.normal("stroke", flask, number));
        final double ratio =
                injection.split()
                        * (1
                                + inlet.splitSettingScatter().fraction()
                                        * streams.normal("split", injection.setUp()));
        final double gain =
                1
                        + design.detector().dayGain().fraction()
                                * streams.normal("gain", injection.day());
        final double tilt = streams.normal("discrimination", flask, number);
        final Map<String, Double> amounts = solutions.inVial(injection);
        final Map<String, Double> areas =
                areas(amounts, volume, ratio, injection.temperature(), injection.occasion(), tilt);
        areas.replaceAll((compound, area) -> area * gain);
        return new Chromatogram(injection, integrator.peaks(areas, flask, number));
    }

    /**
     * Areas without scatter of volume, ratio, discrimination, gain and integration.
     *
     * @param amounts mg/L by compound
     * @param ratio total flow to column flow
     * @param temperature of the inlet, degC
     * @return pA*s by compound
     */
    Map<String, Double> expectedAreas(
            Map<String, Double> amounts, double ratio, double temperature, String occasion) {
        return areas(
                amounts, design.inlet().injectedVolume().value(), ratio, temperature, occasion, 0);
    }

    private Map<String, Double> areas(
            Map<String, Double> amounts,
            double volume,
            double ratio,
            double temperature,
            String occasion,
            double tilt) {
        final Map<String, Double> injected = new LinkedHashMap<>();
        amounts.forEach((compound, amount) -> injected.put(compound, amount * volume / ratio));
        final Map<String, Double> areas = new LinkedHashMap<>();
        loss.after(injected, ratio, temperature)
                .forEach(
                        (compound, mass) ->
                                areas.put(
                                        compound,
                                        mass
                                                * kept(compound, occasion)
                                                * FastMath.exp(tilt * scatter(compound))
                                                * response(compound)));
        return areas;
    }

    /**
     * Share of a compound that passes the inlet: 1 - D / (1 + exp(-(b - m)/w)), b its boiling
     * point. A form of our own that is smooth, near 1 for what boils low and never above it.
     */
    double kept(String compound, String occasion) {
        final Design.Discrimination d = design.discrimination();
        final double lost = d.occasions().getOrDefault(occasion, d.heavyEndLoss()).fraction();
        final double above =
                (design.compound(compound).boilingPoint() - d.midpoint().value())
                        / d.width().value();
        return 1 - lost / (1 + FastMath.exp(-above));
    }

    /** Relative standard deviation of a compound's discrimination between injections. */
    double scatter(String compound) {
        final Design.Discrimination d = design.discrimination();
        return d.scatter().fraction()
                * (design.compound(compound).boilingPoint() - d.scatterFrom().value())
                / HUNDRED_DEGREES;
    }

    /**
     * Area of 1 ng on the column, pA*s: response of carbon x effective carbon x (1 + deviation).
     */
    double response(String compound) {
        final Design.Compound known = design.compound(compound);
        final double deviation =
                design.detector().responseDeviation().fraction()
                        * streams.normal("response", compound);
        return design.detector().response().value()
                * known.carbonNumber()
                * CARBON
                / known.molarMass()
                * (1 + deviation);
    }
}
