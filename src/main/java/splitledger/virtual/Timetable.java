package splitledger.virtual;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;
import splitledger.statistics.RandomStream;

/**
 * Turns the days of a design into a list of injections in the order in which they are made. Within
 * a session the order is drawn; injections at a setting of their own (a split ratio, an inlet
 * temperature) stay together, because the instrument has to settle there.
 */
final class Timetable {
    /** Numbers of injections that replace stopped ones begin above those of planned ones. */
    private static final int REPEATED = 1_000_000;

    private final Design design;
    private final Streams streams;
    private final Map<String, Integer> flasksNumbered = new LinkedHashMap<>();
    private final Map<String, Flask> flasks = new LinkedHashMap<>();
    private final Map<String, Integer> injectionsMade = new LinkedHashMap<>();
    private final List<Injection> made = new ArrayList<>();
    private final Fates fates;
    private final boolean mishaps;
    private int repeated;
    private int today;

    private Timetable(Design design, boolean mishaps) {
        this.design = design;
        this.mishaps = mishaps;
        this.fates = new Fates(design);
        this.streams = new Streams(design.seed());
    }

    /** Every injection in order. */
    static List<Injection> of(Design design) {
        return new Timetable(design, true).injections();
    }

    /** The same before anything goes wrong. */
    static List<Injection> planned(Design design) {
        return new Timetable(design, false).injections();
    }

    /** An injection before it has its place. */
    private record Planned(
            Plan.Batch batch,
            Flask flask,
            String instrument,
            int number,
            double split,
            String setUp,
            double temperature) {}

    private List<Injection> injections() {
        for (Plan.Day day : design.days()) {
            today = 0;
            for (int s = 0; s < day.sessions().size(); s++) {
                final String session = Integer.toString(s + 1);
                for (Planned p :
                        shuffled(blocks(day, session, day.sessions().get(s)), day, session)) {
                    if (!mishaps || !(p.batch().numbered() && fates.lost(p.flask().label()))) {
                        make(day, p);
                    }
                }
            }
        }
        return List.copyOf(made);
    }

    private void make(Plan.Day day, Planned p) {
        final Injection.Fate fate =
                mishaps ? fates.of(p.flask().label(), p.number()) : Injection.Fate.WELL;
        final String label = fourDigits(made.size() + 1 - repeated);
        made.add(injection(day, p, label, p.number(), fate));
        final String again = design.mishaps().reInjectedAs();
        if (fate.stopped() && !again.isEmpty()) {
            repeated++;
            made.add(injection(day, p, label + again, REPEATED + p.number(), Injection.Fate.WELL));
        }
    }

    private Injection injection(
            Plan.Day day, Planned p, String label, int number, Injection.Fate fate) {
        final long minutes = Math.round(today++ * design.inlet().runTime().value());
        return new Injection(
                label,
                made.size() + 1,
                LocalDateTime.of(day.date(), day.start()).plusMinutes(minutes),
                p.batch().experiment(),
                p.flask(),
                number,
                p.split(),
                p.setUp(),
                p.temperature(),
                day.label(),
                p.flask().analyst(),
                p.batch().occasion(),
                p.instrument(),
                p.batch().onColumn(),
                fate);
    }

    private static String fourDigits(int number) {
        final String digits = Integer.toString(number);
        return "0".repeat(Math.max(0, 4 - digits.length())) + digits;
    }

    private List<List<Planned>> blocks(Plan.Day day, String session, List<Plan.Batch> batches) {
        final List<List<Planned>> blocks = new ArrayList<>();
        for (Plan.Batch batch : batches) {
            for (String instrument : orNone(batch.instruments())) {
                for (Flask flask : flasks(day, batch)) {
                    if (batch.splits().isEmpty() && batch.temperatures().isEmpty()) {
                        for (int i = 0; i < batch.injections(); i++) {
                            blocks.add(List.of(atWork(day, batch, flask, instrument)));
                        }
                    } else {
                        blocks.addAll(atSettings(day, session, batch, flask, instrument));
                    }
                }
            }
        }
        return blocks;
    }

    private Planned atWork(Plan.Day day, Plan.Batch batch, Flask flask, String instrument) {
        return new Planned(
                batch,
                flask,
                instrument,
                next(injectionsMade, flask.label()),
                working(batch),
                on(instrument, day.label()),
                design.inlet().temperature().value());
    }

    private List<List<Planned>> atSettings(
            Plan.Day day, String session, Plan.Batch batch, Flask flask, String instrument) {
        final List<List<Planned>> blocks = new ArrayList<>();
        final boolean ratiosSet = !batch.splits().isEmpty();
        final List<Double> splits = ratiosSet ? batch.splits() : List.of(working(batch));
        final List<Double> temperatures =
                batch.temperatures().isEmpty()
                        ? List.of(design.inlet().temperature().value())
                        : batch.temperatures();
        for (double split : splits) {
            for (double temperature : temperatures) {
                final String setUp =
                        on(
                                instrument,
                                ratiosSet
                                        ? day.label() + "/" + session + "/" + named(split)
                                        : day.label());
                final List<Planned> block = new ArrayList<>();
                for (int i = 0; i < batch.injections(); i++) {
                    final int number = next(injectionsMade, flask.label());
                    block.add(
                            new Planned(
                                    batch, flask, instrument, number, split, setUp, temperature));
                }
                blocks.add(block);
            }
        }
        return blocks;
    }

    private double working(Plan.Batch batch) {
        return batch.onColumn() ? 1 : design.inlet().splitRatio().value();
    }

    /** A ratio as it stands in the name of its stream, {@code 10.0}. */
    private static String named(double split) {
        return Numbers.text(split) + (split == Math.rint(split) ? ".0" : "");
    }

    /** Every instrument has its own settings. */
    private static String on(String instrument, String setUp) {
        return instrument.isEmpty() ? setUp : setUp + "/" + instrument;
    }

    private List<Flask> flasks(Plan.Day day, Plan.Batch batch) {
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

    private String label(Plan.Batch batch) {
        if (!batch.numbered()) {
            return batch.flask();
        }
        final int number = next(flasksNumbered, batch.flask());
        return batch.flask() + (number < 10 ? "0" : "") + number;
    }

    private static List<String> orNone(List<String> labels) {
        return labels.isEmpty() ? List.of("") : labels;
    }

    private static int next(Map<String, Integer> counts, String name) {
        return counts.merge(name, 1, Integer::sum);
    }

    /** Fisher and Yates' shuffle of the blocks. */
    private List<Planned> shuffled(List<List<Planned>> blocks, Plan.Day day, String session) {
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
