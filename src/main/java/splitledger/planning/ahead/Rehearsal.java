package splitledger.planning.ahead;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.base.CsvText;
import splitledger.base.MemoryVault;
import splitledger.base.Numbers;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.virtual.Design;
import splitledger.virtual.DesignReader;
import splitledger.virtual.Flask;
import splitledger.virtual.Injection;
import splitledger.virtual.VirtualInlet;

/**
 * A planned study made on the virtual inlet: the planned run list is filled with areas of an
 * instrument that scatters as the plan assumes, and the planned protocol evaluates them. What the
 * plan says of scatter it says of responses: there is no internal standard here, whose gain would
 * be counted twice.
 */
public final class Rehearsal {
    private static final double PERCENT = 100;
    private static final String AREAS = "areas.csv";
    private static final String PROTOCOL = PlanFiles.PROTOCOL;
    private static final double RESPONSE = 15;
    private static final double CARBON_SHARE = 10 * 12.011 / 150;

    private static final String DAY = ", start: \"08:00\", sessions: []}";

    private final StudyPlan plan;
    private final PlanFiles files;
    private final Design design;

    /** A plan and what it left. */
    public Rehearsal(StudyPlan plan, PlanFiles files) {
        this.plan = plan.with(plan.file().rehearsed());
        this.files = files;
        this.design = instrument();
    }

    /** The planned files, the areas of one study among them. */
    public Map<String, byte[]> study(long seed) {
        final VirtualInlet inlet = new VirtualInlet(design.seeded(seed), injections());
        final List<String> header = new ArrayList<>(List.of("injection"));
        header.addAll(plan.file().targets());
        final CsvText csv = new CsvText(header);
        for (VirtualInlet.Chromatogram c : inlet.chromatograms()) {
            csv.cell(c.injection().label());
            for (String target : plan.file().targets()) {
                final Double area = c.areas().get(target);
                if (area == null || area == 0) {
                    csv.empty();
                } else {
                    csv.cell((double) area);
                }
            }
            csv.endRow();
        }
        final Map<String, byte[]> all = new LinkedHashMap<>(files.files());
        all.put(PROTOCOL, new PlanProtocol(plan, files.runs()).text());
        all.put(AREAS, csv.bytes());
        return all;
    }

