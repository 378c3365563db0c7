package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Text from outside that would act if it were not shown as text: it goes everywhere and acts
 * nowhere.
 */
class HostileTextTest {
    private static final String SCRIPT = "</script><script>alert(1)</script>";
    private static final String IMAGE = "\"'><img src=x onerror=alert(1)>";
    private static final String FORMULA = "=HYPERLINK(\"\"http://x\"\")";

    @TempDir Path folder;

    private static String quoted(String text) {
        return "'" + text.replace("'", "''") + "'";
    }

    @Test
    void scriptsFormulasAndMarkupInEveryTextFieldActNowhere() throws Exception {
        final StringBuilder areas =
                new StringBuilder("injection,compound,area,series,preparation,level,amount\n");
        int n = 0;
        for (int level = 1; level <= 4; level++) {
            for (int copy = 1; copy <= 3; copy++) {
                n++;
                areas.append("\"" + FORMULA + n + "\",\"+c" + SCRIPT + "\",");
                areas.append(10.0 * level + copy * 0.1 + level * 0.05);
                areas.append(
                        ",-cal,\"@p"
                                + level
                                + copy
                                + "<b>\",\""
                                + SCRIPT
                                + level
                                + "\","
                                + level
                                + "\n");
            }
        }
        Files.writeString(folder.resolve("areas.csv"), areas);
        final String compound = quoted("+c" + SCRIPT);
        Files.writeString(
                folder.resolve("protocol.yaml"),
                "splitledger: 1\ntitle: "
                        + quoted(SCRIPT)
                        + "\npurpose: "
                        + quoted(IMAGE)
                        + "\nlaboratory: {name: "
                        + quoted(IMAGE)
                        + ", prepared-by: "
                        + quoted("=1+1")
                        + "}\ninstrument: {id: "
                        + quoted(SCRIPT)
                        + "}\ntables: [{file: areas.csv}]\ncompounds: {targets: ["
                        + compound
                        + "]}\nconventions: {area-unit: "
                        + quoted(IMAGE)
                        + ", amount-unit: "
                        + quoted("<i>mg")
                        + "}\ncharacteristics:\n  calibration: {where: {series: '-cal'}}\n"
                        + "  repeatability: {where: {series: '-cal'}}\n"
                        + "requirements:\n  - {quantity: lack-of-fit-p, at-least: 0.01, source: "
                        + quoted(SCRIPT)
                        + ", set: "
                        + quoted(IMAGE)
                        + "}\nexclusions: [{injection: '=HYPERLINK(\"http://x\")1', reason: "
                        + quoted(SCRIPT)
                        + ", who: "
                        + quoted(IMAGE)
                        + "}]\nevents: [{date: "
                        + quoted(SCRIPT)
                        + ", what: "
                        + quoted(IMAGE)
                        + "}]\n");
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        folder.resolve("protocol.yaml").toString(),
                        "--out",
                        folder.resolve("out").toString());
        assertThat(ran.exit()).as(ran.err()).isIn(0, 1);
        final String report = read("out/report.html");
        assertThat(report).contains("alert(1)");
        assertThat(report).doesNotContain("<script>alert", "<img src=x", "<i>mg");
        final byte[] paper = Files.readAllBytes(folder.resolve("out/report.pdf"));
        assertThat(new String(paper, StandardCharsets.ISO_8859_1))
                .startsWith("%PDF-")
                .doesNotContain("/JavaScript", "/URI", "/Launch", "/EmbeddedFile");
        for (Path svg : files("out/figures")) {
            final var document =
                    DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(svg.toFile());
            assertThat(document.getElementsByTagName("script").getLength()).isZero();
            assertThat(document.getElementsByTagName("img").getLength()).isZero();
        }
        assertThat(files("out/figures")).isNotEmpty();
        for (String csv : List.of("results.csv", "budget.csv", "budget-correlations.csv")) {
            for (List<String> row : Bench.rows(folder.resolve("out/" + csv))) {
                assertThat(row)
                        .as(csv)
                        .noneMatch(c -> c.matches("(?s)[=+@\\t].*") || c.matches("(?s)-[^0-9].*"));
            }
        }
    }

    private String read(String name) throws IOException {
        return Files.readString(folder.resolve(name), StandardCharsets.UTF_8);
    }

    private List<Path> files(String name) throws IOException {
        try (Stream<Path> all = Files.list(folder.resolve(name))) {
            return all.filter(p -> p.toString().endsWith(".svg")).toList();
        }
    }
}
