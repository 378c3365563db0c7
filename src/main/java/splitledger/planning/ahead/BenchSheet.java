package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;

/** The run order for the bench: cautions, solutions, every injection with a box to tick. */
final class BenchSheet {
    /** What to take care of; local codes and licensed practice go before. */
    static final List<String> CAUTIONS =
            List.of(
                    "Local codes and regulations, and the practice of people licensed for the work,"
                            + " decide. This page does not replace them, and no result releases an"
                            + " instrument or a procedure: that is for the competent person.",
                    "Inlet, detector and oven burn skin. Let the inlet cool and turn off the"
                            + " carrier gas before you open it.",
                    "Gas cylinders are under high pressure: fastened upright, with a regulator made"
                            + " for the gas.",
                    "Hydrogen as carrier or detector gas burns and explodes in air: leak check,"
                            + " hydrogen sensor, and never into a cold oven or a broken column.",
                    "Most of what is injected leaves through the split vent as vapour: through a"
                            + " trap or into an exhaust, not into the room.",
                    "Standards, solvents and samples may be toxic or flammable: safety data sheets"
                            + " first, fume hood, the gloves that they name, and waste by its class.");

    private BenchSheet() {}

    static byte[] of(String title, List<Run> runs, List<String> remarks) {
        final Html page = new Html("Bench sheet: " + title);
        page.heading("Cautions").list(CAUTIONS, "cautions");
        page.heading("Before the first injection").list(remarks, "remarks");
        page.heading("Solutions and vials")
                .table(
                        List.of("series", "solution", "level", "injections", "vials"),
                        solutions(runs));
        final Map<String, List<Run>> days = new LinkedHashMap<>();
        runs.forEach(r -> days.computeIfAbsent(r.day(), d -> new ArrayList<>()).add(r));
        days.forEach(
                (day, of) -> page.heading(day + ", " + of.get(0).date()).table(HEADER, rows(of)));
        return page.bytes();
    }

    private static final List<String> HEADER =
            List.of(
                    "done",
                    "injection",
                    "vial",
                    "series",
                    "level",
                    "split",
                    "inlet / degC",
                    "remark");

    private static List<List<String>> rows(List<Run> runs) {
        return runs.stream()
                .map(
                        r ->
                                List.of(
                                        " ",
                                        r.injection(),
                                        r.vial(),
                                        r.series(),
                                        r.level(),
                                        r.onColumn() ? "on the column" : Numbers.text(r.split()),
                                        r.onColumn() ? "cold" : Numbers.text(r.temperature()),
                                        r.note()))
                .toList();
    }

    private static List<List<String>> solutions(List<Run> runs) {
        final Map<String, List<Run>> all = new LinkedHashMap<>();
        runs.stream()
                .sorted(java.util.Comparator.comparing(Run::series).thenComparing(Run::preparation))
                .forEach(
                        r ->
                                all.computeIfAbsent(
                                                r.series() + "/" + r.preparation(),
                                                k -> new ArrayList<>())
                                        .add(r));
        return all.values().stream()
                .map(
                        of ->
                                List.of(
                                        of.get(0).series(),
                                        of.get(0).preparation(),
                                        of.get(0).level(),
                                        Integer.toString(of.size()),
                                        Long.toString(
                                                of.stream().map(Run::vial).distinct().count())))
                .toList();
    }
}
