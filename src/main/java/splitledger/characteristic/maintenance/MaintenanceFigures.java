package splitledger.characteristic.maintenance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.LadderEquivalence;
import splitledger.statistics.LadderEquivalence.Change;
import splitledger.statistics.Quantiles;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Study;
import splitledger.study.Trail;

/** Before against after, and how many injections show how much. */
final class MaintenanceFigures {
    private static final double PERCENT = 100;
    private static final int MOST = 30;
    private static final Change NONE = new Change(0, 0, 1);

    private MaintenanceFigures() {}

    /** Change of each compound by boiling point, intervals that hold for all together. */
    static Figure changes(
            Study study,
            Map<String, Change> changes,
            double margin,
            double coverage,
            String first,
            String last) {
        final List<String> names =
                changes.keySet().stream()
                        .filter(c -> at(study, c) > Double.NEGATIVE_INFINITY)
                        .sorted(Comparator.comparingDouble(c -> at(study, c)))
                        .toList();
        final int n = names.size();
        final double[] x = new double[n];
        final double[] y = new double[n];
        final double[] lower = new double[n];
        final double[] upper = new double[n];
        double reach = PERCENT * margin;
        for (int i = 0; i < n; i++) {
            final Change c = changes.getOrDefault(names.get(i), NONE);
            final double half =
                    Quantiles.coverageFactor(1 - (1 - coverage) / n, c.degreesOfFreedom())
                            * c.standardUncertainty();
            x[i] = at(study, names.get(i));
            y[i] = PERCENT * FastMath.expm1(c.value());
            lower[i] = PERCENT * FastMath.expm1(c.value() - half);
            upper[i] = PERCENT * FastMath.expm1(c.value() + half);
            reach = Math.max(reach, Math.max(Math.abs(lower[i]), Math.abs(upper[i])));
        }
        final double low = n == 0 ? 0 : x[0];
        final double high = n == 0 ? 1 : Math.max(x[n - 1], low + 1);
        final Doubles ends = Doubles.of(low, high);
        final double m = PERCENT * margin;
        final List<Layer> layers = new ArrayList<>();
        layers.add(new Figure.Line("upper margin", Role.REFERENCE, ends, Doubles.of(m, m)));
        layers.add(new Figure.Line("lower margin", Role.REFERENCE, ends, Doubles.of(-m, -m)));
        layers.add(
                new Figure.Intervals(
                        "intervals for all together",
                        Role.CONFIDENCE,
                        Doubles.of(x),
                        Doubles.of(y),
                        Doubles.of(lower),
                        Doubles.of(upper)));
        layers.add(new Figure.Points("change", Role.DATA, Doubles.of(x), Doubles.of(y), names));
        return new Figure(
                Figure.safeId("before-after", ""),
                Maintenance.ID,
                "",
                "Change of response from " + first + " to " + last,
                "Each point is a compound's response after over that before. The intervals hold for all"
                        + " compounds together; the verdict uses each compound's own, which is shorter.",
                n + " compounds; margin " + Trail.digits(m) + " percent.",
                Axis.covering("boiling point", "°C", low, high),
                Axis.covering("change of response", "%", -reach, reach),
                layers);
    }

    private static double at(Study study, String compound) {
        return study.compounds()
                .known(compound)
                .map(k -> k.boilingPoint().orElse(Double.NEGATIVE_INFINITY))
                .orElse(Double.NEGATIVE_INFINITY);
    }

    /** Power against injections an occasion. */
    static Figure power(LadderEquivalence test, double sd, double occasionSd) {
        final double[] n = new double[MOST - 1];
        final double[] power = new double[n.length];
        for (int i = 0; i < n.length; i++) {
            n[i] = i + 2.0;
            power[i] = PERCENT * test.power(sd, occasionSd, i + 2);
        }
        return new Figure(
                Figure.safeId("power", ""),
                Maintenance.ID,
                "",
                "Checks that show an unchanged response to be unchanged",
                "If nothing changed, so many of a hundred checks show the compound that scatters most to be"
                        + " within the margin, at least. Decide on the number before the injections.",
                "With "
                        + MOST
                        + " injections an occasion at least "
                        + Trail.digits(Math.rint(power[power.length - 1]))
                        + " of 100 checks.",
                Axis.covering("injections on each occasion", "", 2, MOST),
                Axis.covering("checks that show it", "%", 0, PERCENT),
                List.of(
                        new Figure.Line(
                                "nine of ten",
                                Role.REFERENCE,
                                Doubles.of(2, MOST),
                                Doubles.of(90, 90)),
                        new Figure.Line("at least", Role.FIT, Doubles.of(n), Doubles.of(power))));
    }
}
