package splitledger.statistics;

import static splitledger.statistics.Outcomes.value;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import splitledger.Oracle;

/** Data of precision studies for the tests; where they come from stands beside each. */
final class PrecisionSets {
    /** A structure with its responses. */
    record Data(ScatterStructure structure, double[] y) {
        ScatterDesign design() {
            return value(ScatterDesign.of(structure, y.length));
        }

        ScatterMoments moments() {
            return value(ScatterMoments.of(design(), y));
        }

        ScatterReml reml() {
            return value(ScatterReml.of(moments()));
        }

        /** Weight 1 for every component. */
        double[] all() {
            return structure.intermediate(1);
        }
    }

    private PrecisionSets() {}

    /** Factors with labels that run with the rows: each changes after so many rows, in turn. */
    static ScatterFactor factor(String name, int rows, int each, int labels) {
        return ScatterFactor.of(
                name, IntStream.range(0, rows).map(i -> i / each % labels).toArray());
    }

    static ScatterStructure structure(ScatterFactor... factors) {
        return ScatterStructure.read(List.of(factors), Optional.empty(), Map.of());
    }

    static ScatterStructure prepared(ScatterFactor preparation, ScatterFactor... factors) {
        return ScatterStructure.read(List.of(factors), Optional.of(preparation), Map.of());
    }

    static Data oneWay(int each, double... y) {
        return new Data(structure(factor("batch", y.length, each, y.length / each)), y);
    }

    /** Davies and Goldsmith, Statistical Methods in Research and Production, 1972: dye yields. */
    static Data dyestuff() {
        return oneWay(
                5, 1545, 1440, 1440, 1520, 1580, 1540, 1555, 1490, 1560, 1495, 1595, 1550, 1605,
                1510, 1560, 1445, 1440, 1595, 1465, 1545, 1595, 1630, 1515, 1635, 1625, 1520, 1455,
                1450, 1480, 1445);
    }

    /** Box and Tiao, Bayesian Inference in Statistical Analysis, 1973: made with few batches. */
    static Data dyestuff2() {
        return oneWay(
                5, 7.298, 3.846, 2.434, 9.566, 7.99, 5.22, 6.556, 0.608, 11.788, -0.892, 0.11,
                10.386, 13.434, 5.51, 8.166, 2.212, 4.852, 7.092, 9.288, 4.98, 0.282, 9.014, 4.458,
                9.446, 7.198, 1.722, 4.782, 8.106, 0.758, 3.758);
    }

    /** Pinheiro and Bates, Mixed-Effects Models, 2000: travel times in rails. */
    static Data rail() {
        return oneWay(3, 55, 53, 54, 26, 37, 32, 78, 91, 85, 92, 100, 96, 49, 51, 50, 80, 85, 83);
    }

    /** Davies and Goldsmith, 1972: 24 plates by 6 samples of penicillin, mm. */
    static Data penicillin() {
        final String rows =
                "27,23,26,23,23,21,27,23,26,23,23,21,25,21,25,24,24,20,26,23,25,23,23,20,25,22,26,"
                        + "22,23,20,24,22,25,23,22,19,24,20,23,21,22,19,26,22,26,24,24,21,24,21,24,"
                        + "22,22,20,24,21,24,23,22,19,26,23,26,24,24,21,25,22,26,24,24,20,26,24,26,"
                        + "24,25,22,26,23,26,23,23,20,26,23,25,24,24,22,25,22,25,23,23,20,25,21,24,"
                        + "23,23,20,25,22,24,23,23,19,24,21,23,21,21,19,26,23,26,24,24,21,25,21,24,"
                        + "22,22,18,25,22,25,22,22,20,24,21,24,22,24,19,24,21,24,22,21,18";
        return new Data(
                structure(factor("plate", 144, 6, 24), factor("sample", 144, 1, 6)),
                Arrays.stream(rows.split(",")).mapToDouble(Double::parseDouble).toArray());
    }

