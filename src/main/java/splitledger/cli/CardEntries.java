package splitledger.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.handbook.Handbook;
import splitledger.handbook.PageText;
import splitledger.study.Card;

/** What the cards of the characteristics say of a name, as lines of text. */
final class CardEntries {
    private static final String INDENT = "    ";

    private final List<Card> cards = new ArrayList<>();
    private final Handbook handbook;
    private final int width;

    CardEntries(Handbook handbook, int width) {
        this.handbook = handbook;
        this.width = width;
        Catalogue.all().stream().map(Characteristic::card).forEach(cards::add);
        cards.add(Budgets.card());
    }

    /** All names: characteristics, quantities, options. */
    List<String> names() {
        final List<String> names = new ArrayList<>();
        for (Card card : cards) {
            names.add(card.id());
            card.quantities().forEach(q -> names.add(q.name()));
            card.options().forEach(o -> names.add(o.name()));
        }
        return names.stream().distinct().toList();
    }

    /**
     * What is said of a name; nothing if no card has it.
     *
     * @param name a characteristic, a quantity or an option; a characteristic, a dot and either of
     *     the latter asks one card alone
     */
    List<String> of(String name) {
        final List<String> lines = new ArrayList<>();
        for (Card card : cards) {
            if (same(card.id(), name)) {
                whole(card, lines);
            }
        }
        for (Card card : cards) {
            card.quantities().stream()
                    .filter(q -> isMeant(card, q.name(), name))
                    .forEach(q -> quantity(card, q, lines));
        }
        for (Card card : cards) {
            card.options().stream()
                    .filter(o -> isMeant(card, o.name(), name))
                    .forEach(o -> option(card, o, lines));
        }
        return lines;
    }

    private static boolean isMeant(Card card, String own, String asked) {
        return same(own, asked) || same(card.id() + "." + own, asked);
    }

    private static boolean same(String own, String asked) {
        return Handbook.plain(own).equals(Handbook.plain(asked));
    }

    private void whole(Card card, List<String> lines) {
        lines.add("Quantities that " + card.id() + " may give");
        for (Card.Quantity q : card.quantities()) {
            lines.addAll(entry(q.name(), q.meaning()));
        }
        if (!card.options().isEmpty()) {
            lines.add("");
            lines.add("What a protocol may say to it");
            for (Card.Option o : card.options()) {
                lines.addAll(entry(o.name(), meaning(o)));
            }
        }
        if (!card.needs().isEmpty()) {
            lines.add("");
            lines.add("Uses the findings of: " + String.join(", ", card.needs()));
        }
    }

    private List<String> entry(String name, String meaning) {
        return PageText.wrapped(name + ": " + meaning, "  ", INDENT, width);
    }

    private void quantity(Card card, Card.Quantity q, List<String> lines) {
        heading(q.name() + ", a quantity of " + card.id(), lines);
        lines.addAll(PageText.wrapped(q.meaning(), INDENT, INDENT, width));
        lines.add(INDENT + "kind: " + kind(q.kind()));
        lines.add(INDENT + "unit: " + (q.unit().equals("1") ? "1 (none)" : q.unit()));
        if (!q.conditions().isEmpty()) {
            lines.addAll(
                    PageText.wrapped(
                            "conditions it may carry: " + String.join(", ", q.conditions()),
                            INDENT,
                            INDENT,
                            width));
        }
        readOn(card, q.name(), lines);
    }

    private static String kind(Card.Kind kind) {
        return switch (kind) {
            case ESTIMATE -> "estimate (with uncertainty, degrees of freedom and interval)";
            case BOUND -> "bound (an interval that is open on one side)";
            case STATISTIC -> "statistic (a value alone)";
        };
    }

    private void option(Card card, Card.Option o, List<String> lines) {
        heading(o.name() + ", an option of " + card.id() + " in the protocol", lines);
        lines.addAll(PageText.wrapped(meaning(o), INDENT, INDENT, width));
        lines.add(INDENT + "form: " + form(o.form()));
        readOn(card, o.name(), lines);
    }

    private static String meaning(Card.Option o) {
        return o.meaning()
                + (o.allowed().isEmpty() ? "" : " One of: " + String.join(", ", o.allowed()) + ".")
                + (o.required() ? " Must be there." : "");
    }

    private static String form(Card.Form form) {
        return switch (form) {
            case WHERE -> "conditions on columns, such as {series: calibration}";
            case NUMBERS -> "a number, or names each with a number";
            case NAMES -> "names, each with another name";
            case TEXTS -> "a text or a list of texts";
            case GROUPS -> "a text, a list of texts, or names each with such";
            case WORD, TEXT, NUMBER -> "a " + form.name().toLowerCase(Locale.ROOT);
        };
    }

    private void readOn(Card card, String name, List<String> lines) {
        final List<String> pages = new ArrayList<>(List.of(card.id()));
        handbook.naming(name).stream()
                .map(Handbook.Topic::id)
                .filter(id -> !id.equals(card.id()))
                .forEach(pages::add);
        lines.addAll(
                PageText.wrapped(
                        "pages: " + String.join(", ", pages), INDENT, INDENT + INDENT, width));
    }

    private static void heading(String words, List<String> lines) {
        if (!lines.isEmpty()) {
            lines.add("");
        }
        lines.add(words);
    }
}
