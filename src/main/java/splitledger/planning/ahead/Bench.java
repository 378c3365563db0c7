package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.List;

/** The days of a planned study: what is injected when. */
final class Bench {
    static final String SPIKE = "SL";
    private static final String CALIBRATION = "calibration";

    private Bench() {}

    /** Labels of the levels, lowest first. */
    static List<String> levels(StudyDesign design) {
        final List<String> labels = new ArrayList<>();
        for (int i = 1; i <= design.levels(); i++) {
            labels.add("L" + i);
        }
        return labels;
    }

    /** Label of the level nearest to the result, on a scale of ratios. */
    static String nearest(StudyPlan plan) {
        final double result = plan.file().amounts().result();
        final List<Double> amounts = plan.design().amounts(plan.file().amounts());
        int best = 0;
        for (int i = 1; i < amounts.size(); i++) {
            if (Math.max(amounts.get(i) / result, result / amounts.get(i))
                    < Math.max(amounts.get(best) / result, result / amounts.get(best))) {
                best = i;
            }
        }
        return "L" + (best + 1);
    }

    /**
     * Calibrants on the first day; preparations of the precision study on every day; blanks over
     * all days, as evenly as they go; low spiked preparations over three; samples on a last day.
     */
    static List<List<Part>> days(StudyPlan plan) {
        final StudyDesign d = plan.design();
        final int bench = d.benchDays();
        final List<List<Part>> days = new ArrayList<>();
        for (int day = 0; day < bench; day++) {
            final List<Part> parts = new ArrayList<>();
            if (day == 0 && d.levels() > 0) {
                parts.add(Part.made(CALIBRATION, "K", levels(d), d.calibrants(), d.injections()));
            }
            if (day == 0 && d.checks() > 0) {
                parts.add(Part.of("maintenance", "M", RunOrder.CHECK, d.checks()).on("before"));
            }
            if (day < d.days()) {
                parts.add(Part.made("repeatability", "P", d.preparations(), d.injections()));
            }
            final int blanks = portion(d.blanks(), day, bench);
            if (blanks > 0) {
                parts.add(Part.made("blank", "B", blanks, 1));
            }
            final int spikeDays = splitledger.evaluation.Minima.SPIKED_DAYS;
            final int spiked = day < spikeDays ? portion(d.spiked(), day, spikeDays) : 0;
            if (spiked > 0) {
                parts.add(Part.made("spike-low", "N", List.of(SPIKE), spiked, 1));
            }
            days.add(parts);
        }
        final int samples = plan.file().samplesInStudy();
        if (samples > 0 && d.days() > 0) {
            days.add(List.of(Part.made("sample", "S", samples * d.ofResult(), d.injections())));
        }
        return days;
    }

    /** The share of one day when a number is spread over several, the first getting more. */
    private static int portion(int number, int day, int days) {
        return number / days + (day < number % days ? 1 : 0);
    }
}
