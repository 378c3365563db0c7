package splitledger.characteristic.discrimination;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.LadderMeans;
import splitledger.study.Compounds.Compound;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * The ladder of one occasion: log responses by injection and member, over what would be expected of
 * each member's mass.
 *
 * @param members with boiling point, in order of it
 * @param means of the members, injections put level; meaningless without a member
 * @param rows of the table
 * @param leftOut with reasons
 */
public record LadderRows(List<Compound> members, LadderMeans means, Rows rows, List<Flag> leftOut) {
    public LadderRows {
        members = List.copyOf(members);
        leftOut = List.copyOf(leftOut);
    }

    /** What a member's response is divided by. */
    public enum Expected {
        /** Amount times effective carbon number over molar mass. */
        CARBON_NUMBER,
        /** Amount times the certified factor in a column of the table. */
        CERTIFIED,
        /** Nothing: the same solution was injected cold onto the column too. */
        ON_COLUMN
    }

    /**
     * Collects it.
     *
     * @param study all that goes in
     * @param rows to look at; others than members' are passed over
     * @param expected what a member's response is divided by
     * @param factors column of certified factors; read only where they are expected
     */
    public static LadderRows of(Study study, Rows rows, Expected expected, String factors) {
        final InjectionTable table = study.table();
        final Map<String, Map<String, Double>> byInjection = new LinkedHashMap<>();
        final List<Integer> used = new ArrayList<>();
        final List<Flag> leftOut = new ArrayList<>();
        final Set<String> measured = new LinkedHashSet<>();
        rows.stream()
                .filter(row -> study.compounds().ladder().contains(table.compound(row)))
                .forEach(
                        row -> {
                            final String name = table.compound(row);
                            final String why = unusable(study, row, expected, factors);
                            if (why.isEmpty()) {
                                used.add(row);
                                measured.add(name);
                                byInjection
                                        .computeIfAbsent(
                                                table.injection(row), i -> new LinkedHashMap<>())
                                        .put(name, response(study, row, expected, factors));
                            } else {
                                leftOut.add(
                                        new Flag(
                                                table.place(row),
                                                "injection " + table.injection(row) + ", " + name,
                                                "left out of the ladder: " + why));
                            }
                        });
        final List<Compound> members =
                study.compounds().ladder().stream()
                        .filter(measured::contains)
                        .flatMap(n -> study.compounds().known(n).stream())
                        .toList();
        return new LadderRows(
                members,
                means(members, byInjection),
                Rows.of(used.stream().mapToInt(Integer::intValue).toArray()),
                leftOut);
    }

    private static LadderMeans means(
            List<Compound> members, Map<String, Map<String, Double>> byInjection) {
        final double[][] y = new double[byInjection.size()][members.size()];
        int j = 0;
        for (Map<String, Double> injection : byInjection.values()) {
            for (int i = 0; i < members.size(); i++) {
                y[j][i] = injection.getOrDefault(members.get(i).name(), Double.NaN);
            }
            j++;
        }
        return LadderMeans.of(boilingPoints(members), y);
    }

    private static String unusable(Study study, int row, Expected expected, String factors) {
        final InjectionTable table = study.table();
        final Compound known =
                study.compounds()
                        .known(table.compound(row))
                        .filter(c -> c.boilingPoint().isPresent())
                        .orElse(null);
        if (table.state(row) != State.MEASURED) {
            return table.state(row).code().replace('-', ' ');
        }
        if (!(table.area(row) > 0)) {
            return "its area is not above 0";
        }
        if (known == null) {
            return "the compound table has no boiling point of it";
        }
        if (expected == Expected.ON_COLUMN) {
            return "";
        }
        if (!(table.number("amount", row) > 0)) {
            return "no amount stated";
        }
        if (expected == Expected.CERTIFIED) {
            return table.number(factors, row) > 0 ? "" : "no factor in column '" + factors + "'";
        }
        return known.carbonNumber().isPresent() && known.molarMass().isPresent()
                ? ""
                : "the compound table has no effective carbon number or molar mass of it";
    }

    private static double response(Study study, int row, Expected expected, String factors) {
        final InjectionTable table = study.table();
        final double area = FastMath.log(table.area(row));
        if (expected == Expected.ON_COLUMN) {
            return area;
        }
        final double amount = table.number("amount", row);
        if (expected == Expected.CERTIFIED) {
            return area - FastMath.log(amount * table.number(factors, row));
        }
        final Compound known = study.compounds().known(table.compound(row)).orElseThrow();
        return area
                - FastMath.log(
                        amount
                                * known.carbonNumber().orElseThrow()
                                / known.molarMass().orElseThrow());
    }

    /** Boiling points of the members, degC. */
    public double[] boilingPoints() {
        return boilingPoints(members);
    }

    static double[] boilingPoints(List<Compound> members) {
        return members.stream().mapToDouble(c -> c.boilingPoint().orElseThrow()).toArray();
    }

    /** Place of a member in the order of boiling points; -1 if it is none. */
    int indexOf(String name) {
        for (int i = 0; i < members.size(); i++) {
            if (members.get(i).name().equals(name)) {
                return i;
            }
        }
        return -1;
    }
}
