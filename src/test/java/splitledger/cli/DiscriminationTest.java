package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Ladders whose answer is worked by hand, through the whole command. */
class DiscriminationTest {
    private static final double[] STEPS = {1.0, 1.02, 0.97};

    @TempDir Path folder;

    /**
     * Members at 100, 120, ... degC of equal carbon number and molar mass; 10 of each; the response
     * of member i is 100 factor(i), injections differ by what all members share.
     */
    private String evaluated(int members, double perStep, String options) throws IOException {
        final StringBuilder table = new StringBuilder("injection,compound,area,series,amount\n");
        final StringBuilder compounds =
                new StringBuilder(
                        """
                        name,boiling_point,source,effective_carbon_number,molar_mass
                        inside,110,invented,10,100
                        outside,900,invented,10,100
                        """);
        final StringBuilder ladder = new StringBuilder();
        for (int i = 1; i <= members; i++) {
            compounds.append("m").append(i).append(',').append(80 + 20 * i);
            compounds.append(",invented,10,100\n");
            ladder.append(i == 1 ? "" : ", ").append("m").append(i);
            for (int j = 0; j < STEPS.length; j++) {
                // members scatter by turns of 1 part in 1000, so that there is a scatter
                final double own = 1 + (i % 2 == 0 ? 0.001 : -0.001);
                final double area = 100 * STEPS[j] * own * StrictMath.exp(perStep * (i - 1));
                table.append(j).append(",m").append(i).append(',').append(area);
                table.append(",ladder,10\n");
            }
        }
        for (int j = 0; j < STEPS.length; j++) {
            table.append(j)
                    .append(",inside,0.1,other,\n")
                    .append(j)
                    .append(",outside,0.1,other,\n");
        }
        Files.writeString(folder.resolve("areas.csv"), table.toString());
        Files.writeString(folder.resolve("compounds.csv"), compounds.toString());
        Files.writeString(
                folder.resolve("p.yaml"),
                "splitledger: 1\ntitle: worked by hand\ntables: [{file: areas.csv}]\n"
                        + "compounds: {from: compounds.csv, targets: [inside, outside], ladder: ["
                        + ladder
                        + "]}\ncharacteristics: {discrimination: {where: {series: ladder}, reference: m1"
                        + options
                        + "}}\n");
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        folder.resolve("p.yaml").toString(),
                        "--out",
                        folder.resolve("out").toString());
        assertThat(ran.exit()).as(ran.err()).isEqualTo(0);
        return Files.readString(folder.resolve("out/report.html"));
    }

    private List<String> row(String compound, String quantity) {
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        final int name = rows.get(0).indexOf("quantity");
        final int of = rows.get(0).indexOf("compound");
        return rows.stream()
                .filter(r -> r.get(name).equals(quantity) && r.get(of).equals(compound))
                .findFirst()
                .orElseThrow();
    }

    private String cell(String compound, String quantity, String column) {
        final List<String> header = Bench.rows(folder.resolve("out/results.csv")).get(0);
        return row(compound, quantity).get(header.indexOf(column));
    }

    private double value(String compound, String quantity) {
        return Double.parseDouble(cell(compound, quantity, "value"));
    }

    @Test
    void aSteadyFallOfOnePercentAStepIsFoundAsSuch() throws IOException {
        evaluated(12, -0.01, "");

        // 11 steps and both members off by one part in a thousand
        assertThat(value("m12", "heavy-to-light-ratio"))
                .isCloseTo(StrictMath.exp(-0.11) * 1.001 / 0.999, within(1e-9));
        // 5 steps of 20 degC in 100 degC
        assertThat(value("", "discrimination-per-100C"))
                .isCloseTo(100 * StrictMath.expm1(-0.05), within(0.05));
        // half a step from the reference
        assertThat(value("inside", "discrimination-factor"))
                .isCloseTo(StrictMath.exp(-0.005), within(0.001));
        assertThat(cell("", "onset-boiling-point", "status")).isEqualTo("not-estimable");
    }

    @Test
    void aFactorBeyondTheLadderIsRefusedUnlessAskedForAndThenMarked() throws IOException {
        evaluated(12, -0.01, "");
        assertThat(row("outside", "discrimination-factor")).contains("outside-ladder");

        try (var files = Files.walk(folder.resolve("out"))) {
            for (Path p : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
                Files.delete(p);
            }
        }
        evaluated(12, -0.01, ", extrapolate: yes");
        assertThat(cell("outside", "discrimination-factor", "status")).isEqualTo("estimable");
        assertThat(String.join(" ", row("outside", "discrimination-factor")))
                .contains("EXTRAPOLATED");
    }

    @Test
    void fewerThanSixMembersGiveNoFactor() throws IOException {
        evaluated(5, -0.01, "");

        assertThat(row("inside", "discrimination-factor"))
                .contains("not-estimable", "too-few-points");
    }
}
