package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import splitledger.study.State;

/** Columns that grow while a file streams by. */
final class Growing {
    private static final int START = 1024;
    private static final int PIECE = 1 << 15;

    private Growing() {}

    private static int larger(int size) {
        return size + (size >> 1);
    }

    /** Labels; each different one is kept once, all one behind another in one array. */
    static final class Labels {
        private final Lines codes = new Lines();
        private char[] pool = new char[START];
        private int[] ends = new int[START];
        private int[] hashes = new int[START];
        private int[] next = new int[START];
        private int[] slots = new int[2 * START];
        private int size;
        private int last = -1;

        /** Adds the label between two positions. */
        void add(char[] text, int from, int to) {
            codes.add(intern(text, from, to));
        }

        /** Adds a label. */
        void add(String label) {
            add(label.toCharArray(), 0, label.length());
        }

        /** Adds a label by its code. */
        void add(int code) {
            codes.add(code);
        }

        /**
         * The code of the label between two positions, without a row for it. What came after the
         * last label the time before is tried first: tables repeat themselves.
         */
        int intern(char[] text, int from, int to) {
            if (last >= 0 && same(next[last], text, from, to)) {
                last = next[last];
                return last;
            }
            final int code = code(text, from, to);
            if (last >= 0) {
                next[last] = code;
            }
            last = code;
            return code;
        }

        /** The label of a code. */
        String label(int code) {
            return new String(pool, start(code), ends[code] - start(code));
        }

        /** All different labels, in the order in which they were met. */
        List<String> labels() {
            return IntStream.range(0, size).mapToObj(this::label).toList();
        }

        Coded coded() {
            final int rows = codes.size();
            return new Coded(codes.taken(), rows, labels());
        }

        private int code(char[] text, int from, int to) {
            int hash = 0;
            for (int i = from; i < to; i++) {
                hash = 31 * hash + text[i];
            }
            int slot = spread(hash);
            while (slots[slot] != 0) {
                final int code = slots[slot] - 1;
                if (hashes[code] == hash && same(code, text, from, to)) {
                    return code;
                }
                slot = (slot + 1) & (slots.length - 1);
            }
            put(text, from, to, hash);
            slots[slot] = size;
            if (2 * size > slots.length) {
                spreadAgain();
            }
            return size - 1;
        }

        private void put(char[] text, int from, int to, int hash) {
            final int start = size == 0 ? 0 : ends[size - 1];
            final int end = start + to - from;
            if (end > Limits.LABEL_CHARS) {
                throw new RowCells.TooLargeException();
            }
            if (end > pool.length) {
                pool = Arrays.copyOf(pool, Math.max(larger(pool.length), end));
            }
            if (size == ends.length) {
                ends = Arrays.copyOf(ends, larger(size));
                hashes = Arrays.copyOf(hashes, larger(size));
                next = Arrays.copyOf(next, larger(size));
            }
            System.arraycopy(text, from, pool, start, to - from);
            ends[size] = end;
            hashes[size] = hash;
            next[size] = size;
            size++;
        }

        private void spreadAgain() {
            slots = new int[2 * slots.length];
            for (int c = 0; c < size; c++) {
                int free = spread(hashes[c]);
                while (slots[free] != 0) {
                    free = (free + 1) & (slots.length - 1);
                }
                slots[free] = c + 1;
            }
        }

        /** Labels that differ in their last character only shall not lie side by side. */
        private int spread(int hash) {
            final int mixed = hash * 0x9E3779B9;
            return (mixed ^ (mixed >>> 15)) & (slots.length - 1);
        }

        private int start(int code) {
            return code == 0 ? 0 : ends[code - 1];
        }

        private boolean same(int code, char[] text, int from, int to) {
            final int start = start(code);
            final int length = to - from;
            if (ends[code] - start != length) {
                return false;
            }
            for (int i = length - 1; i >= 0; i--) {
                if (pool[start + i] != text[from + i]) {
                    return false;
                }
            }
            return true;
        }
    }

    /** Numbers, kept in pieces: nothing is copied while they grow. */
    static final class Numbers {
        private final List<double[]> full = new ArrayList<>();
        private double[] piece = new double[START];
        private int at;

        void add(double value) {
            if (at == piece.length) {
                full.add(piece);
                piece = new double[PIECE];
                at = 0;
            }
            piece[at++] = value;
        }

        /** All of them; there are none left afterwards. */
        double[] taken() {
            final double[] all = new double[full.stream().mapToInt(p -> p.length).sum() + at];
            int from = 0;
            for (double[] p : full) {
                System.arraycopy(p, 0, all, from, p.length);
                from += p.length;
            }
            System.arraycopy(piece, 0, all, from, at);
            full.clear();
            at = 0;
            return all;
        }
    }

    /** Areas with what their cells say. */
    static final class Peaks {
        private final Numbers areas = new Numbers();
        private byte[] states = new byte[START];
        private int size;

        void add(double area, State state) {
            if (size == states.length) {
                states = Arrays.copyOf(states, larger(size));
            }
            states[size++] = state.index();
            areas.add(area);
        }

        /** The areas; there are none left afterwards. */
        double[] taken() {
            return areas.taken();
        }

        /** The states as numbers; behind them the array may go on. */
        byte[] states() {
            return states;
        }
    }

    /** Line numbers, codes; kept in pieces as well. */
    static final class Lines {
        private final List<int[]> full = new ArrayList<>();
        private int[] piece = new int[START];
        private int at;
        private int size;

        void add(int value) {
            if (at == piece.length) {
                full.add(piece);
                piece = new int[PIECE];
                at = 0;
            }
            piece[at++] = value;
            size++;
        }

        int size() {
            return size;
        }

        /** All of them; there are none left afterwards. */
        int[] taken() {
            final int[] all = new int[size];
            int from = 0;
            for (int[] p : full) {
                System.arraycopy(p, 0, all, from, p.length);
                from += p.length;
            }
            System.arraycopy(piece, 0, all, from, at);
            full.clear();
            at = 0;
            size = 0;
            return all;
        }
    }
}
