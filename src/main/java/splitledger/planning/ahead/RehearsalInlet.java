package splitledger.planning.ahead;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.base.ProblemException;
import splitledger.virtual.Design;
import splitledger.virtual.DesignReader;
import splitledger.virtual.Flask;
import splitledger.virtual.Injection;
import splitledger.virtual.VirtualInlet;

/** An instrument that scatters as a plan assumes and does nothing else. */
final class RehearsalInlet {
    private static final double PERCENT = 100;
    private static final double RESPONSE = 15;
    private static final double CARBON_SHARE = 10 * 12.011 / 150;

    /** What every ratio to an internal standard is free of. */
    private static final double CANCELS = 2;

    /** mg/g that give 1 mg/L with portion and volume of the design. */
    private static final double FRACTION = 0.2;

    private static final double LINER = 0.98;
    private static final double PRESSURE = 201.3;
    private static final double COLUMN = 1.33;
    private static final double KELVIN = 273.15;
    private static final double STANDARD_PRESSURE = 101.325;
    private static final double ROOM = 298.15;
    private static final String SAMPLE = "material";
    private static final String NATIVE = "as-it-is";
    private static final String SPIKE = "spike";
    private static final String SPLIT = "split";
    private static final String DAY = ", start: \"08:00\", sessions: []}";

    private final StudyPlan plan;
    private final PlanFile file;
    private final List<Run> runs;
    private final Design design;

    RehearsalInlet(StudyPlan plan, List<Run> runs) {
        this.plan = plan;
        this.file = plan.file();
        this.runs = runs;
        this.design = instrument();
    }

    /** Every planned injection of one study. */
    List<VirtualInlet.Chromatogram> chromatograms(long seed) {
        return new VirtualInlet(design.seeded(seed), runs.stream().map(this::injection).toList())
                .chromatograms();
    }

    /** Columns of the table of areas. */
    List<String> compounds() {
        final Set<String> all = new LinkedHashSet<>(file.targets());
        file.standard().ifPresent(s -> all.add(s.compound()));
        file.labile().ifPresent(l -> all.addAll(l.products()));
        plan.design().experiments().forEach(e -> all.addAll(e.ladder()));
        return List.copyOf(all);
    }

    /** The protocol with what this instrument is where the laboratory is asked. */
    String answered(String protocol) {
        return protocol.replaceAll("\"ASK mL, inside[^\"]*\"", Numbers.text(LINER))
                .replaceAll("\"ASK kPa[^\"]*\"", Numbers.text(PRESSURE))
                .replaceAll("\"ASK mL/min[^\"]*\"", Numbers.text(COLUMN));
    }

    private Injection injection(Run run) {
        return new Injection(
                run.injection(),
                run.order(),
                LocalDate.parse(run.date())
                        .atTime(LocalTime.of(8, 0))
                        .plusMinutes(20L * run.order()),
                run.series(),
                flask(run),
                run.number(),
                run.split(),
                run.series().equals(SPLIT) ? run.day() + "/" + run.split() : "working",
                run.temperature(),
                run.day(),
                "A",
                run.occasion(),
                "",
                run.onColumn(),
                new Injection.Fate(false, Double.POSITIVE_INFINITY));
    }

    /** Samples hold the amount at which the uncertainty is wanted. */
    private static Flask flask(Run run) {
        final boolean sample =
                run.series().equals("repeatability") || run.series().equals("sample");
        final String material = sample ? SAMPLE : run.series().equals(SPIKE) ? NATIVE : "";
        return new Flask(run.preparation(), run.level(), material, run.day(), "A");
    }

