package splitledger.characteristic.discrimination;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Quantiles;
import splitledger.study.Compounds.Compound;
import splitledger.study.Criterion;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Study;
import splitledger.study.Trail;

/**
 * The ladder by boiling point: members, curve with its band, and the limit that a criterion sets.
 */
final class DiscriminationFigure {
    private static final int POINTS = 80;
    private static final double PERCENT = 100;

    private DiscriminationFigure() {}

    static Figure of(Study study, DiscriminationModel model, String reference, String occasion) {
        final double[] b = model.boilingPoints();
        final double[] means = model.means();
        final int light = model.members().stream().map(Compound::name).toList().indexOf(reference);
        final double[] y = new double[b.length];
        final double zero = model.chosen().value(b[light]);
        for (int i = 0; i < y.length; i++) {
            y[i] = PERCENT * FastMath.exp(means[i] - zero);
        }
        final double[] x = new double[POINTS + 1];
        final double[] line = new double[x.length];
        final double[] lower = new double[x.length];
        final double[] upper = new double[x.length];
        final double coverage = study.protocol().conventions().coverage();
        for (int k = 0; k < x.length; k++) {
            x[k] = b[0] + (b[b.length - 1] - b[0]) * k / POINTS;
            final Uncertain at = model.curve(x[k], b[light]);
            final double half =
                    at.standardUncertainty() > 0
                            ? Quantiles.coverageFactor(coverage, at.degreesOfFreedom())
                                    * at.standardUncertainty()
                            : 0;
            line[k] = PERCENT * FastMath.exp(at.value());
            lower[k] = PERCENT * FastMath.exp(at.value() - half);
            upper[k] = PERCENT * FastMath.exp(at.value() + half);
        }
        final String band = Trail.digits(PERCENT * coverage) + " % band of the curve";
        final List<Layer> layers = new ArrayList<>();
        layers.add(
                new Figure.Band(
                        band,
                        Role.CONFIDENCE,
                        Doubles.of(x),
                        Doubles.of(lower),
                        Doubles.of(upper)));
        layers.add(new Figure.Line("curve", Role.FIT, Doubles.of(x), Doubles.of(line)));
        double least = Math.min(min(y), min(lower));
        for (Criterion criterion : study.protocol().requirements()) {
            if (criterion.quantity().equals("heavy-to-light-ratio")
                    && criterion.limit() instanceof Criterion.Limit.AtLeast limit) {
                final double at = limit.limit() * ("%".equals(criterion.unit()) ? 1 : PERCENT);
                layers.add(
                        new Figure.Line(
                                "limit for " + criterion.of().orElse("the heavy end"),
                                Role.REFERENCE,
                                Doubles.of(b[0], b[b.length - 1]),
                                Doubles.of(at, at)));
                least = Math.min(least, at);
            }
        }
        layers.add(
                new Figure.Points(
                        "members",
                        Role.DATA,
                        Doubles.of(b),
                        Doubles.of(y),
                        model.members().stream().map(Compound::name).toList()));
        final String title =
                "Response of the ladder by boiling point"
                        + (occasion.isEmpty() ? "" : ", " + occasion);
        return new Figure(
                Figure.safeId("ladder", occasion),
                Discrimination.ID,
                "",
                title,
                "Each point is a member's response over what its mass lets expect, the curve at "
                        + reference
                        + " being 100 %. A fall to the right means that heavy compounds are lost.",
                b.length
                        + " members from "
                        + Trail.digits(b[0])
                        + " to "
                        + Trail.digits(b[b.length - 1])
                        + " degC; the last one at "
                        + Trail.digits(Math.rint(10 * y[y.length - 1]) / 10)
                        + " percent of "
                        + reference
                        + ".",
                Axis.covering("boiling point", "°C", b[0], b[b.length - 1]),
                Axis.covering(
                        "relative response",
                        "%",
                        least,
                        Math.max(
                                Arrays.stream(y).max().orElse(PERCENT),
                                Arrays.stream(upper).max().orElse(PERCENT))),
                layers);
    }

    private static double min(double[] values) {
        return Arrays.stream(values).min().orElse(0);
    }
}
