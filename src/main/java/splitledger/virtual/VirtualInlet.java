package splitledger.virtual;

import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * From the vial to the printed area: carry-over, stroke, split, needle, loss in the liner,
 * discrimination, detector, integration. Pure: an injection's areas depend on the design and on the
 * injection and the one before it alone.
 */
public final class VirtualInlet {
    private final Design design;
    private final Streams streams;
    private final Solutions solutions;
    private final Peaks peaks;
    private final Physics physics;
    private final Integrator integrator;
    private final List<Injection> plan;
    private final Map<String, double[]> vials = new HashMap<>();

    /** Number of an injection on its day and instrument, from 0, by order. */
    private final int[] positions;

    /** Place of the injection before it on that day and instrument; -1 if none. */
    private final int[] before;

    /** The inlet of a design. */
    public VirtualInlet(Design design) {
        this(design, Timetable.of(design));
    }

    /**
     * The inlet of a design whose injections are planned elsewhere.
     *
     * @param plan every injection, by order from 1 on; levels and oils are those of the design
     */
    public VirtualInlet(Design design, List<Injection> plan) {
        this.design = design;
        this.plan = plan;
        this.streams = new Streams(design.seed());
        this.peaks = new Peaks(design);
        this.solutions = new Solutions(design, peaks);
        this.physics = new Physics(design, peaks, streams);
        this.integrator = new Integrator(design, peaks);
        this.positions = new int[plan.size()];
        this.before = new int[plan.size()];
        final Map<String, Integer> last = new HashMap<>();
        for (int i = 0; i < plan.size(); i++) {
            final Injection injection = plan.get(i);
            final Integer earlier = last.put(injection.day() + "/" + injection.instrument(), i);
            before[i] = earlier == null ? -1 : earlier;
            positions[i] = earlier == null ? 0 : positions[earlier] + 1;
            vials.computeIfAbsent(
                    injection.flask().label(), f -> solutions.whole(injection.flask()));
        }
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

    /** Every injection of the design that gave a chromatogram, in order. */
    public List<Chromatogram> chromatograms() {
        return plan.stream().filter(i -> !i.fate().missing()).map(this::inject).toList();
    }

    /** One injection of this design. */
    public Chromatogram inject(Injection injection) {
        return new Chromatogram(injection, peaks.map(printed(injection)));
    }

    /** The same as an array in the order of the columns; {@code NaN} where no peak was found. */
    double[] printed(Injection injection) {
        final String flask = injection.flask().label();
        final String number = Integer.toString(injection.number());
        final int position = positions[injection.order() - 1];
        final double volume =
                design.inlet().injectedVolume().value()
                        * streams.factor(design.inlet().strokeScatter(), "stroke", flask, number);
        final double tilt = physics.tilt(flask, number);
        final double ratio = physics.ratio(injection);
        final double[] areas = physics.areas(amounts(injection), injection, volume, ratio, tilt);
        physics.detect(areas, injection, position);
        final double[] printed = integrator.peaks(areas, flask, number);
        if (injection.fate().stopped()) {
            for (int i = 0; i < printed.length; i++) {
                if (physics.boilingPoint(i) > injection.fate().stoppedAt()) {
                    printed[i] = Double.NaN;
                }
            }
        }
        return printed;
    }

    /** What is taken up, with what is left in the syringe from before, mg/L. */
    private double[] amounts(Injection injection) {
        final double[] own = inVial(injection);
        final double share = design.inlet().carryOver().fraction();
        final int earlier = before[injection.order() - 1];
        if (share == 0 || earlier < 0) {
            return own;
        }
        final double[] left = inVial(plan.get(earlier));
        final double[] all = own.clone();
        for (int i = 0; i < all.length; i++) {
            if (!Double.isNaN(left[i])) {
                all[i] = Peaks.sum(all[i], share * left[i]);
            }
        }
        return all;
    }

    private double[] inVial(Injection injection) {
        final double[] whole = vials.get(injection.flask().label());
        if (whole == null) {
            throw new IllegalArgumentException(
                    "injection = " + injection.label() + ", is not of this design");
        }
        return solutions.inVial(injection, whole);
    }

    List<Injection> plan() {
        return plan;
    }

    Peaks peaks() {
        return peaks;
    }

    Solutions solutions() {
        return solutions;
    }

    Physics physics() {
        return physics;
    }
}
