package splitledger.statistics;

import java.util.Arrays;
import java.util.Optional;

/**
 * Smallest value of a likelihood over components that are not negative, if wanted with a given
 * weighted sum: Newton steps on the components above 0, with the average information in place of
 * the second derivatives where these do not lead down; one at 0 comes back where the value falls
 * towards it; steps end at 0 and are halved until the value falls.
 */
final class NonNegativeMinimum {
    private static final int STEPS = 300;
    private static final int HALVINGS = 60;
    private static final double LINE_SEARCH_ABOVE = 1e-7;
    private static final double ROUNDING = 1e-9;
    private static final double SUFFICIENT = 1e-4;

    /**
     * A Newton step doubles the digits: after one that is expected to bring this part of the root
     * of the tolerance, the next would bring less than the tolerance.
     */
    private static final double NEARLY = 0.01;

    private final ScatterLikelihood likelihood;
    private final double tolerance;
    private final double[] gradient;
    private final double[][] expected;
    private final double[][] average;
    private final double[][] second;

    /**
     * A search.
     *
     * @param tolerance by how much the value may at most still be expected to fall at the end
     */
    NonNegativeMinimum(ScatterLikelihood likelihood, double tolerance) {
        this.likelihood = likelihood;
        this.tolerance = tolerance;
        gradient = new double[likelihood.components()];
        expected = new double[gradient.length][gradient.length];
        average = new double[gradient.length][gradient.length];
        second = new double[gradient.length][gradient.length];
    }

    /**
     * Searches.
     *
     * @param start components where the value is finite, with the given sum
     * @param fixed components that keep their value
     * @param weights of the sum that is kept; empty for none
     * @return where the value is smallest; empty if the steps do not end
     */
    Optional<double[]> from(double[] start, boolean[] fixed, double[] weights) {
        final double[] at = start.clone();
        double value = likelihood.value(at);
        for (int i = 0; i < STEPS; i++) {
            likelihood.derivatives(at, gradient, expected, average);
            for (int j = 0; j < second.length; j++) {
                for (int l = 0; l < second.length; l++) {
                    second[j][l] = 2 * average[j][l] - expected[j][l];
                }
            }
            double[] step = step(second, at, fixed, weights);
            double fall = -Matrices.dot(gradient, step);
            if (!(fall > 0)) {
                step = step(average, at, fixed, weights);
                fall = -Matrices.dot(gradient, step);
            }
            if (!(fall > tolerance)) {
                return fall >= -tolerance ? Optional.of(at) : Optional.empty();
            }
            final boolean exact =
                    fall <= NEARLY * Math.sqrt(tolerance) && inside(at, step, fixed, weights);
            value = walk(at, step, value, fall);
            if (exact) {
                return Optional.of(at);
            }
        }
        return Optional.empty();
    }

    /**
     * Whether a whole step keeps every component that moves above 0, and none at 0 may want to come
     * back.
     */
    private boolean inside(double[] at, double[] step, boolean[] fixed, double[] weights) {
        boolean inside = true;
        for (int j = 0; j < at.length; j++) {
            final boolean stays =
                    at[j] == 0 && step[j] == 0 && weights.length == 0 && gradient[j] >= 0;
            inside &= fixed[j] || stays || (at[j] > 0 && at[j] + step[j] > 0);
        }
        return inside;
    }

    /** Moves; returns the new value. */
    private double walk(double[] at, double[] step, double value, double fall) {
        double length = 1;
        int stop = -1;
        for (int j = 0; j < at.length; j++) {
            if (step[j] < 0 && at[j] + length * step[j] <= 0) {
                length = -at[j] / step[j];
                stop = j;
            }
        }
        final double[] from = at.clone();
        for (int i = 0; i < HALVINGS; i++) {
            for (int j = 0; j < at.length; j++) {
                at[j] = Math.max(0, from[j] + length * step[j]);
            }
            if (stop >= 0) {
                at[stop] = 0;
            }
            final double found = likelihood.value(at);
            final double wanted =
                    fall < LINE_SEARCH_ABOVE
                            ? value + ROUNDING
                            : value - SUFFICIENT * length * fall;
            if (found <= wanted) {
                return found;
            }
            length /= 2;
            stop = -1;
        }
        System.arraycopy(from, 0, at, 0, at.length);
        return value;
    }

    private double[] step(double[][] hessian, double[] at, boolean[] fixed, double[] weights) {
        final int n = at.length;
        final boolean[] free = new boolean[n];
        final boolean[] refused = new boolean[n];
        for (int j = 0; j < n; j++) {
            free[j] = !fixed[j] && at[j] > 0;
        }
        double[] step = solve(hessian, free, weights);
        while (true) {
            int best = -1;
            double steepest = -1e-10;
            for (int j = 0; j < n; j++) {
                final double slope = gradient[j] + step[n] * (weights.length > 0 ? weights[j] : 0);
                // in units of the component's own standard error
                final double scaled = slope / Math.sqrt(expected[j][j]);
                if (!free[j] && !fixed[j] && !refused[j] && scaled < steepest) {
                    best = j;
                    steepest = scaled;
                }
            }
            if (best < 0) {
                return Arrays.copyOf(step, n);
            }
            free[best] = true;
            step = solve(hessian, free, weights);
            while (sendBack(at, step, free, refused)) {
                step = solve(hessian, free, weights);
            }
        }
    }

    /** Components at 0 that would become negative stay there after all. */
    private static boolean sendBack(double[] at, double[] step, boolean[] free, boolean[] refused) {
        boolean any = false;
        for (int j = 0; j < at.length; j++) {
            if (free[j] && at[j] == 0 && !(step[j] > 0)) {
                free[j] = false;
                refused[j] = true;
                any = true;
            }
        }
        return any;
    }

    /** Step of the free components; the last place holds the multiplier of the sum. */
    private double[] solve(double[][] hessian, boolean[] free, double[] weights) {
        final int n = free.length;
        final double[][] system = new double[n + 1][n + 1];
        final double[] right = new double[n + 1];
        boolean sum = false;
        for (int j = 0; j < n; j++) {
            if (free[j]) {
                for (int l = 0; l < n; l++) {
                    system[j][l] = free[l] ? hessian[j][l] : 0;
                }
                right[j] = -gradient[j];
                if (weights.length > 0 && weights[j] != 0) {
                    system[j][n] = weights[j];
                    system[n][j] = weights[j];
                    sum = true;
                }
            } else {
                system[j][j] = 1;
            }
        }
        if (!sum) {
            system[n][n] = 1;
        }
        final double[] step = Matrices.eliminate(system, right);
        return step.length == 0 ? new double[n + 1] : step;
    }
}
