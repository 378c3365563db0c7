package splitledger.virtual;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.study.Key;

/**
 * The values behind a simulation, by the keys of the findings that estimate them. Responses are
 * areas divided by the area of the internal standard. Standard deviations are those of first order
 * in the scatters of the design (at scatters of a few percent, right to one part in a thousand).
 */
public final class Truth {
    private static final String CALIBRATION = "calibration";
    private static final double PERCENT = 100;

    private final Design design;
    private final VirtualInlet inlet;
    private final Solutions solutions;
    private final LinerLoss loss;
    private final List<Injection> injections;
    private final List<TrueValue> values = new ArrayList<>();

    private Truth(Design design) {
        this.design = design;
        this.inlet = new VirtualInlet(design);
        this.solutions = new Solutions(design);
        this.loss = new LinerLoss(design);
        this.injections = Timetable.of(design);
    }

    /** Every value that the design determines, ordered by key. */
    public static List<TrueValue> of(Design design) {
        final Truth truth = new Truth(design);
        design.targets().forEach(truth::line);
        truth.precision();
        truth.split();
        truth.heavyEnd();
        truth.decomposition();
        truth.recovery();
        truth.results();
        truth.values.sort(Comparator.comparing(TrueValue::key));
        return List.copyOf(truth.values);
    }

    /** Slope and intercept of the response against the amount, working conditions. */
    private void line(String target) {
        add(Key.of(CALIBRATION, target, "slope", ""), slope(target), "1/(mg/L)");
        add(Key.of(CALIBRATION, target, "intercept", ""), intercept(target), "1");
    }

    private double slope(String target) {
        final Map<String, Double> one = new LinkedHashMap<>();
        one.put(target, 1.0);
        one.put(design.standard().compound(), design.standard().amount().value());
        final Map<String, Double> areas = atWork(one);
        return areas.getOrDefault(target, 0.0) / standard(areas);
    }

    private double intercept(String target) {
        return slope(target) * design.impurities().getOrDefault(target, 0.0);
    }

    private Map<String, Double> atWork(Map<String, Double> amounts) {
        return inlet.expectedAreas(
                amounts,
                design.inlet().splitRatio().value(),
                design.inlet().temperature().value(),
                "");
    }

    private double standard(Map<String, Double> areas) {
        return areas.getOrDefault(design.standard().compound(), 0.0);
    }

    /** Scatter of the response divided by the test portion, at the mean of the oil. */
    private void precision() {
        for (Design.Batch batch : design.batches("repeatability")) {
            for (String oil : batch.oils()) {
                for (String target : design.targets()) {
                    precision(oil, target, batch.injections());
                }
            }
        }
    }

    private void precision(String oil, String target, int injectionsEach) {
        final Design.Preparation p = design.preparation();
        final double portion = (p.portion().from() + p.portion().to()) / 2;
        final Map<String, Double> amounts = solutions.intended("", oil, portion);
        design.impurities().forEach((c, amount) -> amounts.merge(c, amount, Double::sum));
        final Map<String, Double> areas = atWork(amounts);
        final double mean = areas.getOrDefault(target, 0.0) / standard(areas) / portion;
        final double injection = injectionScatter(target, areas);
        final double preparation =
                root(
                        p.dilution().fraction(),
                        p.standardAddition().fraction(),
                        p.balance().value() / portion,
                        p.flaskVolume().value() / p.volume().value());
        final double repeatability = root(preparation, injection / Math.sqrt(injectionsEach));
        final double day = p.between().fraction();
        final double analyst = p.analysts().fraction();
        final double intermediate = root(repeatability, day, analyst);
        final String unit = "1/mg";
        final String of = "repeatability";
        add(Key.of(of, target, "sd-injection", ""), mean * injection, unit);
        add(Key.of(of, target, "sd-repeatability", ""), mean * repeatability, unit);
        add(Key.of(of, target, "rsd-repeatability", ""), PERCENT * repeatability, "%");
        add(Key.of(of, target, "sd-between", "").with("factor", "day"), mean * day, unit);
        add(Key.of(of, target, "sd-between", "").with("factor", "analyst"), mean * analyst, unit);
        add(Key.of(of, target, "sd-intermediate", ""), mean * intermediate, unit);
        add(Key.of(of, target, "rsd-intermediate", ""), PERCENT * intermediate, "%");
    }

    /**
     * Relative standard deviation of the response between injections: discrimination moves both
     * peaks together, integration each alone.
     */
    private double injectionScatter(String target, Map<String, Double> areas) {
        final String standard = design.standard().compound();
        final double proportional = design.integration().proportional().fraction();
        final double constant = design.integration().constant().value();
        return root(
                inlet.scatter(target) - inlet.scatter(standard),
                proportional,
                proportional,
                constant / areas.getOrDefault(target, 0.0),
                constant / standard(areas));
    }

