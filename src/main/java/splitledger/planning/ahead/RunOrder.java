package splitledger.planning.ahead;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.CsvText;
import splitledger.statistics.RandomStream;

/**
 * The order of injections. A day is a block: it begins with a wash and the system check; then
 * everything else in an order drawn by lot, injections at a setting of their own together because
 * the instrument has to settle there; a wash after every injection of the highest level, so that
 * what it leaves behind does not fall on the next; a check after so many injections and at the end,
 * so that everything lies between two of them. No vial is injected from more often than it may.
 */
public final class RunOrder {
    /** Series of injections that serve no characteristic. */
    public static final String WASH = "wash";

    /** Series of the injections before anything else. */
    public static final String SYSTEM_CHECK = "system-check";

    /** Series of the injections that bracket the others. */
    public static final String CHECK = "check";

    static final String CHECK_FLASK = "CHECK";
    static final String WASH_FLASK = "WASH";
    private static final int SYSTEM_CHECKS = 2;

    private final PlanFile.Setting setting;
    private final String highest;
    private final boolean checked;
    private final Map<String, Integer> solutions = new LinkedHashMap<>();
    private final Map<String, Integer> injected = new LinkedHashMap<>();
    private final List<Run> runs = new ArrayList<>();

    private RunOrder(PlanFile.Setting setting, String highest, boolean checked) {
        this.setting = setting;
        this.highest = highest;
        this.checked = checked;
    }

    /** An injection without its place. */
    private record Stub(Part part, String flask, String level, double split, double temperature) {}

    /**
     * Orders a study.
     *
     * @param days what is injected on each
     * @param setting working ratio and temperature, caps
     * @param highest label of the highest level; empty if there is none
     * @param checked whether a check solution brackets everything
     * @param start first day; weekends are left out
     * @param seed of the draw
     */
    static List<Run> of(
            List<List<Part>> days,
            PlanFile.Setting setting,
            String highest,
            boolean checked,
            LocalDate start,
            long seed) {
        final RunOrder order = new RunOrder(setting, highest, checked);
        LocalDate date = start;
        for (int i = 0; i < days.size(); i++) {
            while (date.getDayOfWeek().getValue() > 5) {
                date = date.plusDays(1);
            }
            order.day(days.get(i), label(i + 1), date.toString(), RandomStream.of(seed, 100 + i));
            date = date.plusDays(1);
        }
        return List.copyOf(order.runs);
    }

    /**
     * The most injections that a day with these parts has, washes and checks included: exact where
     * no injections have to stay together.
     */
    static int most(List<Part> parts, PlanFile.Setting setting, String highest) {
        int runs = 0;
        int block = 1;
        int washes = 1;
        for (Part part : parts) {
            runs += part.runs();
            block = Math.max(block, part.block());
            if (!highest.isEmpty() && part.levels().contains(highest)) {
                washes += part.runs() / part.levels().size();
            }
        }
        final int gap = Math.max(1, setting.bracket() - block + 1);
        final int checks = runs == 0 ? 0 : (runs - 1) / gap;
        return runs + washes + SYSTEM_CHECKS + checks + 1;
    }

    private static String label(int day) {
        return (day < 10 ? "D0" : "D") + day;
    }

    private void day(List<Part> parts, String day, String date, RandomStream random) {
        wash(day, date, "solvent first: what is left from before");
        if (checked) {
            for (int i = 0; i < SYSTEM_CHECKS; i++) {
                add(check(SYSTEM_CHECK), day, date, "system check: look before you go on");
            }
        }
        final List<List<Stub>> blocks = new ArrayList<>();
        parts.forEach(part -> blocks.addAll(blocks(part)));
        shuffle(blocks, random);
        int since = 0;
        for (List<Stub> block : blocks) {
            if (checked && since > 0 && since + block.size() > setting.bracket()) {
                add(check(CHECK), day, date, "check");
                since = 0;
            }
            for (Stub stub : block) {
                add(stub, day, date, "");
                since++;
                if (!highest.isEmpty() && stub.level().equals(highest)) {
                    wash(day, date, "after the highest level");
                }
            }
        }
        if (checked) {
            add(check(CHECK), day, date, "check at the end");
        }
    }

