package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;
import splitledger.intake.StudyReader;
import splitledger.study.Study;
import splitledger.study.Tree;

/** The protocol that comes with the tables is read by the same reader as any other. */
class ReadyProtocolTest {
    @TempDir private Path out;

    private Study study(Design design) throws IOException, ProblemException {
        final FolderVault vault = FolderVault.of(out);
        for (Map.Entry<String, byte[]> file : Simulation.tables(design).entrySet()) {
            vault.write(file.getKey(), file.getValue());
        }
        return StudyReader.read(vault, "protocol.yaml");
    }

    @Test
    void theTablesOfTheDataSetAreReadByTheirOwnProtocol() throws IOException, ProblemException {
        final Design design = FlowerOil.design();

        final Study study = study(design);

        assertThat(study.protocol().title()).isEqualTo(design.title());
        assertThat(study.compounds().targets()).isEqualTo(design.targets());
        assertThat(study.protocol().characteristics())
                .containsKeys("calibration", "repeatability", "detection", "losses");
        assertThat(study.protocol().measurand()).isPresent();
        assertThat(study.protocol().conventions().splitRatio()).isEqualTo("total-to-column");
        assertThat(study.table().size())
                .as(
                        "3 targets, 17 members of the ladder, the internal standard among them, 2 products")
                .isEqualTo(Timetable.of(design).size() * 22);
    }

    @Test
    void theBlockOfTheDesignGoesIntoTheProtocolButOnlyCharacteristicsThatAreKnown()
            throws IOException, ProblemException {
        final String block =
                """

                protocol:
                  title: "Ours: a study"
                  conventions: {coverage: 0.9}
                  characteristics:
                    calibration: {where: {series: calibration}, weights: none}
                    dowsing: {where: {series: calibration}}
                  requirements:
                    - {quantity: depth-of-water, at-most: 2 %, source: none}
                    - {quantity: rsd-repeatability, at-most: 2 %, source: "our \\"procedure\\" 12", set: 2026-02-10}
                """;

        final Study study = study(FlowerOil.read(FlowerOil.text() + block));

        assertThat(study.protocol().title()).isEqualTo("Ours: a study");
        assertThat(study.protocol().conventions().coverage()).isEqualTo(0.9);
        assertThat(study.protocol().characteristics())
                .containsKeys("calibration", "repeatability")
                .doesNotContainKey("dowsing");
        assertThat(
                        study.protocol()
                                .characteristics()
                                .getOrDefault("calibration", Tree.Mapping.EMPTY)
                                .text("weights"))
                .contains("none");
        assertThat(study.protocol().requirements())
                .singleElement()
                .satisfies(r -> assertThat(r.source()).isEqualTo("our \"procedure\" 12"));
    }

    @Test
    void theSameDesignUnderAnotherSeedKeepsItsProtocol() throws IOException, ProblemException {
        final Map<String, byte[]> first = Simulation.tables(FlowerOil.design());
        final Map<String, byte[]> second = Simulation.tables(FlowerOil.design().seeded(7));

        assertThat(text(second, "protocol.yaml")).isEqualTo(text(first, "protocol.yaml"));
        assertThat(text(second, "areas.csv")).isNotEqualTo(text(first, "areas.csv"));
        assertThat(text(second, "areas.csv"))
                .isEqualTo(text(Simulation.tables(FlowerOil.withSeed(7)), "areas.csv"));
    }

    private static String text(Map<String, byte[]> files, String name) {
        return new String(files.getOrDefault(name, new byte[0]), StandardCharsets.UTF_8);
    }
}
