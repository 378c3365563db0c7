package splitledger.characteristic.discrimination;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.base.MemoryVault;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Choice;
import splitledger.study.Extent;

/** What widths and vials say about heavy peaks, on ladders made for one cause each. */
class LadderWidthsTest {
    private static final int MEMBERS = 12;
    private static final int VIALS = 3;

    /**
     * Members at 100, 120, ... degC of equal mass and carbon number; the three heaviest are
     * changed.
     *
     * @param low share of the response that is left of them
     * @param wide how much wider they are than the steady growth of 2 % a member
     * @param vial by how much the vials differ in them
     */
    private static List<String> words(double low, double wide, double vial) throws Exception {
        final StringBuilder compounds =
                new StringBuilder("name,boiling_point,source,effective_carbon_number,molar_mass\n");
        final StringBuilder table =
                new StringBuilder("injection,compound,area,width,vial,series,amount\n");
        final StringBuilder ladder = new StringBuilder();
        for (int m = 1; m <= MEMBERS; m++) {
            ladder.append(m == 1 ? "" : ", ").append("m").append(m);
            compounds.append("m").append(m).append(',').append(80 + 20 * m);
            compounds.append(",invented,10,100\n");
            final double share = m > MEMBERS - 3 ? 1 - (1 - low) * (m - MEMBERS + 3) / 3 : 1;
            final double broad = m > MEMBERS - 3 ? wide : 1;
            for (int i = 0; i < 3 * VIALS; i++) {
                final double noise = 1 + 0.002 * ((5 * m + 3 * i) % 7 - 3);
                final double own = m > MEMBERS - 3 ? 1 + vial * (i / 3 - 1) : 1;
                table.append(i).append(",m").append(m).append(',');
                table.append(100 * share * own * noise).append(',');
                table.append(2 * StrictMath.pow(1.02, m) * broad * noise);
                table.append(",v").append(i / 3).append(",ladder,10\n");
            }
        }
        final String protocol =
                "splitledger: 1\ntitle: widths\ntables: [{file: areas.csv}]\n"
                        + "compounds: {from: compounds.csv, targets: [m2], ladder: ["
                        + ladder
                        + "]}\ncharacteristics: {discrimination: {where: {series: ladder}, reference: m1}}\n";
        final MemoryVault vault =
                new MemoryVault(
                        Map.of(
                                "areas.csv",
                                table.toString().getBytes(StandardCharsets.UTF_8),
                                "compounds.csv",
                                compounds.toString().getBytes(StandardCharsets.UTF_8),
                                "p.yaml",
                                protocol.getBytes(StandardCharsets.UTF_8)));
        return Evaluator.evaluate(StudyReader.read(vault, "p.yaml"), Extent.FORMULAS)
                .choices()
                .stream()
                .filter(c -> c.characteristic().equals("discrimination"))
                .map(Choice::what)
                .toList();
    }

    @Test
    void broadAndLowIsAColdPlace() throws Exception {
        assertThat(words(0.7, 3, 0))
                .anyMatch(w -> w.contains("consistent with a cold place"))
                .noneMatch(w -> w.contains("consistent with precipitation"));
    }

    @Test
    void lowAtTheirWidthAndUnlikeFromVialToVialIsPrecipitation() throws Exception {
        assertThat(words(0.7, 1, 0.1))
                .anyMatch(w -> w.contains("a cold place is not seen"))
                .anyMatch(w -> w.contains("consistent with precipitation"));
    }

    @Test
    void lowAtTheirWidthInEveryVialIsNeither() throws Exception {
        assertThat(words(0.7, 1, 0))
                .anyMatch(w -> w.contains("a cold place is not seen"))
                .anyMatch(w -> w.contains("do not differ from vial to vial"));
    }

    @Test
    void anEvenLadderKeepsItsWidths() throws Exception {
        assertThat(words(1, 1, 0)).anyMatch(w -> w.contains("Peaks keep their width"));
    }
}
