package splitledger.statistics;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Rows put together as far as the random terms cannot tell them apart. A cell is a combination of
 * labels of all terms; where one term divides as finely as the cells do (preparations), cells of
 * equal size under equal labels of all other terms can be exchanged and form a group: of a group
 * only its mean and the scatter of its cells matter, for means and variances alike.
 */
final class ScatterGroups {
    /** The term as fine as the cells; -1 if there is none. */
    final int finest;

    final int rows;
    final int[] cellOf;
    final int[] cellSize;
    final int[] groupOf;

    /** Rows in each cell of a group. */
    final int[] size;

    /** Cells in a group. */
    final int[] cells;

    /** Some row of each group. */
    final int[] example;

    /** Degrees of freedom of cells within groups, by size of the cells. */
    final SortedMap<Integer, Integer> bySize = new TreeMap<>();

    ScatterGroups(List<ScatterFactor> terms, int rows) {
        this.rows = rows;
        ScatterFactor cell = ScatterFactor.of("", new int[rows]);
        for (ScatterFactor term : terms) {
            cell = cell.with(term, "");
        }
        cellOf = new int[rows];
        cellSize = new int[cell.levels()];
        for (int i = 0; i < rows; i++) {
            cellOf[i] = cell.code(i);
            cellSize[cellOf[i]]++;
        }
        int fine = -1;
        for (int j = 0; j < terms.size(); j++) {
            fine = terms.get(j).levels() == cell.levels() ? j : fine;
        }
        finest = fine;
        ScatterFactor upper = ScatterFactor.of("", new int[rows]);
        for (int j = 0; j < terms.size(); j++) {
            upper = j == finest ? upper : upper.with(terms.get(j), "");
        }
        groupOf = new int[cellSize.length];
        final int groups = number(finest < 0 ? cell : upper);
        size = new int[groups];
        cells = new int[groups];
        example = new int[groups];
        describe();
    }

    private int number(ScatterFactor upper) {
        final Map<Long, Integer> seen = new LinkedHashMap<>();
        for (int i = 0; i < rows; i++) {
            final int next = seen.size();
            final long key = (long) upper.code(i) << 32 | cellSize[cellOf[i]];
            groupOf[cellOf[i]] = seen.computeIfAbsent(key, k -> next);
        }
        return seen.size();
    }

    private void describe() {
        for (int i = 0; i < rows; i++) {
            example[groupOf[cellOf[i]]] = i;
        }
        for (int c = 0; c < cellSize.length; c++) {
            size[groupOf[c]] = cellSize[c];
            cells[groupOf[c]]++;
        }
        for (int g = 0; g < size.length; g++) {
            if (cells[g] > 1) {
                bySize.merge(size[g], cells[g] - 1, Integer::sum);
            }
        }
    }

    int count() {
        return size.length;
    }

    /** Root of the number of rows in a group. */
    double root(int group) {
        return Math.sqrt((double) size[group] * cells[group]);
    }

    /**
     * Means of groups times the root of their rows.
     *
     * @param y centred responses
     * @param within sum of squares of rows within cells is added to its first place, those of cells
     *     within groups, by size, to the following ones
     */
    double[] reduce(double[] y, double[] within) {
        final double[] cellMean = new double[cellSize.length];
        for (int i = 0; i < rows; i++) {
            cellMean[cellOf[i]] += y[i];
        }
        for (int c = 0; c < cellMean.length; c++) {
            cellMean[c] /= cellSize[c];
        }
        // cell by cell, so that long sums do not pile up rounding
        final double[] squares = new double[cellSize.length];
        for (int i = 0; i < rows; i++) {
            final double d = y[i] - cellMean[cellOf[i]];
            squares[cellOf[i]] += d * d;
        }
        for (double s : squares) {
            within[0] += s;
        }
        final double[] mean = new double[count()];
        for (int c = 0; c < cellMean.length; c++) {
            mean[groupOf[c]] += cellMean[c] / cells[groupOf[c]];
        }
        final Map<Integer, Integer> place = new TreeMap<>();
        bySize.keySet().forEach(s -> place.put(s, place.size() + 1));
        for (int c = 0; c < cellMean.length; c++) {
            final int g = groupOf[c];
            if (cells[g] > 1) {
                final double d = cellMean[c] - mean[g];
                within[place.getOrDefault(size[g], 0)] += size[g] * d * d;
            }
        }
        for (int g = 0; g < mean.length; g++) {
            mean[g] *= root(g);
        }
        return mean;
    }
}
