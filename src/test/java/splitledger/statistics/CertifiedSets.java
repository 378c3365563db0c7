package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import splitledger.Oracle;

/**
 * Data sets of the NIST StRD, read from {@code strd/} or made by their rule. A set made by rule is
 * built from decimal texts, as if it had been read from a file.
 */
final class CertifiedSets {
    /** Readings of a one-way layout. */
    record OneWay(double[] y, List<String> treatment) {
        /** Treatments and what is left within them. */
        ScatterMoments scatter() {
            return new PrecisionSets.Data(
                            PrecisionSets.structure(ScatterFactor.of("treatment", treatment)), y)
                    .moments();
        }
    }

    private CertifiedSets() {}

    /** A set of the univariate or regression kind, one column of it. */
    static double[] column(String name, int column) {
        return Oracle.lines("/strd/" + name + ".csv").stream()
                .skip(1)
                .mapToDouble(line -> Double.parseDouble(line.split(",", -1)[column]))
                .toArray();
    }

    /** The first 5000 digits of pi. */
    static double[] digitsOfPi() {
        return Oracle.lines("/strd/PiDigits.txt").stream()
                .flatMapToInt(String::chars)
                .mapToDouble(c -> c - '0')
                .toArray();
    }

    /** SiRstv or AtmWtAg. */
    static OneWay oneWay(String name) {
        final List<String> treatments =
                Oracle.lines("/strd/" + name + ".csv").stream()
                        .skip(1)
                        .map(line -> line.split(",", -1)[0])
                        .toList();
        return new OneWay(column(name, 1), treatments);
    }

    /**
     * SmLs01 to SmLs09: nine treatments, 21, 201 or 2001 readings each, leading digits 1, 10^6 or
     * 10^12. Tenths of the first reading 4 3 5 3 5 3 5 3 5; the others alternate, one tenth below
     * and one above.
     */
    static OneWay simonLesage(String leading, int readings) {
        final int[] tenths = {4, 3, 5, 3, 5, 3, 5, 3, 5};
        final double[] y = new double[tenths.length * readings];
        final List<String> treatments = new ArrayList<>();
        for (int i = 0; i < y.length; i++) {
            final int treatment = i / readings;
            final int place = i % readings;
            final int off = place == 0 ? 0 : place % 2 == 1 ? -1 : 1;
            y[i] = Double.parseDouble(leading + "." + (tenths[treatment] + off));
            treatments.add(Integer.toString(treatment + 1));
        }
        return new OneWay(y, treatments);
    }

    /** NumAcc2 to NumAcc4: 1001 values, one at .2, then .1 and .3 in turn. */
    static double[] accuracy(String leading) {
        final double[] y = new double[1001];
        for (int i = 0; i < y.length; i++) {
            y[i] = Double.parseDouble(leading + (i == 0 ? ".2" : i % 2 == 1 ? ".1" : ".3"));
        }
        return y;
    }
}
