package splitledger.characteristic;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol.RowVariable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * Responses of one study: the area, or where an internal standard is used its ratio to the internal
 * standard's area of the same injection, divided by a row variable where the protocol asks ({@code
 * per}). Rows that give no response are told, never cut silently.
 */
public final class Responses {
    private final Study study;
    private final String per;
    private final Map<String, Integer> standardRows = new HashMap<>();

    private Responses(Study study, String per) {
        this.study = study;
        this.per = per;
        final Optional<String> standard = standard(study);
        final InjectionTable table = study.table();
        for (int row = 0; standard.isPresent() && row < table.size(); row++) {
            if (table.compound(row).equals(standard.get())) {
                standardRows.put(table.injection(row), row);
            }
        }
    }

    /** Responses as they are. */
    public static Responses of(Study study) {
        return new Responses(study, "");
    }

    /** Responses divided by a number column; the empty name divides by nothing. */
    public static Responses per(Study study, String column) {
        return new Responses(study, column);
    }

    /**
     * One response.
     *
     * @param row of the table
     * @param injection its label
     * @param preparation its preparation's label
     * @param value the response, in {@link #unit()}
     */
    public record Response(int row, String injection, String preparation, double value) {}

    /**
     * The responses of one compound and what was left out.
     *
     * @param used in order of the table
     * @param leftOut each with its reason
     */
    public record Picked(List<Response> used, List<Flag> leftOut) {
        public Picked {
            used = List.copyOf(used);
            leftOut = List.copyOf(leftOut);
        }

        /** The rows of those used. */
        public Rows rows() {
            return Rows.of(used.stream().mapToInt(Response::row).toArray());
        }
    }

    /** Unit of the response. */
    public String unit() {
        final String plain =
                standard(study).isPresent() ? "1" : study.protocol().conventions().areaUnit();
        return per.isEmpty() ? plain : plain + "/" + perUnit();
    }

    /** Unit of the dividing column where the measurand states it, else the column's name. */
    private String perUnit() {
        return study.protocol().measurand().stream()
                .flatMap(m -> m.inputs().values().stream())
                .filter(RowVariable.class::isInstance)
                .map(RowVariable.class::cast)
                .filter(v -> v.column().equals(per))
                .map(RowVariable::unit)
                .findFirst()
                .orElse(per);
    }

    /** The response in words. */
    public String words() {
        final String plain =
                standard(study)
                        .map(s -> "area divided by the area of the internal standard " + s)
                        .orElse("area");
        return per.isEmpty() ? plain : plain + ", divided by " + per;
    }

    /** Axis label of the response, short. */
    public String axis() {
        return standard(study).map(s -> "area ratio to " + s).orElse("area")
                + (per.isEmpty() ? "" : " per " + per);
    }

    /**
     * The responses of a compound in some rows.
     *
     * @param needsPreparation whether a row without preparation is left out (else its injection
     *     stands for it)
     */
    public Picked pick(Rows rows, String compound, boolean needsPreparation) {
        final List<Response> used = new ArrayList<>();
        final List<Flag> leftOut = new ArrayList<>();
        final InjectionTable table = study.table();
        rows.stream()
                .filter(row -> table.compound(row).equals(compound))
                .forEach(row -> one(row, needsPreparation, used, leftOut));
        return new Picked(used, leftOut);
    }

    private void one(int row, boolean needsPreparation, List<Response> used, List<Flag> leftOut) {
        final InjectionTable table = study.table();
        final String label = table.label("preparation", row);
        if (table.state(row) != State.MEASURED) {
            leftOut.add(left(row, why(table.state(row))));
        } else if (label.isEmpty() && needsPreparation) {
            leftOut.add(left(row, "its preparation is not stated"));
        } else {
            final double value = value(row);
            if (Double.isNaN(value)) {
                leftOut.add(left(row, noValue(row)));
            } else {
                final String preparation = label.isEmpty() ? table.injection(row) : label;
                used.add(new Response(row, table.injection(row), preparation, value));
            }
        }
    }

    private double value(int row) {
        final InjectionTable table = study.table();
        double value = table.area(row);
        if (standard(study).isPresent()) {
            final Integer other = standardRows.get(table.injection(row));
            final double area =
                    other != null && table.state(other) == State.MEASURED
                            ? table.area(other)
                            : Double.NaN;
            value = area > 0 ? value / area : Double.NaN;
        }
        return per.isEmpty() ? value : value / table.number(per, row);
    }

    /**
     * Why a row in this state gives no response. An area that is not known must not be taken for 0,
     * and one that is cut off not for what it would have been; leaving such rows out shifts means
     * up or down and makes scatter small, so that the reader must see it.
     */
    private static String why(State state) {
        return switch (state) {
            case NOT_DETECTED -> "not detected: its area is not known, and not 0";
            case BELOW_THRESHOLD ->
                    "below the integrator's threshold: its area is not known, and not 0; what is"
                            + " left over is too high on average and scatters too little";
            case SATURATED -> "saturated: the peak is cut off, its area too small";
            case ABORTED -> "aborted: the run was broken off";
            case RE_INJECTED -> "re-injected: another injection takes its place";
            case ABSENT -> "absent";
            case MEASURED -> throw new IllegalArgumentException("a measured row gives a response");
        };
    }

    private String noValue(int row) {
        final Integer other = standardRows.get(study.table().injection(row));
        if (standard(study).isPresent()
                && other != null
                && study.table().state(other) != State.MEASURED) {
            return "its internal standard is "
                    + study.table().state(other).code().replace('-', ' ');
        }
        return "no area of the internal standard, or no " + per;
    }

    private Flag left(int row, String why) {
        final InjectionTable table = study.table();
        return new Flag(
                table.place(row),
                "injection " + table.injection(row) + ", " + table.compound(row),
                "left out: " + why);
    }

    private static Optional<String> standard(Study study) {
        return study.compounds().internalStandard().map(InternalStandard::compound);
    }
}
