package splitledger.planning.ahead;

import java.util.List;
import splitledger.base.Numbers;

/** The page of a plan. */
final class PlanPage {
    private PlanPage() {}

    /**
     * The page.
     *
     * @param figure an SVG; empty if there is none
     */
    static byte[] of(StudyPlan plan, byte[] figure, String caption, List<Run> runs) {
        final PlanFile file = plan.file();
        final StudyDesign design = plan.design();
        final PlanWords words = new PlanWords(plan);
        final Html page = new Html("Plan: " + file.title());
        page.paragraph(
                "Made before the first injection. A plan is a promise about studies like this one,"
                        + " not about this one: "
                        + PlanWords.digits(100 * file.wanted().chance())
                        + " % of them are meant to reach what is wanted, if the scatter is what was"
                        + " assumed.");
        page.heading("The design").table(HEADER, cells(words, "design"));
        page.heading("What to expect").table(HEADER, cells(words, "expected"));
        if (figure.length > 0) {
            page.figure(figure, caption);
        }
        page.heading("What it rests on").table(HEADER, cells(words, "prior"));
        page.paragraph(
                "Values marked '"
                        + PlanFile.COMMON
                        + "' are not yours: replace them by your own as soon as you have them.");
        page.heading("Levels")
                .paragraph(
                        design.levels() == 0
                                ? "None."
                                : String.join(
                                                ", ",
                                                design.amounts(file.amounts()).stream()
                                                        .map(Numbers::text)
                                                        .toList())
                                        + " mg/L");
        page.heading("The run order")
                .paragraph(
                        runs.size()
                                + " injections on "
                                + runs.stream().map(Run::day).distinct().count()
                                + " days, washes and checks included; run-list.csv holds it,"
                                + " bench.html is made for the bench, protocol.yaml evaluates it.");
        page.heading("Cautions").list(BenchSheet.CAUTIONS, "cautions");
        return page.bytes();
    }

    private static final List<String> HEADER =
            List.of("what", "value", "unit", "8 of 10 studies", "why");

    private static List<List<String>> cells(PlanWords words, String part) {
        return words.rows(part).stream()
                .map(
                        r ->
                                List.of(
                                        r.quantity(),
                                        PlanWords.digits(r.value()),
                                        r.unit().equals("1") ? "" : r.unit(),
                                        Double.isNaN(r.lower())
                                                ? ""
                                                : PlanWords.digits(r.lower())
                                                        + " to "
                                                        + PlanWords.digits(r.upper()),
                                        r.why()))
                .toList();
    }
}
