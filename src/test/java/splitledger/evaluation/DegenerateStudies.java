package splitledger.evaluation;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.intake.StudyReader;
import splitledger.statistics.RandomStream;
import splitledger.study.Study;

/**
 * Small studies that lack what methods need: few preparations, no scatter, one level or label,
 * missing cells, numbers of any size.
 */
final class DegenerateStudies {
    private static final double[] SCALES = {1e-12, 1e-3, 1, 1, 1e6, 1e12};
    private static final double[] NOISE = {0, 0, 1e-12, 1e-3, 0.05, 1};
    private static final double[] SLOPES = {0, 1, 1, 1, -1};
    private static final double[] MISSING = {0, 0, 0.1, 0.4};

    private final RandomStream random;
    private final StringBuilder table = new StringBuilder();
    private int injections;
    private double scale = 1;
    private double noise = 0.01;
    private double missing;

    private DegenerateStudies(RandomStream random) {
        this.random = random;
    }

    /** A calibration with samples, blanks and spiked preparations. */
    static Study calibration(long seed) throws ProblemException, IOException {
        return new DegenerateStudies(RandomStream.of(seed, 0)).calibration(true);
    }

    /** The same with all that the methods need. */
    static Study goodCalibration() throws ProblemException, IOException {
        return new DegenerateStudies(RandomStream.of(1, 1)).calibration(false);
    }

    /** Repeated preparations of days and analysts. */
    static Study precision(long seed) throws ProblemException, IOException {
        return new DegenerateStudies(RandomStream.of(seed, 0)).precision(true);
    }

    /** The same with all that the methods need. */
    static Study goodPrecision() throws ProblemException, IOException {
        return new DegenerateStudies(RandomStream.of(1, 1)).precision(false);
    }

    private double one(double... of) {
        return of[random.nextInt(of.length)];
    }

    private int count(boolean poor, int most, int usual) {
        return poor ? 1 + random.nextInt(most) : usual;
    }

    private void look(boolean poor) {
        if (poor) {
            scale = one(SCALES);
            noise = one(NOISE);
            missing = one(MISSING);
        }
    }

    private Study calibration(boolean poor) throws ProblemException, IOException {
        look(poor);
        final double slope = poor ? one(SLOPES) : 1;
        final double offset = poor ? one(0, 0, 1, 100) : 0.05;
        final double unit = poor ? one(1e-6, 1, 1, 1e6) : 1;
        table.append("injection,compound,area,series,preparation,level,amount\n");
        final int levels = count(poor, 4, 5);
        final int preparations = count(poor, 3, 3);
        final int each = count(poor, 2, 2);
        for (int l = 1; l <= levels; l++) {
            for (int p = 0; p < preparations; p++) {
                calibrant(each, "calibration", "L" + l, p, unit * l, slope * l + offset);
            }
        }
        for (int p = 0; p < count(poor, 3, 10); p++) {
            calibrant(each, "blank", "", p, Double.NaN, offset);
        }
        for (int p = 0; p < count(poor, 3, 7); p++) {
            calibrant(each, "spike", "", p, Double.NaN, 0.1 * slope + offset);
        }
        for (int p = 0; p < 2; p++) {
            calibrant(each, "sample", "", p, Double.NaN, 1.5 * slope + offset);
        }
        return study(
                "calibration: {where: {series: calibration}, predict: {series: sample}},"
                        + " detection: {where: {series: [calibration, blank]}, spiked: {series: spike}}");
    }

    private void calibrant(
            int each, String series, String level, int preparation, double amount, double mean) {
        final double own = mean * (1 + noise * random.nextNormal());
        for (int i = 0; i < each; i++) {
            row(
                    own * (1 + noise * random.nextNormal() / 2),
                    series + ',' + series + level + preparation + ',' + level,
                    Double.isNaN(amount) ? "" : Double.toString(amount));
        }
    }

    private void row(double value, String labels, String last) {
        injections++;
        final String area = random.nextDouble() < missing ? "" : Double.toString(scale * value);
        table.append("i").append(injections).append(",c,").append(area).append(',');
        table.append(labels).append(',').append(last).append('\n');
    }

    private Study precision(boolean poor) throws ProblemException, IOException {
        look(poor);
        final double offset = poor ? one(0, 1, 1, 100, -1) : 100;
        table.append("injection,compound,area,series,preparation,day,analyst\n");
        final int days = count(poor, 4, 6);
        final int analysts = count(poor, 3, 5);
        final int preparations = count(poor, 3, 3);
        final int each = count(poor, 3, 2);
        final double between = poor ? one(0, noise, 1) : 0.02;
        for (int d = 0; d < days; d++) {
            final double day = between * random.nextNormal();
            for (int a = 0; a < analysts; a++) {
                for (int p = 0; p < preparations; p++) {
                    final double own = offset + day + noise * random.nextNormal();
                    for (int i = 0; i < each; i++) {
                        row(
                                own + noise * random.nextNormal() / 2,
                                "repeat,p" + d + a + p + ",d" + d,
                                "a" + a);
                    }
                }
            }
        }
        return study("repeatability: {where: {series: repeat}, factors: [day, analyst]}");
    }

    private Study study(String characteristics) throws ProblemException, IOException {
        final Map<String, byte[]> files = new TreeMap<>();
        files.put("areas.csv", table.toString().getBytes(StandardCharsets.UTF_8));
        final String protocol =
                "splitledger: 1\ntables: [{file: areas.csv, zero-means: not-detected}]\n"
                        + "compounds: {targets: [c]}\ncharacteristics: {"
                        + characteristics
                        + "}\n";
        files.put("protocol.yaml", protocol.getBytes(StandardCharsets.UTF_8));
        return StudyReader.read(new MemoryVault(files), "protocol.yaml");
    }
}
