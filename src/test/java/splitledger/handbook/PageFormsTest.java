package splitledger.handbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class PageFormsTest {
    private static final HandbookPage PAGE =
            HandbookPage.of(
                    "sample",
                    """
                    # A title

                    Words of a paragraph that is longer than one line, with `code`, *stress*
                    and a [link](weights.md).

                    ## Part

                    - first point of a list that does not fit on a line
                    - second

                    1. one
                    2. two

                    ### Small

                    Below it & <b>bold</b>.

                    ```
                    y = a + b x   this formula is longer than a line of the page
                    ```
                    """);

    @Test
    void aLinkWhoseWordsAreTheTopicIsShownOnce() {
        final HandbookPage page =
                HandbookPage.of("x", "# T\n\nSee [Monte Carlo](monte-carlo.md).\n");

        assertThat(PageText.of(page, 80)).endsWith("See 'explain monte-carlo'.");
    }

    private static Optional<String> asItIs(String code) {
        assertThat(code).isEqualTo("code");
        return Optional.empty();
    }

    @Test
    void aPageOnTheTerminalIsWrappedAndKeepsItsFormulas() {
        assertThat(PageText.of(PAGE, 40))
                .isEqualTo(
                        List.of(
                                "A title",
                                "=======",
                                "",
                                "Words of a paragraph that is longer than",
                                "one line, with code, stress and a link",
                                "('explain weights').",
                                "",
                                "Part",
                                "----",
                                "",
                                "  - first point of a list that does not",
                                "    fit on a line",
                                "  - second",
                                "",
                                "  1. one",
                                "  2. two",
                                "",
                                "Small:",
                                "Below it & bold.",
                                "",
                                "    y = a + b x   this formula is longer than a line of the page"));
    }

    @Test
    void aPageInsideAnotherHasLowerHeadingsAndLinksOnlyWithinIt() {
        final String with =
                PageHtml.of(PAGE, 2, PageFormsTest::asItIs, Map.of("weights", "question-7"));
        final String without = PageHtml.of(PAGE, 2, PageFormsTest::asItIs, Map.of());

        assertThat(with)
                .contains("<h4>Part</h4>", "<h5>Small</h5>", "a <a href=\"#question-7\">link</a>.")
                .doesNotContain("A title", "<h1", "<h2", "<h3");
        assertThat(without).contains("and a link.").doesNotContain("<a ");
        assertThat(with)
                .contains(
                        "<pre class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Formula\">");
    }

    @Test
    void aWordSetAsCodeIsPutIntoWordsWhereThereAreSome() {
        final String page =
                PageHtml.of(
                        PAGE,
                        2,
                        code -> code.equals("code") ? Optional.of("a < b") : Optional.empty(),
                        Map.of());

        assertThat(page).contains("with <em>a &lt; b</em>, <em>stress</em>");
    }

    @Test
    void markupWithinAPageIsEscaped() {
        assertThat(PageHtml.of(PAGE, 2, PageFormsTest::asItIs, Map.of()))
                .contains("Below it &amp; &lt;b&gt;bold&lt;/b&gt;.")
                .doesNotContain("<b>");
    }
}
