package splitledger.propagation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.statistics.RandomStream;

/**
 * Draws blocks of trials: roots, pools, inputs, equation, all on reused arrays. One instance serves
 * one thread.
 */
final class Draw {
    /** Trials of one block. */
    static final int BLOCK = 1000;

    private final List<Uncertain> inputs = new ArrayList<>();
    private final SortedMap<Pool, double[]> pools = new TreeMap<>();
    private final SortedSet<Root> roots = new TreeSet<>();
    private final double[][] columns;
    private final double[] root = new double[BLOCK];
    private final BlockProgram program;

    Draw(Expression equation, SortedMap<String, Uncertain> given) {
        final List<String> symbols = new ArrayList<>(equation.symbols());
        symbols.forEach(s -> inputs.add(given.get(s)));
        columns = new double[symbols.size()][BLOCK];
        program = new BlockProgram(equation, symbols, BLOCK);
        inputs.forEach(x -> roots.addAll(x.roots()));
        for (Root r : roots) {
            if (isStudent(r)) {
                pools.putIfAbsent(r.pool(), new double[BLOCK]);
            }
        }
    }

    /**
     * Limits that are known only roughly stay a rectangle: their degrees of freedom do not enter.
     */
    private static boolean isStudent(Root r) {
        return r.shape() instanceof Shape.Normal && !Double.isInfinite(r.pool().degreesOfFreedom());
    }

    /** Of all pools with t distributions; infinite if there are none. */
    double fewestDegreesOfFreedom() {
        return pools.keySet().stream()
                .mapToDouble(Pool::degreesOfFreedom)
                .min()
                .orElse(Double.POSITIVE_INFINITY);
    }

    /** One block; the array is reused by the next call. */
    double[] block(RandomStream random) {
        for (int i = 0; i < columns.length; i++) {
            Arrays.fill(columns[i], inputs.get(i).value());
        }
        for (var e : pools.entrySet()) {
            final double nu = e.getKey().degreesOfFreedom();
            final double[] factor = e.getValue();
            for (int t = 0; t < BLOCK; t++) {
                factor[t] = Math.sqrt(nu / random.nextChiSquare(nu));
            }
        }
        for (Root r : roots) {
            r.shape().fill(root, BLOCK, random);
            final double[] factor = pools.get(r.pool());
            if (factor != null && isStudent(r)) {
                for (int t = 0; t < BLOCK; t++) {
                    root[t] *= factor[t];
                }
            }
            add(r);
        }
        return program.run(columns, BLOCK);
    }

    private void add(Root r) {
        for (int i = 0; i < columns.length; i++) {
            final double part = inputs.get(i).part(r);
            if (part != 0) {
                final double[] column = columns[i];
                for (int t = 0; t < BLOCK; t++) {
                    column[t] += part * root[t];
                }
            }
        }
    }
}