    /** One study, evaluated. */
    public Evaluation evaluated(long seed) {
        try {
            return Evaluator.evaluate(
                    StudyReader.read(new MemoryVault(study(seed)), PROTOCOL), Extent.FORMULAS);
        } catch (ProblemException e) {
            throw new IllegalStateException("the planned tables are refused", e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * The relative expanded uncertainty that a study finds at the level nearest to the result, as a
     * fraction, of the first compound; empty if it finds none.
     */
    public OptionalDouble found(long seed) {
        return evaluated(seed).findings().stream()
                .filter(f -> f.key().quantity().equals("relative-expanded-uncertainty"))
                .filter(f -> f.key().compound().equals(plan.file().targets().get(0)))
                .filter(f -> f.key().conditionText().equals("level=" + Bench.nearest(plan)))
                .filter(f -> f.answer() instanceof Answer.Statistic)
                .mapToDouble(f -> ((Answer.Statistic) f.answer()).value() / PERCENT)
                .findFirst();
    }

    /** How many of so many studies reach the wanted uncertainty, in words. */
    public String words(int studies) {
        final double wanted = plan.file().wanted().uncertainty().orElseThrow();
        int reached = 0;
        for (int i = 0; i < studies; i++) {
            final OptionalDouble found = found(i + 1L);
            reached += found.isPresent() && found.getAsDouble() <= wanted ? 1 : 0;
        }
        return reached
                + " of "
                + studies
                + " studies on the virtual inlet find no more than the wanted uncertainty; promised"
                + " "
                + PlanWords.digits(PERCENT * plan.promised())
                + " %";
    }

    private List<Injection> injections() {
        final List<Injection> all = new ArrayList<>();
        for (Run run : files.runs()) {
            all.add(
                    new Injection(
                            run.injection(),
                            run.order(),
                            LocalDate.parse(run.date())
                                    .atTime(LocalTime.of(8, 0))
                                    .plusMinutes(20L * run.order()),
                            run.series(),
                            new Flask(run.preparation(), content(run), "", run.day(), "A"),
                            run.number(),
                            run.split(),
                            run.day(),
                            run.temperature(),
                            run.day(),
                            "A",
                            run.occasion(),
                            "",
                            run.onColumn(),
                            new Injection.Fate(false, Double.POSITIVE_INFINITY)));
        }
        return all;
    }

    /** What is in a solution; samples hold the amount at which the uncertainty is wanted. */
    private static String content(Run run) {
        return run.series().equals("repeatability") || run.series().equals("sample")
                ? RunOrder.CHECK
                : run.level();
    }

    /** An instrument that scatters as assumed and does nothing else. */
    private Design instrument() {
        final PlanFile file = plan.file();
        final PlanFile.Prior prior = file.prior();
        final double area = RESPONSE * CARBON_SHARE / file.setting().split();
        final double constant = area * prior.blank().map(PlanFile.Known::value).orElse(0.0);
        final String text =
                INSTRUMENT
                        .replace("STROKE", percent(prior.injection()))
                        .replace("DILUTION", percent(prior.preparation()))
                        .replace("GAIN", percent(prior.day()))
                        .replace("RATIO", Numbers.text(file.setting().split()))
                        .replace("TEMPERATURE", Numbers.text(file.setting().temperature()))
                        .replace("CONSTANT", Numbers.text(constant))
                        .replace("TARGETS", targets())
                        .replace("COMPOUNDS", compounds())
                        .replace("LEVELS", levels())
                        .replace("DAYS", days());
        try {
            return DesignReader.read("rehearsal", text.getBytes(StandardCharsets.UTF_8));
        } catch (ProblemException e) {
            throw new IllegalStateException("the instrument of the rehearsal is wrong", e);
        }
    }

    private static String percent(PlanFile.Known known) {
        return Numbers.text(PERCENT * known.value());
    }

    private String targets() {
        return String.join(", ", plan.file().targets().stream().map(PlanProtocol::quoted).toList());
    }

    private String compounds() {
        final StringBuilder text = new StringBuilder();
        for (String target : plan.file().targets()) {
            text.append("  ")
                    .append(PlanProtocol.quoted(target))
                    .append(
                            ": {boiling-point: 180, effective-carbon-number: 10, molar-mass:"
                                    + " 150}\n");
        }
        return text.toString();
    }

    /** Days without injections of their own: the run list has them. */
    private String days() {
        return files.runs().stream()
                .map(run -> "{day: " + run.day() + ", date: " + run.date() + DAY)
                .distinct()
                .collect(java.util.stream.Collectors.joining(", "));
    }

    private String levels() {
        final StringBuilder text = new StringBuilder();
        final List<Double> amounts = plan.design().amounts(plan.file().amounts());
        final List<String> labels = Bench.levels(plan.design());
        for (int i = 0; i < labels.size(); i++) {
            level(text, labels.get(i), amounts.get(i));
        }
        if (plan.design().spiked() > 0) {
            level(text, Bench.SPIKE, PlanProtocol.spiked(plan));
        }
        level(text, RunOrder.CHECK, plan.file().amounts().result());
        return text.toString();
    }

    private void level(StringBuilder text, String label, double amount) {
        final String each = ": " + Numbers.text(amount);
        text.append("  ")
                .append(label)
                .append(": {")
                .append(
                        String.join(
                                ", ",
                                plan.file().targets().stream()
                                        .map(t -> PlanProtocol.quoted(t) + each)
                                        .toList()))
                .append("}\n");
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
              split-setting-scatter: {value: 0, unit: "%", basis: plan}
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
              response-deviation: {value: 0, unit: "%", basis: plan}
              day-gain: {value: GAIN, unit: "%", basis: plan}
            integration:
              constant: {value: CONSTANT, unit: pA*s, basis: plan}
              proportional: {value: 0, unit: "%", basis: plan}
              threshold: {value: 0, unit: pA*s, basis: plan}
              significant-digits: 6
            preparation:
              dilution: {value: DILUTION, unit: "%", basis: plan}
              internal-standard-addition: {value: 0, unit: "%", basis: plan}
              balance: {value: 0, unit: mg, basis: plan}
              flask-volume: {value: 0, unit: mL, basis: plan}
              volume: {value: 10, unit: mL, basis: plan}
              portion: {from: 50, to: 50, unit: mg, basis: plan}
              between-days: {value: 0, unit: "%", basis: plan}
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
