package splitledger.virtual;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import splitledger.statistics.RandomStream;

/**
 * Turns the days of a design into a list of injections in the order in which they are made. Within
 * a session the order is drawn; injections at a setting of their own (a split ratio, an inlet
 * temperature) stay together, because the instrument has to settle there.
 */
final class Timetable {
    private final Design design;
    private final Streams streams;
    private final Map<String, Integer> flasksNumbered = new LinkedHashMap<>();
    private final Map<String, Flask> flasks = new LinkedHashMap<>();
    private final Map<String, Integer> injectionsMade = new LinkedHashMap<>();

    private Timetable(Design design) {
        this.design = design;
        this.streams = new Streams(design.seed());
    }

    /** Every injection in order. */
    static List<Injection> of(Design design) {
        return new Timetable(design).injections();
    }

    /** An injection before it has its place. */
    private record Planned(
            Design.Batch batch,
            Flask flask,
            int number,
            double split,
            String setUp,
            double temperature) {}

    private List<Injection> injections() {
        final List<Injection> made = new ArrayList<>();
        for (Design.Day day : design.days()) {
            final LocalDateTime start = LocalDateTime.of(day.date(), day.start());
            int today = 0;
            for (int s = 0; s < day.sessions().size(); s++) {
                final String session = Integer.toString(s + 1);
                for (Planned p :
                        shuffled(blocks(day, session, day.sessions().get(s)), day, session)) {
                    final int order = made.size() + 1;
                    final long minutes = Math.round(today++ * design.inlet().runTime().value());
                    made.add(
                            new Injection(
                                    String.format(Locale.ROOT, "%04d", order),
                                    order,
                                    start.plusMinutes(minutes),
                                    p.batch().experiment(),
                                    p.flask(),
                                    p.number(),
                                    p.split(),
                                    p.setUp(),
                                    p.temperature(),
                                    day.label(),
                                    p.flask().analyst(),
                                    p.batch().occasion()));
                }
            }
        }
        return List.copyOf(made);
    }

    private List<List<Planned>> blocks(Design.Day day, String session, List<Design.Batch> batches) {
        final List<List<Planned>> blocks = new ArrayList<>();
        for (Design.Batch batch : batches) {
            for (Flask flask : flasks(day, batch)) {
                if (batch.splits().isEmpty() && batch.temperatures().isEmpty()) {
                    for (int i = 0; i < batch.injections(); i++) {
                        blocks.add(List.of(atWork(day, batch, flask)));
                    }
                } else {
                    blocks.addAll(atSettings(day, session, batch, flask));
                }
            }
        }
        return blocks;
    }

    private Planned atWork(Design.Day day, Design.Batch batch, Flask flask) {
        return new Planned(
                batch,
                flask,
                next(injectionsMade, flask.label()),
                design.inlet().splitRatio().value(),
                day.label(),
                design.inlet().temperature().value());
    }

    private List<List<Planned>> atSettings(
            Design.Day day, String session, Design.Batch batch, Flask flask) {
        final List<List<Planned>> blocks = new ArrayList<>();
        final boolean ratiosSet = !batch.splits().isEmpty();
        final List<Double> splits =
                ratiosSet ? batch.splits() : List.of(design.inlet().splitRatio().value());
        final List<Double> temperatures =
                batch.temperatures().isEmpty()
                        ? List.of(design.inlet().temperature().value())
                        : batch.temperatures();
        for (double split : splits) {
            for (double temperature : temperatures) {
                final String setUp =
                        ratiosSet ? day.label() + "/" + session + "/" + split : day.label();
                final List<Planned> block = new ArrayList<>();
                for (int i = 0; i < batch.injections(); i++) {
                    final int number = next(injectionsMade, flask.label());
                    block.add(new Planned(batch, flask, number, split, setUp, temperature));
                }
                blocks.add(block);
            }
        }
        return blocks;
    }

    private List<Flask> flasks(Design.Day day, Design.Batch batch) {
        final List<Flask> all = new ArrayList<>();
        for (String analyst : batch.analysts()) {
            for (String level : orNone(batch.levels())) {
                for (String oil : orNone(batch.oils())) {
                    for (int p = 0; p < batch.preparations(); p++) {
                        final String label = label(batch);
                        all.add(
                                flasks.computeIfAbsent(
                                        label,
                                        l -> new Flask(l, level, oil, day.label(), analyst)));
                    }
                }
            }
        }
        return all;
    }

    private String label(Design.Batch batch) {
        return batch.numbered()
                ? String.format(
                        Locale.ROOT, "%s%02d", batch.flask(), next(flasksNumbered, batch.flask()))
                : batch.flask();
    }

    private static List<String> orNone(List<String> labels) {
        return labels.isEmpty() ? List.of("") : labels;
    }

    private static int next(Map<String, Integer> counts, String name) {
        return counts.merge(name, 1, Integer::sum);
    }

    /** Fisher and Yates' shuffle of the blocks. */
    private List<Planned> shuffled(List<List<Planned>> blocks, Design.Day day, String session) {
        final RandomStream random = streams.of("order", day.label(), session);
        for (int i = blocks.size() - 1; i > 0; i--) {
            final int j = random.nextInt(i + 1);
            final List<Planned> kept = blocks.get(i);
            blocks.set(i, blocks.get(j));
            blocks.set(j, kept);
        }
        return blocks.stream().flatMap(List::stream).toList();
    }
}
