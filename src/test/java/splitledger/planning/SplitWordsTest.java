package splitledger.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.Choice;
import splitledger.study.Extent;
import splitledger.study.Tree;
import splitledger.virtual.Design;
import splitledger.virtual.DesignReader;

/**
 * Whether the words about the split are right, over simulated studies of the shipped bench
 * protocol: at least nine of ten where something is clearly wrong, wrong words in fewer than one of
 * twenty where nothing is. Each share may lie beside its limit by two standard errors of that many
 * studies.
 */
class SplitWordsTest {
    private static final Path DESIGN = Path.of("datasets", "split-linearity", "design.yaml");
    private static final int STUDIES = 60;

    private static final String CLEAN = "No departure from the split ratio is seen";
    private static final String CONVENTION =
            "consistent with a split ratio of the other convention";
    private static final String POWER = "follows a power of the split ratio";
    private static final String BOILING = "exponent changes with the boiling point";

    private static final String OFFSET = "depart at low ratios as if a flow were left out";
    private static final String AREAS = "Compounds with the largest areas fall behind";

    /** One solution at all ratios, its compounds in unlike amounts. */
    private static final String ONE_SOLUTION =
            "levels: {ONE: {n-C10: 40, n-C12: 800, n-C14: 100, n-C16: 400, n-C18: 200, n-C20: 60}}\n";

    /** Shares of studies by the words that they gave. */
    static Map<String, Double> shares(String effects, int studies)
            throws IOException, ProblemException {
        return shares(Files.readString(DESIGN), effects, studies);
    }

    private static Map<String, Double> shares(String text, String effects, int studies)
            throws IOException, ProblemException {
        final Tree.Mapping plain =
                YamlReader.read("design.yaml", text.getBytes(StandardCharsets.UTF_8));
        final Map<String, Double> shares = new LinkedHashMap<>();
        for (int seed = 1; seed <= studies; seed++) {
            final String own = "seed: " + seed + "\n" + effects;
            final Design design =
                    DesignReader.read(
                            "design.yaml",
                            plain.with(
                                    YamlReader.read(
                                            "own.yaml", own.getBytes(StandardCharsets.UTF_8))));
            final List<String> words =
                    Coverage.evaluated(design, Extent.FORMULAS).choices().stream()
                            .filter(c -> c.characteristic().equals("split-linearity"))
                            .map(Choice::what)
                            .toList();
            for (String word : List.of(CLEAN, CONVENTION, POWER, BOILING, OFFSET, AREAS)) {
                if (words.stream().anyMatch(w -> w.contains(word))) {
                    shares.merge(word, 1.0 / studies, Double::sum);
                }
            }
        }
        return shares;
    }

    private static double beside(double share) {
        return 2 * Math.sqrt(share * (1 - share) / STUDIES);
    }

    private static void assertWords(String effects, String right)
            throws IOException, ProblemException {
        final Map<String, Double> shares = shares(effects, STUDIES);

        assertThat(shares.getOrDefault(right, 0.0)).isGreaterThan(0.9 - beside(0.9));
        assertThat(shares.getOrDefault(CLEAN, 0.0)).isLessThan(0.1 + beside(0.1));
    }

    @Test
    void aCleanSplitIsCalledClean() throws IOException, ProblemException {
        assertThat(shares("", STUDIES).getOrDefault(CLEAN, 0.0)).isGreaterThan(0.95 - beside(0.95));
    }

    @Test
    void theOtherConventionIsNamed() throws IOException, ProblemException {
        assertWords("split: {table: vent-to-column, protocol: total-to-column}\n", CONVENTION);
    }

    @Test
    void anExponentOtherThanOneIsNamed() throws IOException, ProblemException {
        assertWords("split: {exponent: {value: 0.95, unit: \"1\", basis: invented}}\n", POWER);
    }

    @Test
    void anExponentThatChangesWithTheBoilingPointIsNamed() throws IOException, ProblemException {
        assertWords(
                "split: {exponent-slope: {value: 0.02, unit: \"1/(100 degC)\", basis: invented},"
                        + " exponent-at: {value: 260, unit: degC, basis: invented}}\n",
                BOILING);
    }

    @Test
    void aLeakThatIsInNoRatioIsNamed() throws IOException, ProblemException {
        assertWords("split: {leak: {value: 3, unit: \"1\", basis: invented}}\n", OFFSET);
    }

    @Test
    void aSaturatingDetectorIsNamedAndItsLinearFellowIsNot() throws IOException, ProblemException {
        final String one = Files.readString(DESIGN).replaceAll("levels: M[0-9]+,", "levels: ONE,");
        final String detector =
                "detector: {response: {value: 15, unit: pA*s/ng, basis: invented},"
                        + " response-deviation: {value: 0.8, unit: \"%\", basis: invented},"
                        + " day-gain: {value: 1.5, unit: \"%\", basis: invented}";
        final Map<String, Double> saturated =
                shares(
                        one,
                        ONE_SOLUTION
                                + detector
                                + ", saturation: {value: 8000, unit: pA*s, basis: invented}}\n",
                        STUDIES);
        final Map<String, Double> linear = shares(one, ONE_SOLUTION + detector + "}\n", STUDIES);

        assertThat(saturated.getOrDefault(AREAS, 0.0)).isGreaterThan(0.9 - beside(0.9));
        assertThat(linear.getOrDefault(CLEAN, 0.0)).isGreaterThan(0.95 - beside(0.95));
    }
}
