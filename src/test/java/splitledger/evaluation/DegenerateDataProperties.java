package splitledger.evaluation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import splitledger.base.ProblemException;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.study.Study;

class DegenerateDataProperties {
    /** With everything that has rows of its own; Monte Carlo needs a budget, which is not here. */
    private static final Extent EXTENT = new Extent(false, true, true);

    private static final Set<String> OF_CALIBRATIONS = good(true);
    private static final Set<String> OF_PRECISION = good(false);

    @Property(tries = 40, seed = "20261125")
    @Label("a calibration that lacks anything still has a row of every quantity, and no NaN")
    void calibrations(@ForAll long seed) throws ProblemException, IOException {
        check(DegenerateStudies.calibration(seed), OF_CALIBRATIONS);
    }

    @Property(tries = 40, seed = "20261125")
    @Label("a precision study that lacks anything still has a row of every quantity, and no NaN")
    void precision(@ForAll long seed) throws ProblemException, IOException {
        check(DegenerateStudies.precision(seed), OF_PRECISION);
    }

    private static void check(Study poor, Set<String> quantities) throws ProblemException {
        final Evaluation found = Evaluator.evaluate(poor, EXTENT);
        assertThat(quantities(found)).containsAll(quantities);
        assertThat(found.findings()).noneMatch(f -> f.toString().contains("NaN"));
        assertThat(found.choices()).noneMatch(c -> c.toString().contains("NaN"));
        assertThat(found.flags()).noneMatch(f -> f.toString().contains("NaN"));
    }

    private static Set<String> good(boolean calibration) {
        try {
            return quantities(
                    Evaluator.evaluate(
                            calibration
                                    ? DegenerateStudies.goodCalibration()
                                    : DegenerateStudies.goodPrecision(),
                            EXTENT));
        } catch (ProblemException | IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static Set<String> quantities(Evaluation evaluation) {
        return evaluation.findings().stream()
                .map(f -> f.key().characteristic() + " " + f.key().quantity())
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
