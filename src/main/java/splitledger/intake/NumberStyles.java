package splitledger.intake;

import java.util.List;
import java.util.Optional;

/**
 * Tells from a sample of cells which marks a table writes in its numbers. Only a cell that can be
 * read in one way counts as evidence; where evidence is missing or contradicts itself, the marks
 * are the plain dot, and cells that do not fit are asked about.
 */
final class NumberStyles {
    private char decimal = NumberStyle.NONE;
    private char thousands = NumberStyle.NONE;
    private boolean contradiction;
    private boolean openDot;

    private NumberStyles() {}

    /**
     * The style of some cells.
     *
     * @param cells of columns that hold numbers
     * @param stated what the protocol says
     * @param plain whether the file is of the plain form, commas between cells, where a dot is the
     *     decimal mark unless the cells show another
     */
    static NumberStyle of(List<String> cells, TableFormat stated, boolean plain) {
        final NumberStyles evidence = new NumberStyles();
        cells.forEach(evidence::take);
        return evidence.style(stated, plain);
    }

    private void take(String cell) {
        openDot |= NumberStyle.isOpen(cell, '.');
        final Optional<NumberStyle> shown = NumberStyle.shownBy(cell);
        if (shown.isEmpty()) {
            return;
        }
        final NumberStyle style = shown.get();
        final boolean silent = cell.indexOf('.') < 0 && cell.indexOf(',') < 0;
        if (!silent) {
            contradiction |= decimal != NumberStyle.NONE && decimal != style.decimal();
            decimal = style.decimal();
        }
        if (style.thousands() != NumberStyle.NONE) {
            contradiction |= thousands != NumberStyle.NONE && thousands != style.thousands();
            thousands = style.thousands();
        }
    }

    private NumberStyle style(TableFormat stated, boolean plain) {
        contradiction |= decimal != NumberStyle.NONE && decimal == thousands;
        final Optional<Character> mark = stated.decimal();
        final Optional<Character> groups = stated.thousands();
        if (mark.isPresent() || groups.isPresent()) {
            final char group = groups.orElse(NumberStyle.NONE);
            return new NumberStyle(mark.orElse(group == '.' ? ',' : '.'), group, false);
        }
        if (contradiction) {
            return NumberStyle.DOT;
        }
        final char found = decimal == NumberStyle.NONE ? '.' : decimal;
        final boolean asks = decimal == NumberStyle.NONE && openDot && !plain;
        return new NumberStyle(found, thousands, asks);
    }
}
