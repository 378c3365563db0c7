package splitledger.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Moments;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * The areas of the internal standard, which no finding holds: geometric mean and relative scatter
 * over the injections of one experiment at its usual conditions. The amount of internal standard is
 * meant to be the same in all of them.
 */
final class StandardAreas {
    static final String CHARACTERISTIC = "internal-standard";
    static final String AREA = "internal-standard-area";
    static final String SPREAD = "rsd-internal-standard-area";
    private static final List<String> PLACES = List.of("calibration", "repeatability", "recovery");
    private static final double PERCENT = 100;

    private StandardAreas() {}

    /**
     * Values of one study, without instrument, time and place.
     *
     * @param condition the experiment whose injections were taken
     * @param area geometric mean, in the unit of areas
     * @param areaUncertainty its standard uncertainty as the scatter alone gives it
     * @param spread standard deviation of the logarithms, in percent
     * @param freedom injections less one
     */
    record Areas(
            String condition, double area, double areaUncertainty, double spread, double freedom) {}

    /** Empty if there is no internal standard, or fewer than three injections with it. */
    static Optional<Areas> of(Study study) {
        if (study.compounds().internalStandard().isEmpty()) {
            return Optional.empty();
        }
        final String standard = study.compounds().internalStandard().get().compound();
        for (String place : PLACES) {
            final Tree.Mapping block = study.protocol().characteristics().get(place);
            if (block != null) {
                final Rows rows = study.table().rows(Where.of(block.mapping("where")));
                final Optional<Areas> found = of(study.table(), rows, standard, place);
                if (found.isPresent()) {
                    return found;
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<Areas> of(
            InjectionTable table, Rows rows, String standard, String place) {
        final List<Double> logs = new ArrayList<>();
        rows.stream()
                .filter(row -> table.compound(row).equals(standard))
                .filter(row -> table.state(row) == State.MEASURED && table.area(row) > 0)
                .forEach(row -> logs.add(FastMath.log(table.area(row))));
        if (logs.size() < 3) {
            return Optional.empty();
        }
        final Moments moments =
                Moments.ofAll(logs.stream().mapToDouble(Double::doubleValue).toArray());
        final double area = FastMath.exp(moments.mean());
        final double sd = moments.sd();
        return Optional.of(
                new Areas(
                        "series-of=" + place,
                        area,
                        area * sd / FastMath.sqrt(logs.size()),
                        PERCENT * sd,
                        logs.size() - 1));
    }
}
