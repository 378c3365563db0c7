package splitledger.budget;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import splitledger.base.Numbers;
import splitledger.propagation.Effect;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol.FromFinding;
import splitledger.study.Protocol.Given;
import splitledger.study.Protocol.Home;
import splitledger.study.Protocol.Input;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Where;

/**
 * Transfer factors cancel. A split, discrimination, loss or matrix factor enters only as the value
 * in the sample injection over the value in the calibrant injection: 1 for the same compound under
 * the same conditions. It may differ from 1 only where these differ in the tables, or where the
 * protocol says why they do; and not where a recovery of the whole procedure holds it already.
 */
final class Admission {
    private static final List<Effect> TRANSFER =
            List.of(Effect.SPLIT, Effect.DISCRIMINATION, Effect.LOSS, Effect.MATRIX);
    private static final List<String> INLET =
            List.of("split_ratio", "inlet_temperature", "liner", "instrument", "introduction");
    private static final Map<String, Effect> FINDINGS =
            Map.ofEntries(
                    Map.entry("response-kept", Effect.SPLIT),
                    Map.entry("split-exponent", Effect.SPLIT),
                    Map.entry("effective-split-ratio", Effect.SPLIT),
                    Map.entry("expected-split-ratio", Effect.SPLIT),
                    Map.entry("discrimination-factor", Effect.DISCRIMINATION),
                    Map.entry("relative-response", Effect.DISCRIMINATION),
                    Map.entry("heavy-to-light-ratio", Effect.DISCRIMINATION),
                    Map.entry("breakdown", Effect.LOSS),
                    Map.entry("unexplained-deficit", Effect.LOSS),
                    Map.entry("remaining-loss", Effect.LOSS),
                    Map.entry("matrix-effect", Effect.MATRIX),
                    Map.entry("sensitivity-ratio", Effect.MATRIX));

    private final Study study;
    private final Measurand measurand;
    private final Rows calibrants;
    private final Rows samples;

    Admission(Study study, Measurand measurand) {
        this.study = study;
        this.measurand = measurand;
        final var options = study.protocol().characteristics().get("calibration");
        this.calibrants =
                options == null
                        ? Rows.NONE
                        : study.table().rows(Where.of(options.mapping("where")));
        this.samples = measurand.resultsFor().map(study.table()::rows).orElse(Rows.NONE);
    }

    /** What a factor transfers; empty if it is no transfer factor. */
    static Optional<Effect> transfers(Input input) {
        if (input instanceof Given given) {
            return given.home().effect().filter(TRANSFER::contains);
        }
        if (input instanceof FromFinding from) {
            return from.home()
                    .effect()
                    .or(() -> Optional.ofNullable(FINDINGS.get(from.quantity())))
                    .filter(TRANSFER::contains);
        }
        return Optional.empty();
    }

    /** Why a factor is set to 1; empty if it enters as it is. */
    Optional<String> refused(Input input) {
        final Optional<Effect> effect = transfers(input);
        if (effect.isEmpty()) {
            return Optional.empty();
        }
        final Home home =
                input instanceof Given given ? given.home() : ((FromFinding) input).home();
        if (inRecovery(effect.get()) && home.disjoint().isEmpty()) {
            return Optional.of(
                    "the recovery of the whole procedure stands in the same equation and holds "
                            + effect.get().words()
                            + " already; both would count it twice");
        }
        if (home.differs().isPresent()) {
            return Optional.empty();
        }
        final List<String> columns = effect.get() == Effect.MATRIX ? List.of("matrix") : INLET;
        return columns.stream().anyMatch(this::differs)
                ? Optional.empty()
                : Optional.of(
                        "calibrants and samples are the same compound, and the tables tell no difference in "
                                + String.join(", ", columns)
                                + " between them: "
                                + effect.get().words()
                                + " acts on both alike and cancels; its scatter from run to run is in the precision");
    }

    /** A recovery of spikes or of a reference material holds what happens on the whole way. */
    private boolean inRecovery(Effect effect) {
        return effect != Effect.SPLIT
                && measurand.inputs().values().stream()
                        .filter(FromFinding.class::isInstance)
                        .map(FromFinding.class::cast)
                        .filter(f -> f.quantity().equals("recovery"))
                        .anyMatch(f -> !"transfer".equals(f.condition().get("kind")));
    }

    private boolean differs(String column) {
        if (!study.table().has(column) || calibrants.isEmpty() || samples.isEmpty()) {
            return false;
        }
        final SortedSet<String> one = labels(column, calibrants);
        final SortedSet<String> other = labels(column, samples);
        return !one.isEmpty() && !other.isEmpty() && !one.containsAll(other);
    }

    private SortedSet<String> labels(String column, Rows rows) {
        final InjectionTable table = study.table();
        final SortedSet<String> labels = new TreeSet<>();
        rows.stream()
                .forEach(
                        row -> {
                            final double number = table.number(column, row);
                            final String text =
                                    Double.isNaN(number)
                                            ? table.label(column, row)
                                            : Numbers.text(number);
                            if (!text.isEmpty()) {
                                labels.add(text);
                            }
                        });
        return labels;
    }
}
