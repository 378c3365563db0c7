package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.report.Page.Picture;
import splitledger.study.Figure;

/**
 * Hands out every figure once, numbered in the order of the page: those of the same kind beside
 * each other, what they have in common explained with the first of them.
 */
final class Pictures {
    private final List<Figure> figures;
    private final List<String> drawn;
    private int shown;

    /**
     * For one page.
     *
     * @param drawn the figures as SVG, in their order; none if the page draws them itself
     */
    Pictures(List<Figure> figures, List<String> drawn) {
        this.figures = figures;
        this.drawn = drawn;
    }

    /** The figures of a characteristic; a second call would number them again. */
    List<Picture> of(String characteristic) {
        final List<Picture> pictures = new ArrayList<>();
        final Map<String, Integer> explained = new LinkedHashMap<>();
        for (int i : byKind(characteristic)) {
            final Figure figure = figures.get(i);
            shown++;
            final Integer first = explained.putIfAbsent(figure.caption(), shown);
            pictures.add(
                    new Picture(
                            "Figure "
                                    + shown
                                    + ". "
                                    + (first == null
                                            ? figure.caption()
                                            : "To be read as figure " + first + "."),
                            i,
                            drawn.isEmpty() ? "" : drawn.get(i),
                            figure.alternative()));
        }
        return List.copyOf(pictures);
    }

    /** The first figure of every compound, the second of every compound, and so on. */
    private List<Integer> byKind(String characteristic) {
        final Map<String, List<Integer>> byCompound = new LinkedHashMap<>();
        for (int i = 0; i < figures.size(); i++) {
            final Figure figure = figures.get(i);
            if (figure.characteristic().equals(characteristic)) {
                byCompound.computeIfAbsent(figure.compound(), c -> new ArrayList<>()).add(i);
            }
        }
        final Set<Integer> order = new LinkedHashSet<>();
        final int most = byCompound.values().stream().mapToInt(List::size).max().orElse(0);
        for (int kind = 0; kind < most; kind++) {
            for (List<Integer> own : byCompound.values()) {
                if (kind < own.size()) {
                    order.add(own.get(kind));
                }
            }
        }
        return List.copyOf(order);
    }
}
