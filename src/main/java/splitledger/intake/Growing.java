package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import splitledger.study.State;

/** Columns that grow while a file streams by. */
final class Growing {
    private static final int START = 1024;

    private Growing() {}

    private static int larger(int size) {
        return size + (size >> 1);
    }

    /** Labels; each different one is kept once. */
    static final class Labels {
        private final List<String> labels = new ArrayList<>();
        private final Lines codes = new Lines();
        private int[] hashes = new int[START];
        private int[] slots = new int[2 * START];
        private long chars;
        private int last = -1;

        /** Adds the label between two positions. */
        void add(char[] text, int from, int to) {
            codes.add(intern(text, from, to));
        }

        /** Adds a label. */
        void add(String label) {
            add(label.toCharArray(), 0, label.length());
        }

        /** The code of the label between two positions, without a row for it. */
        int intern(char[] text, int from, int to) {
            if (last < 0 || !same(labels.get(last), text, from, to)) {
                last = code(text, from, to);
            }
            return last;
        }

        /** The label of a code. */
        String label(int code) {
            return labels.get(code);
        }

        List<String> labels() {
            return labels;
        }

        Coded coded() {
            return new Coded(codes.toArray(), labels);
        }

        private int code(char[] text, int from, int to) {
            int hash = 0;
            for (int i = from; i < to; i++) {
                hash = 31 * hash + text[i];
            }
            int slot = spread(hash);
            while (slots[slot] != 0) {
                final int code = slots[slot] - 1;
                if (hashes[code] == hash && same(labels.get(code), text, from, to)) {
                    return code;
                }
                slot = (slot + 1) & (slots.length - 1);
            }
            return put(new String(text, from, to - from), hash, slot);
        }

        private int put(String label, int hash, int slot) {
            chars += label.length();
            if (chars > Limits.LABEL_CHARS) {
                throw new RowCells.TooLargeException();
            }
            final int code = labels.size();
            labels.add(label);
            if (code == hashes.length) {
                hashes = Arrays.copyOf(hashes, 2 * code);
            }
            hashes[code] = hash;
            slots[slot] = code + 1;
            if (2 * labels.size() > slots.length) {
                slots = new int[2 * slots.length];
                for (int c = 0; c < labels.size(); c++) {
                    int free = spread(hashes[c]);
                    while (slots[free] != 0) {
                        free = (free + 1) & (slots.length - 1);
                    }
                    slots[free] = c + 1;
                }
            }
            return code;
        }

        /** Labels that differ in their last character only shall not lie side by side. */
        private int spread(int hash) {
            final int mixed = hash * 0x9E3779B9;
            return (mixed ^ (mixed >>> 15)) & (slots.length - 1);
        }

        private static boolean same(String label, char[] text, int from, int to) {
            final int length = to - from;
            if (label.length() != length) {
                return false;
            }
            for (int i = length - 1; i >= 0; i--) {
                if (label.charAt(i) != text[from + i]) {
                    return false;
                }
            }
            return true;
        }
    }

    /** Numbers. */
    static final class Numbers {
        private double[] values = new double[START];
        private int size;

        void add(double value) {
            if (size == values.length) {
                values = Arrays.copyOf(values, larger(size));
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
        private byte[] states = new byte[START];

        void add(double area, State state) {
            if (areas.size == states.length) {
                states = Arrays.copyOf(states, larger(areas.size));
            }
            states[areas.size] = state.index();
            areas.add(area);
        }

        double[] areas() {
            return areas.toArray();
        }

        /** The states as numbers. */
        byte[] states() {
            return Arrays.copyOf(states, areas.size);
        }
    }

    /** Line numbers, codes. */
    static final class Lines {
        private int[] values = new int[START];
        private int size;

        void add(int value) {
            if (size == values.length) {
                values = Arrays.copyOf(values, larger(size));
            }
            values[size++] = value;
        }

        int[] toArray() {
            return Arrays.copyOf(values, size);
        }
    }
}
