package splitledger.planning.ahead;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.base.CsvText;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.virtual.DesignReader;
import splitledger.virtual.Flask;
import splitledger.virtual.Injection;
import splitledger.virtual.VirtualInlet;

/** What new begins for a purpose, its run list filled by the virtual inlet. */
class PurposeTest {
    private static final double NATIVE = 30;

    @ParameterizedTest(name = "{0} answers {1}")
    @CsvSource({
        "full-validation, recovery/recovery",
        "full-validation, split-linearity/split-exponent",
        "full-validation, budget/relative-expanded-uncertainty",
        "after-maintenance, maintenance/restored",
        "detection, detection/method-detection-limit",
        "split-linearity, split-linearity/split-exponent",
        "inlet-temperature, losses/activation-energy",
        "recovery, recovery/recovery",
        "budget, budget/expanded-uncertainty"
    })
    void everyPurposeAnswersItsQuestion(String id, String quantity) throws Exception {
        final Purpose purpose = Purpose.of(id).orElseThrow();
        final Set<String> answered = new TreeSet<>();
        evaluated(purpose).findings().stream()
                .filter(f -> !(f.answer() instanceof Answer.NotEstimable))
                .forEach(f -> answered.add(f.key().characteristic() + "/" + f.key().quantity()));

        assertThat(answered).contains(quantity);
    }

    @Test
    void whatOnlyTheLaboratoryKnowsIsAskedAndNotGuessed() {
        final Purpose purpose = Purpose.RECOVERY;
        final Map<String, byte[]> files = new TreeMap<>(purpose.beside());
        files.put("protocol.yaml", purpose.protocol());
        files.put("areas.csv", "injection,compound A\n".getBytes(StandardCharsets.UTF_8));

        assertThatThrownBy(() -> StudyReader.read(new MemoryVault(files), "protocol.yaml"))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("total-to-column or vent-to-column")
                .hasMessageContaining("correct, include or neither");
    }

    private static Evaluation evaluated(Purpose purpose) throws Exception {
        final Map<String, byte[]> files = new TreeMap<>(purpose.beside());
        final String protocol =
                new String(purpose.protocol(), StandardCharsets.UTF_8)
                        .replace("\"ASK total-to-column or vent-to-column\"", "total-to-column")
                        .replace("margin: \"ASK percent\"", "margin: 10")
                        .replace("scatter: \"ASK percent\"", "scatter: 1")
                        .replaceAll("\"ASK mL, inside[^\"]*\"", "0.98")
                        .replaceAll("\"ASK kPa[^\"]*\"", "201.3")
                        .replaceAll("\"ASK mL/min[^\"]*\"", "1.33")
                        .replaceAll("\"ASK correct[^\"]*\"", "include");
        files.put("protocol.yaml", protocol.getBytes(StandardCharsets.UTF_8));
        if (purpose != Purpose.BUDGET) {
            files.put("areas.csv", areas(purpose));
        }
        return Evaluator.evaluate(
                StudyReader.read(new MemoryVault(files), "protocol.yaml"), Extent.FORMULAS);
    }

    private static byte[] areas(Purpose purpose) throws Exception {
        final List<Run> runs = purpose.runs();
        final Map<String, String> compounds = compounds();
        final VirtualInlet inlet =
                new VirtualInlet(
                        DesignReader.read(
                                "design.yaml",
                                design(purpose, runs, compounds).getBytes(StandardCharsets.UTF_8)),
                        injections(runs));
        final List<String> header = new ArrayList<>(List.of("injection"));
        header.addAll(compounds.keySet());
        final CsvText csv = new CsvText(header);
        for (VirtualInlet.Chromatogram c : inlet.chromatograms()) {
            csv.cell(c.injection().label());
            for (String name : compounds.keySet()) {
                final Double area = c.areas().get(name);
                if (area == null || area == 0) {
                    csv.empty();
                } else {
                    csv.cell((double) area);
                }
            }
            csv.endRow();
        }
        return csv.bytes();
    }

    private static List<Injection> injections(List<Run> runs) {
        return runs.stream()
                .map(
                        r ->
                                new Injection(
                                        r.injection(),
                                        r.order(),
                                        LocalDate.parse(r.date()).atTime(LocalTime.of(8, 0)),
                                        r.series(),
                                        new Flask(
                                                r.preparation(),
                                                r.series().equals("repeatability")
                                                        ? "check"
                                                        : r.level(),
                                                "",
                                                r.day(),
                                                "A"),
                                        r.number(),
                                        r.split(),
                                        r.day() + r.split(),
                                        r.temperature(),
                                        r.day(),
                                        "A",
                                        r.occasion(),
                                        "",
                                        r.onColumn(),
                                        new Injection.Fate(false, Double.POSITIVE_INFINITY)))
                .toList();
    }

    /** Every compound with its line in a design. */
    private static Map<String, String> compounds() {
        final Map<String, String> all = new LinkedHashMap<>();
        all.put("compound A", "{boiling-point: 180, effective-carbon-number: 10, molar-mass: 150}");
        final String table =
                new String(
                        Purpose.INLET_TEMPERATURE.beside().get("compounds.csv"),
                        StandardCharsets.UTF_8);
        table.lines()
                .skip(1)
                .map(line -> line.split(","))
                .forEach(
                        c ->
                                all.put(
                                        c[0],
                                        "{boiling-point: %s, effective-carbon-number: %s, molar-mass: %s}"
                                                .formatted(c[1], c[2], c[3])));
        return all;
    }

    private static String design(Purpose purpose, List<Run> runs, Map<String, String> compounds) {
        final String levels =
                purpose.levels().entrySet().stream()
                        .map(
                                e ->
                                        "  "
                                                + e.getKey()
                                                + ": {"
                                                + e.getValue().entrySet().stream()
                                                        .map(
                                                                a ->
                                                                        a.getKey()
                                                                                + ": "
                                                                                + (a.getValue()
                                                                                        + (e.getKey()
                                                                                                        .startsWith(
                                                                                                                "R")
                                                                                                ? NATIVE
                                                                                                : 0)))
                                                        .collect(Collectors.joining(", "))
                                                + "}\n")
                        .collect(Collectors.joining());
        final String days =
                runs.stream()
                        .map(r -> "{day: " + r.day() + ", date: " + r.date())
                        .distinct()
                        .map(d -> d + ", start: \"08:00\", sessions: []}")
                        .collect(Collectors.joining(", "));
        return RehearsalInlet.INSTRUMENT
                        .replace("STROKE", "1")
                        .replace("PROPORTIONAL", "0")
                        .replace("BETWEEN", "0")
                        .replace("SETTING", "0")
                        .replace("MEMBER", "0")
                        .replace("DILUTION", "0.5")
                        .replace("GAIN", "0.5")
                        .replace("RATIO", "50")
                        .replace("TEMPERATURE", "250")
                        .replace("CONSTANT", "0.02")
                        .replace("TARGETS", "compound A")
                        .replace(
                                "COMPOUNDS",
                                compounds.entrySet().stream()
                                        .map(e -> "  " + e.getKey() + ": " + e.getValue() + "\n")
                                        .collect(Collectors.joining()))
                        .replace("LEVELS", levels)
                        .replace("DAYS", days)
                + """
                loss:
                  parent: linalyl acetate
                  products:
                    myrcene: {value: 100, unit: "%", basis: invented}
                  rate: {value: 0.12, unit: 1/s, basis: invented}
                  rate-temperature: {value: 250, unit: degC, basis: invented}
                  activation-energy: {value: 80, unit: kJ/mol, basis: invented}
                """;
    }
}
