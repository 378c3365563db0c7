package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.evaluation.Minima;

/**
 * The days of a planned study: what is injected when. What belongs together stays on one day: all
 * calibrants, the preparations of a day of the precision study, all settings of an experiment.
 * Blanks and spiked preparations fill what is left; where nothing is left, days are added.
 */
final class Bench {
    static final String SPIKE = "SL";
    private static final String CALIBRATION = "calibration";
    private static final String REPEATABILITY = "repeatability";
    private static final String BLANK = "blank";
    private static final String SPIKED = "spike-low";
    private static final String SAMPLE = "sample";

    private final PlanFile.Setting setting;
    private final String highest;
    private final List<Day> days = new ArrayList<>();
    private boolean fits = true;
    private int beforeSamples;

    private Bench(PlanFile.Setting setting, String highest) {
        this.setting = setting;
        this.highest = highest;
    }

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

    /** Label of the highest level; empty without levels. */
    static String highest(StudyDesign design) {
        return design.levels() == 0 ? "" : "L" + design.levels();
    }

    /** Lays a design out; empty if a day does not hold what must be done on one. */
    static Optional<Bench> of(StudyDesign d, PlanFile file) {
        final Bench bench = new Bench(file.setting(), highest(d));
        if (d.levels() > 0) {
            bench.put(Part.made(CALIBRATION, "K", levels(d), d.calibrants(), d.injections()));
        }
        for (int i = 0; i < d.days(); i++) {
            bench.put(Part.made(REPEATABILITY, "P", d.preparations(), d.injections()));
        }
        for (Experiment experiment : d.experiments()) {
            experiment.days().forEach(bench::put);
        }
        if (d.checks() > 0) {
            bench.put(Part.of("maintenance", "M", RunOrder.CHECK, d.checks()).on("before"));
        }
        bench.spread(SPIKED, d.spiked(), Minima.SPIKED_DAYS);
        bench.spread(BLANK, d.blanks(), Integer.MAX_VALUE);
        bench.beforeSamples = bench.days.size();
        final int samples = d.days() > 0 ? file.samplesInStudy() * d.ofResult() : 0;
        for (int i = 0; i < samples; i++) {
            bench.sample(d.injections());
        }
        return bench.fits ? Optional.of(bench) : Optional.empty();
    }

    /** What is injected on each day. */
    List<List<Part>> days() {
        return days.stream().map(Day::parts).toList();
    }

    /** Days of the study, those of samples not counted. */
    int studyDays() {
        return beforeSamples;
    }

    /** Injections on those days, washes and checks included. */
    int injections() {
        return days.subList(0, beforeSamples).stream().mapToInt(Day::runs).sum();
    }

    private void put(Part part) {
        put(List.of(part));
    }

    /** Puts parts on the first day that holds them and has none of their series. */
    private void put(List<Part> parts) {
        final String series = parts.get(0).series();
        for (Day day : days) {
            if (!day.has(series) && day.takes(parts)) {
                day.add(parts);
                return;
            }
        }
        begin(parts);
    }

    private void begin(List<Part> parts) {
        final Day day = new Day();
        fits &= day.takes(parts);
        day.add(parts);
        days.add(day);
    }

    /** One by one on the day that has the fewest of them and room. */
    private void spread(String series, int number, int most) {
        final Part one =
                series.equals(SPIKED)
                        ? Part.made(SPIKED, "N", List.of(SPIKE), 1, 1)
                        : Part.made(BLANK, "B", 1, 1);
        final int least = series.equals(SPIKED) ? most : 1;
        for (int i = 0; i < number; i++) {
            while (days.size() < least) {
                days.add(new Day());
            }
            final long used = days.stream().filter(d -> d.has(series)).count();
            final Optional<Day> free =
                    days.stream()
                            .filter(d -> (used < most || d.has(series)) && d.takes(List.of(one)))
                            .min(java.util.Comparator.comparingInt(d -> d.count(series)));
            if (free.isPresent()) {
                free.get().more(one);
            } else {
                begin(List.of(one));
            }
        }
    }

    private void sample(int injections) {
        final Part one = Part.made(SAMPLE, "S", 1, injections);
        if (days.size() > beforeSamples && days.get(days.size() - 1).takes(List.of(one))) {
            days.get(days.size() - 1).more(one);
        } else {
            begin(List.of(one));
        }
    }

    /** One day while it is filled. */
    private final class Day {
        private final List<Part> parts = new ArrayList<>();

        List<Part> parts() {
            return List.copyOf(parts);
        }

        boolean has(String series) {
            return count(series) > 0;
        }

        int count(String series) {
            return parts.stream()
                    .filter(p -> p.series().equals(series))
                    .mapToInt(Part::preparations)
                    .sum();
        }

        void add(List<Part> more) {
            parts.addAll(more);
        }

        /** Adds preparations to a part that is like it. */
        void more(Part one) {
            for (int i = 0; i < parts.size(); i++) {
                final Part there = parts.get(i);
                if (there.series().equals(one.series())) {
                    parts.set(i, there.preparing(there.preparations() + one.preparations()));
                    return;
                }
            }
            parts.add(one);
        }

        boolean takes(List<Part> more) {
            final List<Part> all = new ArrayList<>(parts);
            all.addAll(more);
            return RunOrder.most(all, setting, highest) <= setting.day().most();
        }

        int runs() {
            return RunOrder.most(parts, setting, highest);
        }
    }
}
