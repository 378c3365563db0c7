package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import splitledger.characteristic.Responses;
import splitledger.statistics.Moments;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.InjectionTable;
import splitledger.study.Study;
import splitledger.study.Trail;

/** Replicates by run order, as percent of their mean; two symbols take turns from day to day. */
final class RunOrderFigure {
    private RunOrderFigure() {}

    static Figure of(Study study, Responses.Picked picked, String compound, Responses responses) {
        final InjectionTable table = study.table();
        final double[] y = picked.used().stream().mapToDouble(Responses.Response::value).toArray();
        final double mean = Moments.ofAll(y).mean();
        final List<List<Integer>> turns = List.of(new ArrayList<>(), new ArrayList<>());
        String day = "";
        int turn = 0;
        for (int i = 0; i < y.length; i++) {
            final String label = table.label("day", picked.used().get(i).row());
            if (i > 0 && !label.equals(day)) {
                turn = 1 - turn;
            }
            day = label;
            turns.get(turn).add(i);
        }
        final double[] shown =
                Arrays.stream(y).map(v -> mean == 0 ? v : 100 * (v - mean) / mean).toArray();
        final double reach = Arrays.stream(shown).map(Math::abs).max().orElse(1);
        final boolean days = !turns.get(1).isEmpty();
        final List<Layer> layers = new ArrayList<>();
        layers.add(
                new Figure.Line("mean", Role.REFERENCE, Doubles.of(1, y.length), Doubles.of(0, 0)));
        layers.add(
                points(
                        picked,
                        turns.get(0),
                        shown,
                        days ? "first day and every second after it" : "injections",
                        Role.DATA));
        if (days) {
            layers.add(points(picked, turns.get(1), shown, "the days between", Role.OTHER_DATA));
        }
        return new Figure(
                Figure.safeId("run-order", compound),
                Repeatability.ID,
                compound,
                "Replicates of " + compound + " in run order",
                "Each point is one injection's "
                        + responses.words()
                        + ", as distance from the mean of all. A slope means drift, a step something that changed.",
                y.length
                        + " injections, farthest "
                        + Trail.digits(reach)
                        + (mean == 0 ? "" : " percent")
                        + " from the mean.",
                Axis.covering("injection in run order", "", 1, Math.max(2, y.length)),
                Axis.covering(
                        "distance from the mean",
                        mean == 0 ? responses.unit() : "%",
                        -reach,
                        reach),
                layers);
    }

    private static Figure.Points points(
            Responses.Picked picked, List<Integer> which, double[] y, String name, Role role) {
        return new Figure.Points(
                name,
                role,
                Doubles.of(which.stream().mapToDouble(i -> i + 1).toArray()),
                Doubles.of(which.stream().mapToDouble(i -> y[i]).toArray()),
                which.stream()
                        .map(i -> picked.used().get(i))
                        .map(r -> "injection " + r.injection() + ", preparation " + r.preparation())
                        .toList());
    }
}
