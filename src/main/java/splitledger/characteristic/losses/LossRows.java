package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import splitledger.inlet.SplitInlet;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * The injections of one parent with its products, by inlet temperature and split ratio. Areas are
 * signed and taken as they are. A product that was not found is hidden: its area lies between 0 and
 * what the integrator lets pass; such an injection gives a range, never a breakdown of its own.
 *
 * @param parent the compound
 * @param groups by temperature, then ratio
 * @param severalRatios whether there is more than one ratio
 * @param absolute whether the residence time is known, and not only how it changes
 * @param flags what was left out, and why
 */
record LossRows(
        String parent,
        List<Group> groups,
        boolean severalRatios,
        boolean absolute,
        List<Flag> flags) {
    private static final double KELVIN = 273.15;
    private static final double REFERENCE_KELVIN = 298.15;
    private static final double REFERENCE_PASCAL = 101_325;
    private static final double MILLILITRES = 1e-6;
    private static final double SECONDS = 60;
    private static final double KILO = 1000;

    LossRows {
        groups = List.copyOf(groups);
        flags = List.copyOf(flags);
    }

    /**
     * One injection.
     *
     * @param row of the parent
     * @param parentArea above 0
     * @param areas of the products in the order of the protocol; 0 for a hidden one
     * @param atMost the same with what a hidden one can have at most; NaN if that is not known
     * @param hidden whether a product was not found
     */
    record Shot(
            int row, double parentArea, List<Double> areas, List<Double> atMost, boolean hidden) {}

    /**
     * Injections under the same conditions.
     *
     * @param temperature of the inlet, degC; NaN if the table has none
     * @param ratio total flow to column flow; NaN if the table has none
     * @param flow of vent and column, mL/min; relative if not {@code absolute}
     * @param shots in order of the table
     */
    record Group(double temperature, double ratio, double flow, List<Shot> shots) {
        /** Rows of the parent. */
        Rows rows() {
            return Rows.of(shots.stream().mapToInt(Shot::row).toArray());
        }

        /** Whether a product was not found in some injection. */
        boolean hidden() {
            return shots.stream().anyMatch(Shot::hidden);
        }

        /** Temperature, K. */
        double kelvin() {
            return temperature + KELVIN;
        }
    }

    /**
     * Time in the liner, s: V (p/p_ref) (T_ref/T) / F, the flow being stated at 25 degC and 101.325
     * kPa; in an unknown unit where volume, pressure or flow are not told.
     *
     * @param temperature degC
     * @param flow mL/min
     */
    static double time(LossOptions options, double temperature, double flow) {
        return SplitInlet.residenceTime(
                options.given().number("liner-volume").orElse(1) * MILLILITRES,
                options.given().number("inlet-pressure").orElse(REFERENCE_PASCAL / KILO) * KILO,
                temperature + KELVIN,
                flow * MILLILITRES / SECONDS,
                REFERENCE_KELVIN,
                REFERENCE_PASCAL);
    }

    /** The first condition of every flow, in order of temperature and ratio. */
    List<Group> flows() {
        final List<Group> one = new ArrayList<>();
        for (Group g : groups) {
            if (one.stream().noneMatch(o -> Double.compare(o.ratio(), g.ratio()) == 0)) {
                one.add(g);
            }
        }
        return one;
    }

    /** Collects them. */
    static LossRows of(Study study, Rows rows, LossOptions options, String parent) {
        return new Collector(study, options, parent).collect(rows);
    }

    /** Gathers one parent's rows. */
    private static final class Collector {
        private final InjectionTable table;
        private final LossOptions options;
        private final String parent;
        private final List<String> products;
        private final double offset;
        private final List<Flag> flags = new ArrayList<>();

        Collector(Study study, LossOptions options, String parent) {
            this.table = study.table();
            this.options = options;
            this.parent = parent;
            this.products = options.parents().getOrDefault(parent, List.of());
            this.offset =
                    study.protocol().conventions().splitRatio().equals("vent-to-column") ? 1 : 0;
        }

        LossRows collect(Rows rows) {
            final Map<String, Map<String, Integer>> byInjection = new LinkedHashMap<>();
            rows.stream()
                    .filter(
                            r ->
                                    table.compound(r).equals(parent)
                                            || products.contains(table.compound(r)))
                    .forEach(
                            r ->
                                    byInjection
                                            .computeIfAbsent(
                                                    table.injection(r), i -> new LinkedHashMap<>())
                                            .put(table.compound(r), r));
            final double threshold = threshold(byInjection);
            final Map<Double, Map<Double, List<Shot>>> sorted = new TreeMap<>();
            for (Map<String, Integer> injection : byInjection.values()) {
                final Integer row = injection.get(parent);
                if (row != null && usable(row, injection)) {
                    sorted.computeIfAbsent(
                                    table.number("inlet_temperature", row), t -> new TreeMap<>())
                            .computeIfAbsent(ratio(row), r -> new ArrayList<>())
                            .add(shot(row, injection, threshold));
                }
            }
            final List<Group> groups = new ArrayList<>();
            boolean absolute =
                    options.given().number("liner-volume").isPresent()
                            && options.given().number("inlet-pressure").isPresent();
            for (var t : sorted.entrySet()) {
                for (var r : t.getValue().entrySet()) {
                    final double flow = flow(r.getValue().get(0).row(), r.getKey());
                    absolute &= flow > 0;
                    groups.add(new Group(t.getKey(), r.getKey(), flow, r.getValue()));
                }
            }
            final boolean stated = absolute;
            return new LossRows(
                    parent,
                    stated ? groups : groups.stream().map(Collector::relative).toList(),
                    groups.stream().map(Group::ratio).distinct().count() > 1,
                    stated,
                    flags);
        }

        /** The flow in units of that of the column, or of an unknown one. */
        private static Group relative(Group g) {
            return new Group(g.temperature(), g.ratio(), g.ratio() > 0 ? g.ratio() : 1, g.shots());
        }

        private boolean usable(int row, Map<String, Integer> injection) {
            String why = table.state(row) == State.MEASURED ? "" : word(table.state(row));
            if (why.isEmpty() && !(table.area(row) > 0)) {
                why = "its area is not above 0";
            }
            for (String product : products) {
                final Integer other = injection.get(product);
                final State state = other == null ? State.ABSENT : table.state(other);
                if (why.isEmpty()
                        && (state == State.SATURATED
                                || state == State.ABORTED
                                || state == State.RE_INJECTED)) {
                    why = product + " is " + word(state);
                }
            }
            if (!why.isEmpty()) {
                flags.add(
                        new Flag(
                                table.place(row),
                                "injection " + table.injection(row) + ", " + parent,
                                "left out of the breakdown: " + why));
            }
            return why.isEmpty();
        }

        private static String word(State state) {
            return state.code().replace('-', ' ');
        }

        private Shot shot(int row, Map<String, Integer> injection, double threshold) {
            final List<Double> areas = new ArrayList<>();
            final List<Double> atMost = new ArrayList<>();
            boolean hidden = false;
            for (String product : products) {
                final int other = injection.getOrDefault(product, -1);
                final boolean found = other >= 0 && table.state(other) == State.MEASURED;
                hidden |= !found;
                areas.add(found ? table.area(other) : 0.0);
                atMost.add(found ? table.area(other) : threshold);
            }
            return new Shot(row, table.area(row), areas, atMost, hidden);
        }

        /** What an unseen product can have at most: stated, else the smallest that was seen. */
        private double threshold(Map<String, Map<String, Integer>> byInjection) {
            final OptionalDouble stated = options.given().number("threshold");
            if (stated.isPresent()) {
                return stated.getAsDouble();
            }
            return byInjection.values().stream()
                    .flatMap(i -> i.entrySet().stream())
                    .filter(e -> products.contains(e.getKey()))
                    .map(Map.Entry::getValue)
                    .filter(r -> table.state(r) == State.MEASURED && table.area(r) > 0)
                    .mapToDouble(table::area)
                    .min()
                    .orElse(Double.NaN);
        }

        private double ratio(int row) {
            final double stated = table.number("split_ratio", row);
            if (!Double.isNaN(stated)) {
                return stated + offset;
            }
            final double column = table.number("column_flow", row);
            return (table.number("split_flow", row) + column) / column;
        }

        private double flow(int row, double ratio) {
            final OptionalDouble total = options.given().number("total-flow");
            if (total.isPresent()) {
                return total.getAsDouble();
            }
            final double both = table.number("split_flow", row) + table.number("column_flow", row);
            if (!Double.isNaN(both)) {
                return both;
            }
            final double column = table.number("column_flow", row);
            return ratio
                    * (Double.isNaN(column)
                            ? options.given().number("column-flow").orElse(Double.NaN)
                            : column);
        }
    }
}
