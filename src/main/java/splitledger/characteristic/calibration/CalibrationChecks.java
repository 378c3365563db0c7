package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Seeds;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.FitChecks;
import splitledger.statistics.RandomStream;
import splitledger.statistics.RunOrder;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.Study;

/**
 * What the calibrants of one compound say against their calibration, in words: preparations that
 * pull it, that lie far off it, and residuals that hang together in run order. Nothing is removed.
 */
final class CalibrationChecks {
    /** An influence above 1 moves the coefficients by about their own uncertainty (Cook 1977). */
    private static final double PULLS = 1;

    private static final double FAR = 3.5;
    private static final double RARE = 0.01;
    private static final int PERMUTATIONS = 999;
    private static final double BOUND = 0.9;

    private final Study study;
    private final Calibrants calibrants;
    private final FitChecks checks;
    private final List<Flag> flags = new ArrayList<>();

    CalibrationChecks(Study study, Calibrants calibrants, CalibrationFit fit, ScatterLine line) {
        this.study = study;
        this.calibrants = calibrants;
        this.checks =
                FitChecks.of(
                        line.fit(),
                        calibrants.amounts(),
                        calibrants.means(),
                        fit.shares().toArray());
    }

    List<Flag> flags() {
        final double[] influence = checks.influences();
        final double[] leverage = checks.leverages();
        final double[] residual = checks.standardisedResiduals();
        for (int i = 0; i < influence.length; i++) {
            final Calibrants.Preparation p = calibrants.preparations().get(i);
            if (influence[i] > PULLS) {
                flag(
                        p,
                        "pulls the calibration: influence "
                                + Digits.two(influence[i])
                                + " (above 1), leverage "
                                + Digits.two(leverage[i])
                                + (leverage[i] > BOUND
                                        ? "; the fit goes almost through it, whatever it says: more calibrants near it would"
                                                + " show whether it is right"
                                        : "; it stays in, look at how it was made"));
            }
            final double own = residual[i] / Math.sqrt(Math.max(1e-9, 1 - leverage[i]));
            if (Math.abs(own) > FAR) {
                flag(
                        p,
                        "lies "
                                + Digits.two(Math.abs(own))
                                + " standard deviations "
                                + (own > 0 ? "above" : "below")
                                + " the calibration; it stays in, look at how it was made");
            }
        }
        inRunOrder(residual);
        return List.copyOf(flags);
    }

    private void flag(Calibrants.Preparation p, String what) {
        flags.add(
                new Flag(
                        study.table().place(p.rows().get(0)),
                        "preparation " + p.label() + ", " + calibrants.compound(),
                        what));
    }

    private void inRunOrder(double[] residuals) {
        final List<Integer> order = new ArrayList<>();
        for (int i = 0; i < residuals.length; i++) {
            order.add(i);
        }
        order.sort(Comparator.comparingDouble(this::turn));
        final double[] sorted = order.stream().mapToDouble(i -> residuals[i]).toArray();
        final RandomStream stream = RandomStream.of(Seeds.of(calibrants.name(), "run order"), 0);
        RunOrder.of(sorted, stream, PERMUTATIONS)
                .fold(
                        test -> {
                            if (test.trendP() < RARE) {
                                say(
                                        "the residuals of the calibration "
                                                + (test.correlation() > 0 ? "rise" : "fall")
                                                + " in run order (rank correlation "
                                                + Digits.two(test.correlation())
                                                + ", p = "
                                                + Digits.two(test.trendP())
                                                + "): the response drifts, or levels were run in order");
                            } else if (test.neighbourP() < RARE) {
                                say(
                                        "residuals of the calibration that follow one another are alike (von Neumann's ratio "
                                                + Digits.two(test.ratio())
                                                + ", p = "
                                                + Digits.two(test.neighbourP())
                                                + "): the response wanders, or a line does not fit levels run in order");
                            }
                            return true;
                        },
                        not -> false);
    }

    private void say(String what) {
        flags.add(new Flag(Place.NONE, calibrants.compound(), what));
    }

    /** When a preparation was injected first: the stated order, else the order of the table. */
    private double turn(int i) {
        final InjectionTable table = study.table();
        return calibrants.preparations().get(i).rows().stream()
                .mapToDouble(
                        row -> {
                            final double stated = table.number("order", row);
                            return Double.isNaN(stated) ? row : stated;
                        })
                .min()
                .orElse(0);
    }
}
