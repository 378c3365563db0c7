package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.CodePoints;
import splitledger.handbook.Handbook;
import splitledger.handbook.HandbookPage;
import splitledger.handbook.PageHtml;

/**
 * What the report holds of the handbook: the page on each of its characteristics at the end of the
 * section, and the ideas these pages lead to at the end of the report.
 */
final class HandbookPart {
    private static final int BELOW_SECTION = 1;
    private static final int BELOW_PAGE = 2;

    private final Handbook handbook = Handbook.read();
    private final Map<String, String> anchors = new LinkedHashMap<>();
    private final List<String> ideas = new ArrayList<>();

    /**
     * For one report.
     *
     * @param sections anchors of its sections, by characteristic
     * @param words ideas that the report speaks of beside those its characteristics lead to
     */
    HandbookPart(Map<String, String> sections, List<String> words) {
        final Set<String> wanted = new TreeSet<>(CodePoints.ORDER);
        wanted.addAll(words);
        sections.keySet().forEach(id -> wanted.addAll(leadsTo(id)));
        for (Handbook.Topic topic : handbook.topics()) {
            if (wanted.contains(topic.id()) && !isCharacteristic(topic)) {
                ideas.add(topic.id());
                anchors.put(topic.id(), "handbook-" + topic.id());
            }
        }
        anchors.putAll(sections);
    }

    /** A characteristic that this report does not have is no idea behind it. */
    private boolean isCharacteristic(Handbook.Topic topic) {
        return topic.group().equals(handbook.topics().get(0).group());
    }

    private List<String> leadsTo(String id) {
        return handbook.page(id).map(HandbookPage::leadsTo).orElse(List.of());
    }

    /**
     * The page on a characteristic as it stands at the end of its section: finished markup,
     * quantities in words; empty if there is none.
     */
    String howToRead(String characteristic) {
        return handbook.page(characteristic).map(page -> markup(page, BELOW_SECTION)).orElse("");
    }

    /** Links to the ideas that the page on a characteristic leads to. */
    List<Page.Link> ideas(String characteristic) {
        return leadsTo(characteristic).stream().filter(ideas::contains).map(this::link).toList();
    }

    /** The pages on all ideas, in the order of the handbook. */
    List<Page.Idea> ideas() {
        return ideas.stream()
                .flatMap(id -> handbook.page(id).stream())
                .map(
                        page ->
                                new Page.Idea(
                                        "handbook-" + page.id(),
                                        page.title(),
                                        markup(page, BELOW_PAGE)))
                .toList();
    }

    private Page.Link link(String id) {
        return new Page.Link(
                "handbook-" + id, handbook.page(id).map(HandbookPage::title).orElse(id));
    }

    private String markup(HandbookPage page, int levels) {
        return PageHtml.of(page, levels, Wording::known, anchors);
    }
}