    private void wash(String day, String date, String note) {
        add(working(Part.of(WASH, WASH_FLASK, "", 1), WASH_FLASK, ""), day, date, note);
    }

    private Stub check(String series) {
        return working(Part.of(series, CHECK_FLASK, CHECK, 1), CHECK_FLASK, CHECK);
    }

    private Stub working(Part part, String flask, String level) {
        return new Stub(part, flask, level, setting.split(), setting.temperature());
    }

    private void add(Stub stub, String day, String date, String note) {
        final int number = injected.merge(stub.flask(), 1, Integer::sum);
        final int vial = (number - 1) / setting.vial() + 1;
        runs.add(
                new Run(
                        runs.size() + 1,
                        day,
                        date,
                        stub.part().series(),
                        stub.flask(),
                        stub.flask() + "-" + vial,
                        number,
                        stub.level(),
                        stub.split(),
                        stub.temperature(),
                        stub.part().occasion(),
                        stub.part().onColumn(),
                        note));
    }

    private List<List<Stub>> blocks(Part part) {
        final List<List<Stub>> blocks = new ArrayList<>();
        final boolean settings = !part.splits().isEmpty() || !part.temperatures().isEmpty();
        final List<Double> splits =
                part.splits().isEmpty() ? List.of(setting.split()) : part.splits();
        final List<Double> temperatures =
                part.temperatures().isEmpty()
                        ? List.of(setting.temperature())
                        : part.temperatures();
        for (String level : part.levels()) {
            for (int p = 0; p < part.preparations(); p++) {
                final String flask = flask(part);
                for (double split : splits) {
                    for (double temperature : temperatures) {
                        final List<Stub> block = new ArrayList<>();
                        for (int i = 0; i < part.injections(); i++) {
                            block.add(new Stub(part, flask, level, split, temperature));
                        }
                        if (settings) {
                            blocks.add(block);
                        } else {
                            block.forEach(stub -> blocks.add(List.of(stub)));
                        }
                    }
                }
            }
        }
        return blocks;
    }

    private String flask(Part part) {
        if (!part.numbered()) {
            return part.flask();
        }
        final int number = solutions.merge(part.flask(), 1, Integer::sum);
        return part.flask() + (number < 10 ? "0" : "") + number;
    }

    /** Fisher and Yates' shuffle. */
    private static void shuffle(List<List<Stub>> blocks, RandomStream random) {
        for (int i = blocks.size() - 1; i > 0; i--) {
            final int j = random.nextInt(i + 1);
            final List<Stub> kept = blocks.get(i);
            blocks.set(i, blocks.get(j));
            blocks.set(j, kept);
        }
    }

    /**
     * The run list as a table to be filled in: who injected, what was weighed, remarks.
     *
     * @param portions whether test portions are weighed
     */
    static byte[] table(List<Run> runs, boolean portions) {
        final List<String> columns =
                new ArrayList<>(
                        List.of(
                                "injection",
                                "order",
                                "day",
                                "date",
                                "series",
                                "preparation",
                                "vial",
                                "level",
                                "split_ratio",
                                "inlet_temperature",
                                "occasion",
                                "analyst"));
        if (portions) {
            columns.add("portion");
        }
        columns.add("remark");
        final CsvText csv = new CsvText(columns);
        for (Run run : runs) {
            csv.cell(run.injection()).cell(run.order()).cell(run.day()).cell(run.date());
            csv.cell(run.series()).cell(run.preparation()).cell(run.vial()).cell(run.level());
            csv.cell(run.split()).cell(run.temperature()).cell(run.occasion()).empty();
            if (portions) {
                csv.empty();
            }
            csv.cell(run.note()).endRow();
        }
        return csv.bytes();
    }
}
