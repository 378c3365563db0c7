package splitledger.planning.ahead;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.base.CsvText;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.virtual.VirtualInlet;

/**
 * A planned study made on the virtual inlet: the planned run list is filled with areas of an
 * instrument that scatters as the plan assumes, and the planned protocol evaluates them. What the
 * plan says of scatter it says of responses. With an internal standard these are ratios: there
 * volume, split and gain scatter far more, and cancel, and what the plan says is scatter of the two
 * peaks, of their solutions and of what days do to a sample.
 */
public final class Rehearsal {
    private static final double PERCENT = 100;
    private static final String AREAS = "areas.csv";
    private static final String PROTOCOL = PlanFiles.PROTOCOL;

    private final StudyPlan plan;
    private final PlanFiles files;
    private final RehearsalInlet inlet;

    /** A plan and what it left. */
    public Rehearsal(StudyPlan plan, PlanFiles files) {
        this.plan = plan.with(plan.file().rehearsed());
        this.files = files;
        this.inlet = new RehearsalInlet(this.plan, files.runs());
    }

    /** The planned files, the areas of one study among them. */
    public Map<String, byte[]> study(long seed) {
        final List<String> columns = inlet.compounds();
        final List<String> header = new ArrayList<>(List.of("injection"));
        header.addAll(columns);
        final CsvText csv = new CsvText(header);
        for (VirtualInlet.Chromatogram c : inlet.chromatograms(seed)) {
            csv.cell(c.injection().label());
            for (String compound : columns) {
                final Double area = c.areas().get(compound);
                if (area == null || area == 0) {
                    csv.empty();
                } else {
                    csv.cell((double) area);
                }
            }
            csv.endRow();
        }
        final Map<String, byte[]> all = new LinkedHashMap<>(files.files());
        final String protocol =
                new String(new PlanProtocol(plan, files.runs()).text(), StandardCharsets.UTF_8);
        all.put(PROTOCOL, inlet.answered(protocol).getBytes(StandardCharsets.UTF_8));
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
        return expanded(evaluated(seed));
    }

    private OptionalDouble expanded(Evaluation evaluation) {
        return evaluation.findings().stream()
                .filter(f -> f.key().quantity().equals("relative-expanded-uncertainty"))
                .filter(f -> f.key().compound().equals(plan.file().targets().get(0)))
                .filter(f -> f.key().conditionText().equals("level=" + Bench.nearest(plan)))
                .filter(f -> f.answer() instanceof Answer.Statistic)
                .mapToDouble(f -> ((Answer.Statistic) f.answer()).value() / PERCENT)
                .findFirst();
    }

    /** Half width of the interval that an evaluated study gives the figure of an experiment. */
    OptionalDouble half(Evaluation evaluation, Experiment experiment) {
        return evaluation.findings().stream()
                .filter(f -> f.key().quantity().equals(experiment.figure()))
                .filter(f -> f.key().compound().equals(experiment.compound()))
                .filter(f -> !f.key().conditionText().contains("level="))
                .filter(f -> f.answer() instanceof Answer.Estimate)
                .map(f -> (Answer.Estimate) f.answer())
                .mapToDouble(e -> (e.upper() - e.lower()) / 2)
                .findFirst();
    }

    /** How many of so many studies reach what is wanted, in words, a line for each wish. */
    public List<String> words(int studies) {
        final List<Experiment> experiments = plan.design().experiments();
        final int[] reached = new int[experiments.size() + 1];
        for (int i = 0; i < studies; i++) {
            final Evaluation evaluation = evaluated(i + 1L);
            final double wanted = plan.file().wanted().uncertainty().orElse(0.0);
            reached[0] += expanded(evaluation).orElse(Double.MAX_VALUE) <= wanted ? 1 : 0;
            for (int k = 0; k < experiments.size(); k++) {
                final Experiment e = experiments.get(k);
                reached[k + 1] +=
                        half(evaluation, e).orElse(Double.MAX_VALUE) <= e.wanted() ? 1 : 0;
            }
        }
        final List<String> lines = new ArrayList<>();
        if (plan.file().wanted().uncertainty().isPresent()) {
            lines.add(line(reached[0], studies, "expanded uncertainty", plan.promised()));
        }
        for (int k = 0; k < experiments.size(); k++) {
            final Experiment e = experiments.get(k);
            lines.add(line(reached[k + 1], studies, "half width of " + e.figure(), e.chance()));
        }
        return lines;
    }

    private static String line(int reached, int studies, String what, double promised) {
        return reached
                + " of "
                + studies
                + " studies on the virtual inlet find no more than the wanted "
                + what
                + "; promised "
                + PlanWords.digits(PERCENT * promised)
                + " %";
    }
}
