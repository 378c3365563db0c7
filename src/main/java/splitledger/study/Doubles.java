package splitledger.study;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;

/**
 * An immutable array of numbers with value equality, for records that hold many. NaN marks a gap.
 */
public final class Doubles {
    private final double[] values;

    private Doubles(double[] values) {
        this.values = values;
    }

    /** These numbers; the array is copied. */
    public static Doubles of(double... values) {
        return new Doubles(values.clone());
    }

    /** These numbers; the caller gives the array away and changes it no more. */
    public static Doubles handedOver(double[] values) {
        return new Doubles(values);
    }

    /** These numbers. */
    public static Doubles of(List<Double> values) {
        return new Doubles(values.stream().mapToDouble(Double::doubleValue).toArray());
    }

    /** How many. */
    public int size() {
        return values.length;
    }

    /** The i-th. */
    public double at(int i) {
        return values[i];
    }

    /** A copy as an array. */
    public double[] toArray() {
        return values.clone();
    }

    /** In order. */
    public DoubleStream stream() {
        return Arrays.stream(values);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Doubles doubles && Arrays.equals(values, doubles.values);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(values);
    }

    @Override
    public String toString() {
        return Arrays.toString(values);
    }
}
