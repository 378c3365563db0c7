package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.ScatterStructure;
import splitledger.statistics.ScatterStructure.Kind;
import splitledger.statistics.ScatterStructure.Relation;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;

/**
 * The structure of a precision study as a tree: all rows on top, each factor below what it lies
 * within, the residual at the bottom; crossed factors side by side with their combination below
 * both.
 */
final class StructureFigure {
    /** A box. */
    private record Node(String name, String count, List<Integer> parents, int depth) {}

    private final PrecisionLayouts.Layout layout;
    private final ScatterStructure structure;
    private final List<Node> nodes = new ArrayList<>();

    private StructureFigure(PrecisionLayouts.Layout layout) {
        this.layout = layout;
        structure = PrecisionWords.structure(layout);
        nodes.add(new Node("all rows", Integer.toString(layout.rows()), List.of(), 0));
        structure.terms().forEach(t -> add(t.name(), t.levels() + " labels", holders(t)));
        add(structure.residual(), layout.rows() + " rows", finest());
    }

    /** The figure. */
    static Figure of(PrecisionLayouts.Layout layout) {
        return new StructureFigure(layout).figure();
    }

    private void add(String name, String count, List<Integer> parents) {
        final List<Integer> under = parents.isEmpty() ? List.of(0) : parents;
        final int depth = 1 + under.stream().mapToInt(i -> nodes.get(i).depth()).max().orElse(0);
        nodes.add(new Node(name, count, under, depth));
    }

    /** Places of the terms right above a term; terms come with wider ones first. */
    private List<Integer> holders(ScatterFactor term) {
        final List<ScatterFactor> around =
                structure.terms().stream()
                        .filter(t -> t.levels() < term.levels() && term.isNestedIn(t))
                        .toList();
        final List<Integer> places = new ArrayList<>();
        for (ScatterFactor outer : around) {
            final boolean direct =
                    around.stream().noneMatch(t -> !t.equals(outer) && t.isNestedIn(outer));
            if (direct) {
                places.add(place(outer.name()));
            }
        }
        return places;
    }

    /** Places of the terms that hold no other term. */
    private List<Integer> finest() {
        final List<Integer> places = new ArrayList<>();
        for (ScatterFactor term : structure.terms()) {
            if (structure.terms().stream().noneMatch(t -> !t.equals(term) && t.isNestedIn(term))) {
                places.add(place(term.name()));
            }
        }
        return places;
    }

    private int place(String name) {
        for (int i = 0; i < nodes.size(); i++) {
            if (nodes.get(i).name().equals(name)) {
                return i;
            }
        }
        return 0;
    }

    private double x(int node) {
        final int depth = nodes.get(node).depth();
        int before = 0;
        int beside = 0;
        for (int i = 0; i < nodes.size(); i++) {
            before += i < node && nodes.get(i).depth() == depth ? 1 : 0;
            beside += nodes.get(i).depth() == depth ? 1 : 0;
        }
        return (before + 0.5) / beside;
    }

    private double y(int node) {
        return -nodes.get(node).depth();
    }

    private Figure figure() {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        final List<Double> edgeX = new ArrayList<>();
        final List<Double> edgeY = new ArrayList<>();
        final List<String> texts = new ArrayList<>();
        int deepest = 0;
        for (int i = 0; i < nodes.size(); i++) {
            x.add(x(i));
            y.add(y(i));
            texts.add(nodes.get(i).name() + "\n" + nodes.get(i).count());
            deepest = Math.max(deepest, nodes.get(i).depth());
            for (int parent : nodes.get(i).parents()) {
                edgeX.addAll(List.of(x(parent), x(i), Double.NaN));
                edgeY.addAll(List.of(y(parent), y(i), Double.NaN));
            }
        }
        final List<Layer> layers = new ArrayList<>();
        layers.add(new Figure.Line("lies within", Role.FIT, doubles(edgeX), doubles(edgeY)));
        crossed().ifPresent(layers::add);
        layers.add(new Figure.Boxes("labels", Role.DATA, doubles(x), doubles(y), texts));
        return new Figure(
                "structure",
                Repeatability.ID,
                "",
                "How the rows of the precision study hang together",
                "Each box is a source of scatter with the number of its labels, below what it lies within."
                        + (structure.relations().stream().anyMatch(r -> r.kind() == Kind.CROSSED)
                                ? " Crossed factors were seen together: their combination lies below both."
                                : ""),
                PrecisionWords.tree(layout),
                Axis.bare(0, 1),
                Axis.bare(-deepest - 0.5, 0.5),
                layers);
    }

    /** Joins crossed factors; empty if there are none. */
    private Optional<Layer> crossed() {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        for (Relation r : structure.relations()) {
            final int one = place(r.factor());
            final int other = place(r.other());
            if (r.kind() == Kind.CROSSED && one > 0 && other > 0) {
                x.addAll(List.of(x(one), x(other), Double.NaN));
                y.addAll(List.of(y(one), y(other), Double.NaN));
            }
        }
        return x.isEmpty()
                ? Optional.empty()
                : Optional.of(new Figure.Line("crossed", Role.REFERENCE, doubles(x), doubles(y)));
    }

    private static Doubles doubles(List<Double> values) {
        return Doubles.of(values.stream().mapToDouble(v -> v).toArray());
    }
}
