package splitledger.handbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.study.Card;

class HandbookTest {
    private static final Path FOLDER =
            Path.of("src", "main", "resources", "splitledger", "handbook");
    private static final Handbook HANDBOOK = Handbook.read();

    static List<String> ids() {
        return HANDBOOK.topics().stream().map(Handbook.Topic::id).toList();
    }

    private static String body(String id) {
        return HANDBOOK.page(id).orElseThrow().body();
    }

    private static List<Card> cards() {
        return Stream.concat(
                        Catalogue.all().stream().map(Characteristic::card),
                        Stream.of(Budgets.card()))
                .toList();
    }

    @Test
    void theListOfTopicsNamesEveryPageOnce() throws IOException {
        final List<String> files = new ArrayList<>();
        try (Stream<Path> all = Files.list(FOLDER)) {
            all.map(f -> f.getFileName().toString())
                    .filter(n -> n.endsWith(".md"))
                    .forEach(n -> files.add(n.substring(0, n.length() - 3)));
        }

        assertThat(ids()).doesNotHaveDuplicates().containsExactlyInAnyOrderElementsOf(files);
    }

    @Test
    void noNameMeansTwoPages() {
        final List<String> names = new ArrayList<>();
        for (Handbook.Topic topic : HANDBOOK.topics()) {
            final TreeSet<String> own = new TreeSet<>();
            own.add(Handbook.plain(topic.id()));
            topic.aliases().forEach(a -> own.add(Handbook.plain(a)));
            names.addAll(own);
        }

        assertThat(names).hasSizeGreaterThan(60).doesNotHaveDuplicates();
    }

    @Test
    void everyCharacteristicAndTheBudgetHaveAPage() {
        assertThat(ids()).containsAll(cards().stream().map(Card::id).toList());
    }

    @Test
    void thePageOfACharacteristicNamesEachOfItsQuantitiesOrLeadsToAPageThatDoes() {
        for (Card card : cards()) {
            final StringBuilder near = new StringBuilder(body(card.id()));
            links(card.id()).forEach(target -> near.append(body(target)));
            for (Card.Quantity quantity : card.quantities()) {
                assertThat(near.toString())
                        .as(card.id() + ": " + quantity.name())
                        .contains("`" + quantity.name() + "`");
            }
        }
    }

    @ParameterizedTest
    @MethodSource("ids")
    void aPageSaysWhatItMeansUnderWhichConditionsAndWhereItComesFrom(String id) {
        final List<String> headings = headings(id, "## ");

        if (!id.equals("iso-17025")) {
            assertThat(headings).contains("Formula", "Conditions", "Pitfalls");
        }
        assertThat(headings).endsWith("Sources");
        assertThat(body(id).substring(body(id).indexOf("\n## Sources")).strip().length())
                .isGreaterThan("## Sources".length() + 20);
    }

    @ParameterizedTest
    @MethodSource("ids")
    void aLinkLeadsToAPage(String id) {
        assertThat(links(id)).isSubsetOf(ids()).doesNotContain(id);
        assertThat(body(id)).doesNotContain("http:", "https:", "www.");
    }

    @ParameterizedTest
    @MethodSource("ids")
    void everyPitfallIsToldWithItsGuard(String id) {
        final int from = body(id).indexOf("\n## Pitfalls");
        if (from < 0) {
            return;
        }
        final String pitfalls = body(id).substring(from, body(id).indexOf("\n## Sources"));
        final List<String> each = Arrays.stream(pitfalls.split("\n### ", -1)).skip(1).toList();

        assertThat(each).isNotEmpty();
        assertThat(each)
                .allSatisfy(
                        p ->
                                assertThat(p)
                                        .as(p)
                                        .containsPattern("(?m)^\\*\\*Guard\\.\\*\\* .{20}"));
    }

    /** What is commonly said and wrong, and the pages that say why. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "split-conventions | fraction of time",
                "split-conventions | set ratio is taken as true",
                "inlet | split that is set",
                "split-linearity | Half the split, twice the area",
                "internal-standard | injected volume and the split do not matter",
                "calibration | correlation coefficient near 1",
                "weights | No weights over three decades",
                "weights | 1/x because the error is proportional",
                "weights | smallest sum of relative deviations",
                "calibration | Replicate injections of one vial",
                "replicates | Replicate injections show the pure error",
                "calibration | forced through zero, or a point (0, 0)",
                "limits-of-detection | Three times the noise beside one peak",
                "detection | calibration far above it",
                "limits-of-detection | One number is \"the\" limit",
                "limits-of-detection | serves as quantification limit, or S/N above 3",
                "detection | Blanks are always subtracted, or never",
                "repeatability | Percentages of scatter are averaged",
                "repeatability | Unequal variances are pooled, and levels",
                "repeatability | Three injections are taken for the precision",
                "repeatability | scatter over days is smaller",
                "replicates | standard error of the mean is quoted as precision",
                "inverse-prediction | Slope and intercept are treated as independent",
                "component-map | Precision is inside the line formula and once more",
                "discrimination | correction factor from the same data, without uncertainty",
                "recovery | The spike is recovered, so the sample is",
                "internal-standard | One surrogate corrects every analyte",
                "recovery | Between 70 and 120 %",
                "losses | Breakdown below the limit",
                "response-factors | every compound the same response",
                "response-factors | Percent of area is percent of mass",
                "equivalence | No significant difference",
                "maintenance | No significant difference",
                "screening | outlier is dropped because the software said so",
                "budget | U is twice the relative standard deviation",
                "criteria | predicted scatter is taken as what was achieved",
                "criteria | criterion of one guide is the law",
                "reporting | 12.3456 with an uncertainty of 1.2345",
            })
    void everyCommonMistakeHasItsParagraph(String page, String words) {
        assertThat(headings(page, "### ")).anyMatch(h -> h.contains(words));
    }

    @Test
    void aTopicIsFoundByAnyOfItsNamesHoweverItIsWritten() {
        assertThat(HANDBOOK.topic("Split Ratio"))
                .map(Handbook.Topic::id)
                .contains("split-conventions");
        assertThat(HANDBOOK.topic("split_ratio"))
                .map(Handbook.Topic::id)
                .contains("split-conventions");
        assertThat(HANDBOOK.topic("LOD")).map(Handbook.Topic::id).contains("limits-of-detection");
        assertThat(HANDBOOK.topic("Fieller"))
                .map(Handbook.Topic::id)
                .contains("inverse-prediction");
        assertThat(HANDBOOK.topic("no such thing")).isEmpty();
        assertThat(HANDBOOK.page("no-such-page")).isEmpty();
    }

    private static List<String> headings(String id, String mark) {
        return body(id).lines()
                .filter(l -> l.startsWith(mark))
                .map(l -> l.substring(mark.length()))
                .toList();
    }

    private static List<String> links(String id) {
        final List<String> targets = new ArrayList<>();
        final Matcher matcher = Pattern.compile("\\]\\(([^)]*)\\)").matcher(body(id));
        while (matcher.find()) {
            final String target = matcher.group(1);
            assertThat(target).endsWith(".md");
            targets.add(target.substring(0, target.length() - 3));
        }
        return targets;
    }
}
