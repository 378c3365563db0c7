package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import splitledger.chart.ChartRenderer;
import splitledger.study.Evaluation;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class HtmlReportTest {
    private final Evaluation evaluation = SampleEvaluation.evaluation();
    private String page = "";

    @BeforeAll
    void write() {
        final List<byte[]> drawn = evaluation.figures().stream().map(ChartRenderer::svg).toList();
        page =
                new String(
                        HtmlReport.bytes(HtmlReport.page(evaluation, drawn, "0.1.0")),
                        StandardCharsets.UTF_8);
    }

    @Test
    void textFromOutsideIsEscapedEverywhere() {
        assertThat(page)
                .doesNotContain("<b>Sons")
                .contains("Invented Laboratory &amp; &lt;b&gt;Sons&lt;/b&gt;")
                .contains("&lt;script&gt;alert(");
    }

    @Test
    void thePageAsksForNothingFromOutsideAndRunsOnlyItsOwnScript() {
        assertThat(all("(?s)<script>(.*?)</script>"))
                .singleElement()
                .extracting(String::strip)
                .isEqualTo(Wording.Resources.text("report.js").strip());
        assertThat(Wording.Resources.text("report.js"))
                .doesNotContain("fetch")
                .doesNotContain("XMLHttpRequest")
                .doesNotContain("innerHTML")
                .doesNotContain("eval(");
        assertThat(page)
                .doesNotContainPattern("<script\\s")
                .doesNotContainPattern("<(link|img|iframe|object|embed|form|base)\\b")
                .doesNotContainPattern("\\son[a-z]+\\s*=\\s*[\"']")
                .doesNotContain("@import")
                .doesNotContain("url(http");
        assertThat(all("(?:href|src)=[\"']([^\"']*)[\"']")).allMatch(h -> h.startsWith("#"));
    }

    @Test
    void everyLinkLeadsToAPlaceThatIsThereOnce() {
        final List<String> ids = all("\\sid=[\"']([^\"']+)[\"']");

        assertThat(ids).doesNotHaveDuplicates();
        assertThat(all("href=\"#([^\"]+)\"")).isNotEmpty().allMatch(ids::contains);
        assertThat(
                        all("aria-labelledby=\"([^\"]+)\"").stream()
                                .flatMap(l -> List.of(l.split(" ", -1)).stream()))
                .isNotEmpty()
                .allMatch(ids::contains);
        assertThat(all("url\\(#([^)]+)\\)")).isNotEmpty().allMatch(ids::contains);
    }

    @Test
    void everyFigureIsThereOnceWithCaptionAndTextAlternative() {
        final List<String> figures = all("(?s)<figure [^>]*>(.*?)</figure>");

        assertThat(figures).hasSameSizeAs(evaluation.figures());
        for (String figure : figures) {
            assertThat(figure)
                    .contains("role=\"img\"")
                    .containsPattern("<figcaption>Figure [0-9]+\\. [^<]+</figcaption>")
                    .containsPattern("<title id=\"[^\"]+-title\">[^<]+</title>")
                    .containsPattern("<desc id=\"[^\"]+-desc\">[^<]+</desc>");
        }
        assertThat(all("<figcaption>Figure ([0-9]+)\\."))
                .isEqualTo(
                        java.util.stream.IntStream.rangeClosed(1, figures.size())
                                .mapToObj(Integer::toString)
                                .toList());
    }

    @Test
    void verdictsAreWordsAndNotColoursAlone() {
        assertThat(all("<span class=\"badge ([a-z-]+)\">").stream().distinct())
                .contains("meets", "fails", "undecided", "not-shown", "information");
        final TreeSet<String> words = new TreeSet<>();
        all("(?s)<span class=\"badge [a-z-]+\"><svg.*?</svg>([^<]*)</span>")
                .forEach(w -> words.add(w.strip()));
        assertThat(words)
                .containsExactlyInAnyOrder(
                        "meets",
                        "meets the requirement",
                        "fails",
                        "fails the requirement",
                        "undecided",
                        "not shown",
                        "no requirement");
    }

    @Test
    void namesOfQuantitiesAreWords() {
        assertThat(text())
                .contains("Slope of the calibration (sensitivity)")
                .contains("split ratio 20")
                .contains("Shared by all peaks: volume, split or detector gain")
                .contains(
                        "not shown: needs at least 6 independent preparations at the limit, found 2");
        // the handbook alone tells what files call them
        assertThat(words(page.replaceAll("(?s)<section id=\"handbook\">.*?</section>", "")))
                .doesNotContain("back-calculated-deviation")
                .doesNotContain("rsd-repeatability")
                .doesNotContain("not-estimable");
    }

    @Test
    void resultsStandInShortWithTheirExpandedUncertainty() {
        final String first = section("short");

        // 6.1 + 3.37 = 9.47; u = 0.021 x 9.47 = 0.19887; U = 2.07 u = 0.41166
        assertThat(words(first))
                .contains("limonene / mg/g k = 2.07 linalyl acetate / mg/g k = 2.07")
                .contains("preparation P1 9.47 0.41 ")
                .contains("preparation P7 cannot be given: the peak was not detected");
        assertThat(first.indexOf("preparation P2")).isLessThan(first.indexOf("preparation P10"));
        assertThat(first).contains("precision between days and analysts, mean of two results (");
    }

    @Test
    void budgetsShowBothMethodsAndSayWhatNegativeSharesMean() {
        assertThat(section("budgets"))
                .contains("law of propagation (value ± U)")
                .contains("Monte Carlo, 200000 trials, equal tails")
                .contains("none: too few degrees of freedom")
                .contains("A negative share is no mistake")
                .contains("a with b: −0.80 (fitted to the same points)")
                .contains("In 3 of 200000 trials the equation had no finite value");
        assertThat(all("(What holds for all of them)")).hasSize(1);
    }

    @Test
    void nothingOfWhatMustBeSeenIsLost() {
        assertThat(text())
                .contains("A choice without a section.")
                .contains("the area is the same to the last digit as that of injection 0015")
                .contains("areas.csv, line 17")
                .contains("peak is not in compounds; ignored")
                .contains("vial not crimped")
                .contains("2026-03-04")
                .contains("a1".repeat(32))
                .contains("splitledger 0.1.0")
                .contains("does not replace its release by the competent person");
    }

    @Test
    void oneExampleOfEachKindIsWorkedByHandAndTheOthersAreCounted() {
        final String worked = section("worked");

        assertThat(worked).contains("b = Sxy / Sxx").contains("= 0.0512339 L/mg");
        assertThat(worked).contains("8 more calculations are kept in results.json");
        assertThat(all("(b = Sxy / Sxx)")).hasSize(1);
    }

    @Test
    void aSectionEndsWithThePageOfTheHandbookAboutIt() {
        final List<String> pages = all("(?s)<details class=\"handbook\">(.*?)</details>");

        assertThat(pages).isNotEmpty();
        assertThat(pages)
                .allSatisfy(
                        p ->
                                assertThat(p)
                                        .contains("<summary>How to read this</summary>")
                                        .contains("<h3>Sources</h3>")
                                        .doesNotContain("<h2", ".md"));
    }

    @Test
    void theHandbookStandsAtTheEndWithTheIdeasThatTheReportSpeaksOf() {
        final String handbook = section("handbook");

        assertThat(all("(?s)<details class=\"handbook appendix\">(.*?)</details>"))
                .singleElement()
                .asString()
                .contains("Status, verdict, basis")
                .contains("<h4>Sources</h4>")
                .doesNotContain("<h2", ".md");
        // calibration leads to weights, nothing here to the map for the assessor
        assertThat(handbook)
                .contains("id=\"handbook-weights\"")
                .contains("id=\"handbook-verdicts\"")
                .doesNotContain("id=\"handbook-iso-17025\"")
                .doesNotContain("id=\"handbook-calibration\"");
        assertThat(page.indexOf("id=\"handbook\"")).isGreaterThan(page.indexOf("id=\"evidence\""));
        assertThat(section("question-1")).contains("href=\"#handbook-weights\"");
    }

    @Test
    void theExtractTellsACustomerResultsAndWhatLimitsTheirUse() {
        final String extract =
                new String(
                        HtmlReport.extract(
                                evaluation,
                                HtmlReport.page(evaluation, List.of(), "0.1.0").page(),
                                new PaperStamp("0.1.0", "revision", "abcdef".repeat(10))),
                        StandardCharsets.UTF_8);

        assertThat(words(extract.replaceAll("(?s)<style>.*?</style>", "")))
                .contains("preparation P1 9.47 0.41 ")
                .contains("k = 2.07")
                .contains("with a coverage probability of 95 %")
                .contains("What limits their use Calibration: 10 of 12 findings")
                .contains("Extract of the report with the study digest abcdefabc")
                .doesNotContain("egrees of freedom")
                .doesNotContain("Monte Carlo")
                .doesNotContain("splitledger");
        assertThat(extract)
                .doesNotContain("<script")
                .doesNotContain("href=")
                .doesNotContain("<b>Sons");
    }

    @Test
    void longListsAndPlainNumbersAreClosedAndStillOnThePage() {
        final List<String> closed = all("(?s)<details>\\s*(.*?)</details>");

        assertThat(closed).isNotEmpty().allMatch(d -> d.startsWith("<summary>Further"));
        assertThat(all("(<details[^>]*open)")).isEmpty();
        assertThat(words(String.join(" ", closed))).contains("preparation P1 ");
    }

    private static String words(String markup) {
        return markup.replaceAll("</?span[^>]*>", "")
                .replaceAll("<[^>]*>", " ")
                .replaceAll("\\s+", " ");
    }

    private String section(String id) {
        final int from = page.indexOf("<section id=\"" + id + "\"");
        assertThat(from).as(id).isPositive();
        return page.substring(from, page.indexOf("</section>", from));
    }

    private String text() {
        return page.replaceAll("(?s)<(style|svg|script).*?</\\1>", "")
                .replaceAll("<[^>]*>", "")
                .replace("&#39;", "'")
                .replaceAll("\\s+", " ");
    }

    private List<String> all(String pattern) {
        final List<String> found = new ArrayList<>();
        final Matcher matcher = Pattern.compile(pattern).matcher(page);
        while (matcher.find()) {
            found.add(matcher.group(1));
        }
        return found;
    }
}