    /** Analytical Methods Committee, 1989: six laboratories, three batches, duplicates (S1). */
    static Data laboratories() {
        final double[] y = {
            0.29, 0.33, 0.33, 0.32, 0.34, 0.31, 0.4, 0.4, 0.43, 0.36, 0.42, 0.4, 0.4, 0.35, 0.38,
            0.32, 0.38, 0.33, 0.9, 1.3, 0.9, 1.1, 0.9, 0.9, 0.44, 0.44, 0.45, 0.45, 0.42, 0.46,
            0.38, 0.39, 0.4, 0.46, 0.72, 0.79
        };
        return new Data(prepared(factor("batch", 36, 2, 3), factor("laboratory", 36, 6, 6)), y);
    }

    /** Six deliveries of waste, two batches, four tests (a textbook exercise). */
    static Data waste() {
        final double[] y = {
            35.6, 33.6, 34.1, 34.5, 38.6, 41.6, 40.7, 39.9, 30.7, 30.5, 27.2, 26.8, 31.7, 30, 33.8,
            29.6, 30, 35, 35, 32.6, 27.9, 27.7, 29, 32.8, 34.3, 36.4, 33.4, 33.4, 38.7, 38.5, 43.3,
            36.7, 33.2, 35.2, 37.8, 35.4, 35.8, 37.1, 37.1, 40.2, 39.5, 42.1, 38.5, 40.2, 38.7,
            36.1, 35.9, 42.8
        };
        return new Data(prepared(factor("batch", 48, 4, 2), factor("delivery", 48, 8, 6)), y);
    }

    /** Three days by two analysts by two; the same for both analysts. Worked by hand. */
    static Data sameForBothAnalysts() {
        return new Data(
                structure(factor("day", 12, 4, 3), factor("analyst", 12, 2, 2)),
                new double[] {100, 102, 100, 102, 104, 106, 104, 106, 96, 98, 96, 98});
    }

    /** Unbalanced, nested; invented, as in precision.R. */
    static Data unbalancedNested() {
        final double[] y = {
            10.1, 10.4, 10.2, 11.0, 11.3, 9.7, 12.1, 12.4, 12.2, 12.0, 11.5, 11.9, 13.0, 8.8, 9.1,
            9.3, 9.0, 9.6, 10.7, 10.9, 11.1, 10.2, 10.0
        };
        return new Data(
                prepared(
                        ScatterFactor.of("p", letters("11122311112231122211233")),
                        ScatterFactor.of("day", letters("aaaaaabbbbbbbcccccddddd"))),
                y);
    }

    /** Unbalanced, crossed: 4 days by 2 analysts by 2 preparations by 2 without three rows. */
    static Data unbalancedCrossed() {
        final double[] y = {
            99.2, 99.9, 101.3, 103.0, 102.2, 104.4, 104.9, 97.1, 97.9, 96.6, 98.8, 99.5, 100.9,
            100.1, 101.8, 103.3, 102.9, 104.6, 105.2, 106.1, 105.0, 95.9, 96.4, 97.3, 96.2, 98.4,
            99.1, 97.7, 98.2
        };
        final int[] rows =
                IntStream.range(0, 32).filter(i -> i != 2 && i != 11 && i != 20).toArray();
        return new Data(
                prepared(
                        ScatterFactor.of("p", Arrays.stream(rows).map(i -> i / 2 % 2).toArray()),
                        ScatterFactor.of("day", Arrays.stream(rows).map(i -> i / 8).toArray()),
                        ScatterFactor.of(
                                "analyst", Arrays.stream(rows).map(i -> i / 4 % 2).toArray())),
                y);
    }

    static List<String> letters(String all) {
        return List.of(all.split(""));
    }

    /** A number of {@code oracle/precision.csv}. */
    static double oracle(String caseName, String quantity) {
        final String start = caseName + "," + quantity + ",";
        return Oracle.lines("/oracle/precision.csv").stream()
                .filter(line -> line.startsWith(start))
                .mapToDouble(line -> Double.parseDouble(line.substring(start.length())))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no " + start));
    }
}
