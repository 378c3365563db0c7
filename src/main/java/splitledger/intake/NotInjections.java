package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.base.Problem;
import splitledger.study.Place;

/**
 * Rows of totals and means that a data system leaves below its table. The protocol names them
 * ({@code not-injections: [Mean, RSD]}); rows that look like them and are not named are asked
 * about.
 */
final class NotInjections {
    private static final Set<String> TOTALS =
            Set.of(
                    "total",
                    "totals",
                    "grand total",
                    "sum",
                    "mean",
                    "average",
                    "avg",
                    "median",
                    "sd",
                    "s.d.",
                    "std dev",
                    "std. dev.",
                    "stdev",
                    "standard deviation",
                    "rsd",
                    "rsd %",
                    "rsd (%)",
                    "rsd [%]",
                    "%rsd",
                    "% rsd",
                    "cv",
                    "cv %",
                    "summe",
                    "gesamt",
                    "mittelwert",
                    "standardabweichung",
                    "moyenne",
                    "somme");

    private final TableSpec spec;
    private final Reading reading;
    private final List<String> named;
    private final List<String> skipped = new ArrayList<>();
    private int count;
    private int firstLine;

    NotInjections(TableSpec spec, Reading reading) {
        this.spec = spec;
        this.reading = reading;
        named = spec.export().notInjections().orElse(List.of());
    }

    /** Whether a row is left out. */
    boolean skips(int line, RowCells cells, int injection) {
        if (named.isEmpty() || injection < 0) {
            return false;
        }
        final String label = cells.text(injection);
        if (!named.contains(label)) {
            return false;
        }
        firstLine = count == 0 ? line : firstLine;
        count++;
        if (!skipped.contains(label)) {
            skipped.add(label);
        }
        return true;
    }

    /** Tells what was left out, and asks about rows that look like totals. */
    void tell(Map<String, Growing.Labels> labels) {
        if (count > 0) {
            reading.flag(
                    new Place(spec.file(), firstLine, ""),
                    String.join(", ", skipped),
                    count
                            + (count == 1 ? " row is" : " rows are")
                            + " no injection, as stated, and left out");
        }
        final Optional<Growing.Labels> injections =
                Optional.ofNullable(labels.get(Columns.INJECTION));
        if (spec.export().notInjections().isPresent() || injections.isEmpty()) {
            return;
        }
        for (String label : injections.get().labels()) {
            if (TOTALS.contains(label.toLowerCase(Locale.ROOT))) {
                reading.problem(
                        new Problem(
                                spec.file(),
                                0,
                                spec.headingOf(Columns.INJECTION),
                                "a row '" + label + "', which looks like a total",
                                "rows of injections only",
                                "take it out, or name it at this table: not-injections: ['"
                                        + label
                                        + "']"));
            }
        }
    }
}
