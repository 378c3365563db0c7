package splitledger.study;

import java.util.Arrays;
import java.util.List;
import splitledger.statistics.Ticks;

/**
 * All that a chart shows, decided before anything is drawn (ticks too, so that every machine draws
 * the same).
 *
 * @param id unique, safe as a file name
 * @param characteristic where it belongs
 * @param compound its compound; empty for all
 * @param title short
 * @param caption how to read it, one or two sentences
 * @param alternative text for those who cannot see it: what it shows, with numbers
 * @param x horizontal axis
 * @param y vertical axis
 * @param layers drawn in this order
 */
public record Figure(
        String id,
        String characteristic,
        String compound,
        String title,
        String caption,
        String alternative,
        Axis x,
        Axis y,
        List<Layer> layers) {
    public Figure {
        layers = List.copyOf(layers);
    }

    /**
     * A name that is safe as a file name: letters, digits and hyphens stay, runs of others become
     * one hyphen. Different names may become alike; the evaluation numbers those.
     */
    public static String safeId(String kind, String name) {
        return (kind + "-" + name).replaceAll("[^A-Za-z0-9]+", "-").replaceAll("-$", "");
    }

    /** The same figure under another id. */
    public Figure named(String otherId) {
        return new Figure(
                otherId, characteristic, compound, title, caption, alternative, x, y, layers);
    }

    /**
     * An axis.
     *
     * @param label what it shows
     * @param unit its unit; empty for categories
     * @param from lower end
     * @param to upper end
     * @param ticks places and texts
     */
    public record Axis(String label, String unit, double from, double to, List<Tick> ticks) {
        public Axis {
            ticks = List.copyOf(ticks);
        }

        /** Room without a scale of its own, for a drawing. */
        public static Axis bare(double from, double to) {
            return new Axis("", "", from, to, List.of());
        }

        /** An axis that covers a range, with ticks at round numbers. */
        public static Axis covering(String label, String unit, double low, double high) {
            final double[] places = Ticks.round(low, high);
            final List<Tick> ticks =
                    Arrays.stream(places)
                            .mapToObj(at -> new Tick(at, splitledger.base.Numbers.text(at)))
                            .toList();
            return new Axis(label, unit, places[0], places[places.length - 1], ticks);
        }

        /** Label with unit, as printed beside the axis. */
        public String text() {
            return unit.isEmpty() ? label : label + " / " + unit;
        }
    }

    /** A place on an axis with its text. */
    public record Tick(double at, String text) {}

    /** What a layer means; the chart room decides colour, line and symbol. */
    public enum Role {
        /** What was measured. */
        DATA,
        /** Measured too, to be told apart from {@link #DATA} (flagged, second group). */
        OTHER_DATA,
        /** The fitted model. */
        FIT,
        /** Where the model itself lies. */
        CONFIDENCE,
        /** Where a new observation lies. */
        PREDICTION,
        /** A limit or an ideal to compare with. */
        REFERENCE,
        /** Contributions to a whole. */
        SHARE
    }

    /** One layer. */
    public sealed interface Layer {
        /** Its name for the legend. */
        String name();

        /** What it means. */
        Role role();
    }

    /**
     * Symbols at points; {@code labels} names each for the reader (may be empty texts), same
     * length.
     */
    public record Points(String name, Role role, Doubles x, Doubles y, List<String> labels)
            implements Layer {
        public Points {
            labels = List.copyOf(labels);
        }
    }

    /** A line through points; NaN breaks it. */
    public record Line(String name, Role role, Doubles x, Doubles y) implements Layer {}

    /** The region between two curves. */
    public record Band(String name, Role role, Doubles x, Doubles lower, Doubles upper)
            implements Layer {}

    /** Points with their intervals. */
    public record Intervals(
            String name, Role role, Doubles x, Doubles y, Doubles lower, Doubles upper)
            implements Layer {}

    /**
     * Texts in boxes around places, one a place; a line feed begins a new line, the first line
     * stands out.
     */
    public record Boxes(String name, Role role, Doubles x, Doubles y, List<String> texts)
            implements Layer {
        public Boxes {
            texts = List.copyOf(texts);
        }
    }

    /**
     * Horizontal bars from zero at y positions 1, 2, ... from the top; texts are printed at the
     * bars' ends.
     */
    public record Bars(
            String name, Role role, Doubles lengths, List<String> categories, List<String> texts)
            implements Layer {
        public Bars {
            categories = List.copyOf(categories);
            texts = List.copyOf(texts);
        }
    }
}