    /** Exponent 1 for every peak that neither decomposes nor is formed. */
    private void split() {
        final TreeSet<String> stable = new TreeSet<>();
        for (Design.Batch batch : design.batches("split")) {
            for (String level : batch.levels()) {
                stable.addAll(solutions.intended(level, "", 0).keySet());
            }
        }
        stable.remove(design.loss().parent());
        stable.removeAll(design.loss().products().keySet());
        for (String compound : stable) {
            add(Key.of("split-linearity", compound, "split-exponent", ""), 1, "1");
        }
        if (!stable.isEmpty()) {
            add(Key.of("split-linearity", "", "convention-offset", ""), 0, "1");
        }
    }

    /** Transfer of the highest boiling member relative to n-C20, by occasion. */
    private void heavyEnd() {
        final String reference = "n-C20";
        final TreeSet<String> occasions = new TreeSet<>();
        final TreeSet<String> levels = new TreeSet<>();
        for (Design.Batch batch : design.batches("ladder")) {
            occasions.add(batch.occasion());
            levels.addAll(batch.levels());
        }
        for (String level : levels) {
            final Map<String, Double> members = solutions.intended(level, "", 0);
            final String heaviest =
                    members.keySet().stream()
                            .max(Comparator.comparingDouble(c -> design.compound(c).boilingPoint()))
                            .orElse(reference);
            if (!members.containsKey(reference)) {
                continue;
            }
            for (String occasion : occasions) {
                Key key =
                        Key.of("discrimination", heaviest, "heavy-to-light-ratio", "")
                                .with("reference", reference);
                if (!occasion.isEmpty()) {
                    key = key.with("occasion", occasion);
                }
                add(key, inlet.kept(heaviest, occasion) / inlet.kept(reference, occasion), "1");
            }
        }
    }

    /** Breakdown on the basis of areas at each inlet temperature; rate and activation energy. */
    private void decomposition() {
        final String parent = design.loss().parent();
        final TreeSet<Double> temperatures = new TreeSet<>();
        for (Design.Batch batch : design.batches("inlet-temperature")) {
            temperatures.addAll(batch.temperatures());
            for (String level : batch.levels()) {
                batch.temperatures().forEach(t -> breakdown(level, t));
            }
        }
        if (temperatures.isEmpty()) {
            return;
        }
        final double middle = (temperatures.first() + temperatures.last()) / 2;
        add(
                Key.of("losses", parent, "activation-energy", ""),
                design.loss().activationEnergy().value(),
                "kJ/mol");
        add(
                Key.of("losses", parent, "apparent-rate", "")
                        .with("inlet_temperature", Numbers.text(middle)),
                loss.rate(middle),
                "1/s");
    }

    private void breakdown(String level, double temperature) {
        final String parent = design.loss().parent();
        final Map<String, Double> areas =
                inlet.expectedAreas(
                        solutions.intended(level, "", 0),
                        design.inlet().splitRatio().value(),
                        temperature,
                        "");
        final double products =
                design.loss().products().keySet().stream()
                        .mapToDouble(product -> areas.getOrDefault(product, 0.0))
                        .sum();
        add(
                Key.of("losses", parent, "breakdown", "")
                        .with("inlet_temperature", Numbers.text(temperature)),
                PERCENT * products / (products + areas.getOrDefault(parent, 0.0)),
                "%");
    }

    /** The procedure of the design loses nothing: recovery 1 at every spike. */
    private void recovery() {
        for (Design.Batch batch : design.batches("spike")) {
            for (String level : batch.levels()) {
                final Map<String, Double> added = design.levels().getOrDefault(level, Map.of());
                for (String target : design.targets()) {
                    if (added.getOrDefault(target, 0.0) == 0) {
                        continue;
                    }
                    add(
                            Key.of("recovery", target, "recovery", "")
                                    .with("kind", "procedure")
                                    .with("level", level),
                            1,
                            "1");
                }
            }
        }
    }

    /** What is in the oil, and what is in the flask relative to its internal standard. */
    private void results() {
        final Map<String, Flask> flasks = new LinkedHashMap<>();
        injections.stream()
                .filter(i -> i.experiment().equals("sample"))
                .forEach(i -> flasks.putIfAbsent(i.flask().label(), i.flask()));
        for (Flask flask : flasks.values()) {
            final Map<String, Double> made = solutions.made(flask);
            final double standard = standard(made) / design.standard().amount().value();
            for (String target : design.targets()) {
                add(
                        Key.of("budget", target, "result", "").with("preparation", flask.label()),
                        design.oils().getOrDefault(flask.oil(), Map.of()).getOrDefault(target, 0.0),
                        "mg/g");
                add(
                        Key.of(CALIBRATION, target, "predicted-amount", "")
                                .with("preparation", flask.label()),
                        made.getOrDefault(target, 0.0) / standard,
                        "mg/L");
            }
        }
    }

    private void add(Key key, double value, String unit) {
        final TrueValue added = new TrueValue(key, value, unit);
        if (values.stream().noneMatch(v -> v.key().equals(key))) {
            values.add(added);
        }
    }

    private static double root(double... parts) {
        double sum = 0;
        for (double part : parts) {
            sum += part * part;
        }
        return Math.sqrt(sum);
    }
}
