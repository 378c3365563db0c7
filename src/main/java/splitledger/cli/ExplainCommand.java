package splitledger.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.Nearest;
import splitledger.base.Shown;
import splitledger.handbook.Handbook;
import splitledger.handbook.PageText;

/** {@code explain}: a page of the handbook, or what a quantity or an option means. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Explains a topic: a characteristic, an idea, a quantity or an option of the protocol."
                    + " Without a topic it lists them."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class ExplainCommand implements Callable<Integer> {
    private static final int NARROWEST = 40;
    private static final int WIDEST = 400;
    private static final int MOST_HINTS = 8;
    private static final int SHORTEST_PART = 3;

    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            paramLabel = "TOPIC",
            arity = "0..*",
            description = "What to explain, such as calibration, weights or split-exponent.")
    private List<String> words = new ArrayList<>();

    @Option(
            names = "--width",
            paramLabel = "N",
            defaultValue = "80",
            description = "Characters in a line, 40 to 400. Without it: 80.")
    private int width;

    @Override
    public Integer call() {
        if (width < NARROWEST || width > WIDEST) {
            throw wrong("--width is " + width + ", must be from 40 to 400");
        }
        final Handbook handbook = Handbook.read();
        final List<String> lines =
                words.isEmpty() ? contents(handbook) : explained(handbook, String.join(" ", words));
        final PrintWriter print = spec.commandLine().getOut();
        lines.forEach(print::println);
        return Exit.DONE.code();
    }

    private List<String> contents(Handbook handbook) {
        final List<String> lines = new ArrayList<>();
        final int names =
                handbook.topics().stream().mapToInt(t -> t.id().length()).max().orElse(0) + 2;
        String group = "";
        for (Handbook.Topic topic : handbook.topics()) {
            if (!topic.group().equals(group)) {
                group = topic.group();
                lines.addAll(lines.isEmpty() ? List.of(group) : List.of("", group));
            }
            final String title = handbook.page(topic.id()).orElseThrow().title();
            lines.addAll(
                    PageText.wrapped(
                            title,
                            "  " + topic.id() + " ".repeat(names - topic.id().length()),
                            " ".repeat(names + 2),
                            width));
        }
        lines.add("");
        lines.addAll(
                PageText.wrapped(
                        "Any quantity of results.csv and any option of a characteristic is a topic too.",
                        "",
                        "",
                        width));
        return lines;
    }

    private List<String> explained(Handbook handbook, String topic) {
        final CardEntries cards = new CardEntries(handbook, width);
        final List<String> lines = new ArrayList<>();
        handbook.topic(topic)
                .flatMap(t -> handbook.page(t.id()))
                .ifPresent(page -> lines.addAll(PageText.of(page, width)));
        final List<String> entries = cards.of(topic);
        if (!lines.isEmpty() && !entries.isEmpty()) {
            lines.add("");
        }
        lines.addAll(entries);
        if (lines.isEmpty()) {
            throw wrong(
                    "there is no topic '" + Shown.text(topic) + "'" + hint(handbook, cards, topic));
        }
        return lines;
    }

    /** Names that hold the word, and the one that is nearest to it. */
    private static String hint(Handbook handbook, CardEntries cards, String topic) {
        final Set<String> known = new LinkedHashSet<>();
        handbook.topics().forEach(t -> known.add(t.id()));
        handbook.topics().forEach(t -> known.addAll(t.aliases()));
        known.addAll(cards.names());
        final String asked = Handbook.plain(topic);
        final Set<String> near = new LinkedHashSet<>();
        Nearest.to(asked, known).ifPresent(near::add);
        if (asked.length() >= SHORTEST_PART) {
            known.stream().filter(n -> Handbook.plain(n).contains(asked)).forEach(near::add);
        }
        if (near.isEmpty()) {
            return "; 'splitledger explain' lists the topics";
        }
        return "; did you mean "
                + String.join(
                        " or ", near.stream().limit(MOST_HINTS).map(n -> "'" + n + "'").toList())
                + "?";
    }

    private ParameterException wrong(String words) {
        return new ParameterException(spec.commandLine(), words);
    }
}
