package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.characteristic.discrimination.DiscriminationModel;
import splitledger.propagation.Uncertain;
import splitledger.study.Compounds.Compound;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/** The ladder without what decomposes, and the parent below its curve. */
final class LossLadderFigure {
    private static final double PERCENT = 100;

    private final LossRows rows;
    private final LossCurves curves;

    LossLadderFigure(LossRows rows, double coverage) {
        this.rows = rows;
        curves = new LossCurves(rows, coverage);
    }

    /** Draws it. */
    Figure of(LossDeficit deficit) {
        final DiscriminationModel model = deficit.ladder().model();
        final double[] b = model.boilingPoints();
        final int found =
                model.members().stream()
                        .map(Compound::name)
                        .toList()
                        .indexOf(deficit.ladder().reference());
        final int light = Math.max(0, found);
        final double zero = model.chosen().value(b[light]);
        final List<Layer> layers = new ArrayList<>();
        final LossCurves.Range y = new LossCurves.Range();
        LossCurves.curve(
                "curve of the ladder",
                curves.band(),
                b[0],
                b[b.length - 1],
                at -> PERCENT * FastMath.exp(model.curve(at, b[light]).value()),
                at -> {
                    final Uncertain c = model.curve(at, b[light]);
                    return PERCENT * FastMath.exp(c.value() - curves.half(c));
                },
                at -> {
                    final Uncertain c = model.curve(at, b[light]);
                    return PERCENT * FastMath.exp(c.value() + curves.half(c));
                },
                layers,
                y);
        final double[] members = new double[b.length];
        for (int i = 0; i < b.length; i++) {
            members[i] = PERCENT * FastMath.exp(model.means()[i] - zero);
        }
        y.add(members);
        layers.add(
                new Figure.Points(
                        "members of the ladder",
                        Role.DATA,
                        Doubles.of(b),
                        Doubles.of(members),
                        model.members().stream().map(Compound::name).toList()));
        final double at = deficit.parent().boilingPoint().orElseThrow();
        final double curve = model.chosen().value(at) - zero;
        final List<LossRows.Group> groups = rows.groups();
        final double[] x = new double[groups.size()];
        final double[] value = new double[x.length];
        final List<String> labels = new ArrayList<>();
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < x.length; i++) {
            x[i] = at;
            value[i] = PERCENT * FastMath.exp(curve + deficit.log(groups.get(i)).value());
            least = Math.min(least, value[i]);
            labels.add(
                    Double.isNaN(groups.get(i).temperature())
                            ? rows.parent()
                            : Trail.digits(groups.get(i).temperature()) + " °C");
        }
        y.add(value);
        layers.add(
                new Figure.Points(
                        rows.parent() + ", one point a condition",
                        Role.OTHER_DATA,
                        Doubles.of(x),
                        Doubles.of(value),
                        labels));
        return new Figure(
                Figure.safeId("ladder-and", rows.parent()),
                Losses.ID,
                rows.parent(),
                "Ladder, and " + rows.parent() + " beside it",
                "What a point of "
                        + rows.parent()
                        + " lies below the curve is missing and not explained by its boiling point: it"
                        + " decomposed, stuck, or its amount or response is not as stated.",
                b.length
                        + " members of the ladder with their curve; the lowest point of "
                        + rows.parent()
                        + " stands at "
                        + Digits.three(least)
                        + " percent, the curve there at "
                        + Digits.three(PERCENT * FastMath.exp(curve))
                        + " percent.",
                Axis.covering("boiling point", "°C", b[0], b[b.length - 1]),
                Axis.covering("relative response", "%", y.low(), y.high()),
                layers);
    }
}