    private Design instrument() {
        final PlanFile.Prior prior = file.prior();
        final boolean ratio = file.standard().isPresent();
        final double area = RESPONSE * CARBON_SHARE / file.setting().split();
        final double constant = area * prior.blank().map(PlanFile.Known::value).orElse(0.0);
        final double injection = PERCENT * prior.injection().value();
        final double day = PERCENT * prior.day().value();
        final double stroke = PERCENT * file.range().area().value();
        final Map<String, String> words = new LinkedHashMap<>();
        words.put("STROKE", Numbers.text(ratio ? stroke : 0));
        words.put("PROPORTIONAL", Numbers.text(ratio ? injection / FastMath.sqrt(2) : injection));
        words.put("GAIN", Numbers.text(ratio ? CANCELS : day));
        words.put("BETWEEN", Numbers.text(ratio ? day : 0));
        words.put("DILUTION", Numbers.text(PERCENT * prior.preparation().value()));
        words.put("SETTING", Numbers.text(PERCENT * file.range().setting().value()));
        words.put("MEMBER", Numbers.text(PERCENT * member()));
        words.put("RATIO", Numbers.text(file.setting().split()));
        words.put("TEMPERATURE", Numbers.text(file.setting().temperature()));
        words.put("CONSTANT", Numbers.text(constant));
        words.put("TARGETS", file.targets().stream().map(PlanProtocol::quoted).collect(LIST));
        words.put("COMPOUNDS", compoundLines());
        words.put("LEVELS", levels());
        words.put("DAYS", days());
        String text = INSTRUMENT;
        for (Map.Entry<String, String> word : words.entrySet()) {
            text = text.replace(word.getKey(), word.getValue());
        }
        try {
            return DesignReader.read(
                    "rehearsal",
                    (text + standard() + materials() + loss()).getBytes(StandardCharsets.UTF_8));
        } catch (ProblemException e) {
            throw new IllegalStateException("the instrument of the rehearsal is wrong", e);
        }
    }

    private static final java.util.stream.Collector<CharSequence, ?, String> LIST =
            Collectors.joining(", ");

    private double member() {
        return plan.design().experiments().stream().anyMatch(e -> !e.ladder().isEmpty())
                ? file.range().member().value()
                : 0;
    }

    private String standard() {
        return file.standard()
                .map(
                        s ->
                                "internal-standard: {compound: "
                                        + PlanProtocol.quoted(s.compound())
                                        + ", amount: {value: "
                                        + Numbers.text(s.amount())
                                        + ", unit: mg/L, basis: plan}}\n")
                .orElse("");
    }

    private String materials() {
        return "oils:\n"
                + each(SAMPLE, FRACTION * file.amounts().result())
                + each(NATIVE, FRACTION * RecoveryExperiment.there(file.amounts()));
    }

    /** The rate that gives the expected breakdown in the time that the vapour stays. */
    private String loss() {
        if (file.labile().isEmpty()) {
            return "";
        }
        final PlanFile.Labile labile = file.labile().get();
        final double seconds =
                60
                        * LINER
                        * PRESSURE
                        / STANDARD_PRESSURE
                        * ROOM
                        / (file.setting().temperature() + KELVIN)
                        / (file.setting().split() * COLUMN);
        final double share = PERCENT / labile.products().size();
        final StringBuilder products = new StringBuilder();
        for (String product : labile.products()) {
            products.append("    ")
                    .append(PlanProtocol.quoted(product))
                    .append(": {value: ")
                    .append(Numbers.text(share))
                    .append(", unit: \"%\", basis: plan}\n");
        }
        return "loss:\n  parent: "
                + PlanProtocol.quoted(labile.parent())
                + "\n  products:\n"
                + products
                + "  rate: {value: "
                + Numbers.text(-FastMath.log1p(-labile.breakdown().value()) / seconds)
                + ", unit: 1/s, basis: plan}\n  rate-temperature: {value: "
                + Numbers.text(file.setting().temperature())
                + ", unit: degC, basis: plan}\n  activation-energy: {value: "
                + Numbers.text(labile.energy().value())
                + ", unit: kJ/mol, basis: plan}\n";
    }

    private String compoundLines() {
        final Map<String, String> known = new LinkedHashMap<>();
        LadderExperiment.table()
                .lines()
                .skip(1)
                .map(line -> line.split(",", -1))
                .forEach(
                        c ->
                                known.put(
                                        c[0],
                                        "{boiling-point: "
                                                + c[1]
                                                + ", effective-carbon-number: "
                                                + c[2]
                                                + ", molar-mass: "
                                                + c[3]
                                                + "}"));
        final Set<String> ladder = new LinkedHashSet<>();
        plan.design().experiments().forEach(e -> ladder.addAll(e.ladder()));
        final StringBuilder text = new StringBuilder();
        for (String compound : compounds()) {
            text.append("  ")
                    .append(PlanProtocol.quoted(compound))
                    .append(": ")
                    .append(ladder.contains(compound) ? known.getOrDefault(compound, PLAIN) : PLAIN)
                    .append('\n');
        }
        return text.toString();
    }

