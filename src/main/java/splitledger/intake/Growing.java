package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import splitledger.study.State;

/** Columns that grow while a file streams by. */
final class Growing {
    private static final int START = 1024;

    private Growing() {}

    /** Labels; equal ones share one text. */
    static final class Labels {
        private final List<String> labels = new ArrayList<>();
        private final Map<String, String> shared = new HashMap<>();

        void add(String label) {
            final String before = shared.putIfAbsent(label, label);
            labels.add(before == null ? label : before);
        }

        String[] toArray() {
            return labels.toArray(String[]::new);
        }
    }

    /** Numbers. */
    static final class Numbers {
        private double[] values = new double[START];
        private int size;

        void add(double value) {
            if (size == values.length) {
                values = Arrays.copyOf(values, size * 2);
            }
            values[size++] = value;
        }

        double[] toArray() {
            return Arrays.copyOf(values, size);
        }
    }

    /** Areas with what their cells say. */
    static final class Peaks {
        private final Numbers areas = new Numbers();
        private final List<State> states = new ArrayList<>();

        void add(double area, State state) {
            areas.add(area);
            states.add(state);
        }

        double[] areas() {
            return areas.toArray();
        }

        List<State> states() {
            return states;
        }
    }

    /** Line numbers. */
    static final class Lines {
        private int[] values = new int[START];
        private int size;

        void add(int value) {
            if (size == values.length) {
                values = Arrays.copyOf(values, size * 2);
            }
            values[size++] = value;
        }

        int[] toArray() {
            return Arrays.copyOf(values, size);
        }
    }
}