    private static final String PLAIN =
            "{boiling-point: 180, effective-carbon-number: 10, molar-mass: 150}";

    /** Days without injections of their own: the run list has them. */
    private String days() {
        return runs.stream()
                .map(run -> "{day: " + run.day() + ", date: " + run.date() + DAY)
                .distinct()
                .collect(LIST);
    }

    private String levels() {
        final StringBuilder text = new StringBuilder();
        final List<Double> amounts = plan.design().amounts(file.amounts());
        final List<String> labels = Bench.levels(plan.design());
        for (int i = 0; i < labels.size(); i++) {
            text.append(each(labels.get(i), amounts.get(i)));
        }
        if (plan.design().spiked() > 0) {
            text.append(each(Bench.SPIKE, PlanProtocol.spiked(plan)));
        }
        text.append(each(RunOrder.CHECK, file.amounts().result()));
        for (Experiment e : plan.design().experiments()) {
            e.levels().forEach((label, of) -> text.append(line(label, of)));
        }
        return text.toString();
    }

    private String each(String label, double amount) {
        final Map<String, Double> all = new LinkedHashMap<>();
        file.targets().forEach(t -> all.put(t, amount));
        return line(label, all);
    }

    private static String line(String label, Map<String, Double> amounts) {
        final List<String> all = new ArrayList<>();
        amounts.forEach((c, a) -> all.add(PlanProtocol.quoted(c) + ": " + Numbers.text(a)));
        return "  " + label + ": {" + String.join(", ", all) + "}\n";
    }

    /** A design without injections; words in capitals are replaced. */
    static final String INSTRUMENT =
            """
            splitledger-design: 1
            title: rehearsal
            seed: 1
            inlet:
              injected-volume: {value: 1, unit: uL, basis: plan}
              stroke-scatter: {value: STROKE, unit: "%", basis: plan}
              split-ratio: {value: RATIO, unit: "1", basis: plan}
              split-setting-scatter: {value: SETTING, unit: "%", basis: plan}
              temperature: {value: TEMPERATURE, unit: degC, basis: plan}
              column-flow: {value: 1.33, unit: mL/min, basis: plan}
              liner-volume: {value: 0.98, unit: mL, basis: plan}
              pressure: {value: 201.3, unit: kPa, basis: plan}
              run-time: {value: 20, unit: min, basis: plan}
            discrimination:
              heavy-end-loss: {value: 0, unit: "%", basis: plan}
              midpoint: {value: 520, unit: degC, basis: plan}
              width: {value: 60, unit: degC, basis: plan}
              scatter-per-100-degC: {value: 0, unit: "%", basis: plan}
              scatter-from: {value: 125, unit: degC, basis: plan}
            detector:
              response: {value: 15, unit: pA*s/ng, basis: plan}
              response-deviation: {value: MEMBER, unit: "%", basis: plan}
              day-gain: {value: GAIN, unit: "%", basis: plan}
            integration:
              constant: {value: CONSTANT, unit: pA*s, basis: plan}
              proportional: {value: PROPORTIONAL, unit: "%", basis: plan}
              threshold: {value: 0, unit: pA*s, basis: plan}
              significant-digits: 6
            preparation:
              dilution: {value: DILUTION, unit: "%", basis: plan}
              internal-standard-addition: {value: 0, unit: "%", basis: plan}
              balance: {value: 0, unit: mg, basis: plan}
              flask-volume: {value: 0, unit: mL, basis: plan}
              volume: {value: 10, unit: mL, basis: plan}
              portion: {from: 50, to: 50, unit: mg, basis: plan}
              between-days: {value: BETWEEN, unit: "%", basis: plan}
              between-analysts: {value: 0, unit: "%", basis: plan}
            targets: [TARGETS]
            forced-integration: [TARGETS]
            compounds:
            COMPOUNDS
            levels:
            LEVELS
            days: [DAYS]
            """;
}
