package splitledger.budget;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Protocol.AmountOf;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;

/** What was found in each preparation that gets a result. */
final class Sources {
    private static final String AMOUNT = "predicted-amount";
    private static final String ADDITION = "amount-by-addition";

    private final Study study;
    private final Measurand measurand;
    private final List<Finding> findings;

    Sources(Study study, Measurand measurand, List<Finding> findings) {
        this.study = study;
        this.measurand = measurand;
        this.findings = findings;
    }

    /**
     * What {@code found} is in one result.
     *
     * @param key of the result
     * @param rows of it
     * @param found the value with its causes, or why there is none
     * @param trail how it was found
     * @param note what a reader must know
     */
    record Source(Key key, Rows rows, Outcome<Uncertain> found, Trail trail, String note) {}

    /** Of one compound, in order of the findings. */
    List<Source> of(String compound) {
        return switch (measurand.found()) {
            case AMOUNT -> amounts(compound);
            case ADDITION -> named(compound, ADDITION);
            case AREA_SHARE ->
                    AreaShares.of(
                            study,
                            compound,
                            measurand.resultsFor().map(study.table()::rows).orElse(Rows.NONE));
        };
    }

    private List<Source> amounts(String compound) {
        final SortedSet<String> only = onlyInputs();
        final List<Source> all = new ArrayList<>();
        for (Finding f : findings) {
            if (isAmount(f, compound) && !only.contains(f.key().conditionText())) {
                all.add(source(f));
            }
        }
        return all;
    }

    /** Preparations whose amount is an input and no result. */
    private SortedSet<String> onlyInputs() {
        final SortedSet<String> only = new TreeSet<>();
        measurand.inputs().values().stream()
                .filter(AmountOf.class::isInstance)
                .forEach(
                        i -> only.addAll(labels(study, study.table().rows(((AmountOf) i).rows()))));
        measurand
                .resultsFor()
                .ifPresent(where -> only.removeAll(labels(study, study.table().rows(where))));
        return only;
    }

    private List<Source> named(String compound, String quantity) {
        return findings.stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().compound().equals(compound))
                .map(Sources::source)
                .toList();
    }

    private static Source source(Finding f) {
        final Key key =
                new Key(Budgets.ID, f.key().compound(), f.key().condition(), "result", Results.LAW);
        final Optional<Uncertain> value =
                f.answer() instanceof Answer.Estimate e ? e.quantity() : Optional.empty();
        final Outcome<Uncertain> found =
                value.<Outcome<Uncertain>>map(Outcome::of)
                        .orElseGet(
                                () ->
                                        f.answer() instanceof Answer.NotEstimable not
                                                ? Outcome.not(reason(not.reason()), not.detail())
                                                : Outcome.not(
                                                        Reason.NO_FINITE_VALUE,
                                                        "no amount was found"));
        return new Source(key, f.rows(), found, f.trail(), f.note());
    }

    private static Reason reason(String code) {
        for (Reason reason : Reason.values()) {
            if (reason.code().equals(code)) {
                return reason;
            }
        }
        return Reason.NO_FINITE_VALUE;
    }

    /** Whether a finding is the amount of a compound in a preparation. */
    static boolean isAmount(Finding f, String compound) {
        return f.key().quantity().equals(AMOUNT)
                && f.key().method().equals("fieller")
                && f.key().compound().equals(compound);
    }

    /** Conditions that name the preparations of some rows, as findings have them. */
    static SortedSet<String> labels(Study study, Rows rows) {
        final SortedSet<String> labels = new TreeSet<>();
        rows.stream().forEach(row -> labels.add(label(study, row).conditionText()));
        return labels;
    }

    /** The condition of a row's preparation, or of its injection where it has none. */
    static Key label(Study study, int row) {
        final String preparation = study.table().label("preparation", row);
        final Key plain = Key.of(Budgets.ID, study.table().compound(row), "result", Results.LAW);
        return preparation.isEmpty()
                ? plain.with("injection", study.table().injection(row))
                : plain.with("preparation", preparation);
    }

    /** Results by the sample they belong to; without a column for samples, none. */
    Map<String, List<Source>> bySample(List<Source> sources) {
        final Map<String, List<Source>> samples = new LinkedHashMap<>();
        measurand
                .reporting()
                .sample()
                .ifPresent(
                        column ->
                                sources.forEach(
                                        s -> {
                                            final String label = sampleOf(s, column);
                                            if (!label.isEmpty()) {
                                                samples.computeIfAbsent(
                                                                label, l -> new ArrayList<>())
                                                        .add(s);
                                            }
                                        }));
        return samples;
    }

    private String sampleOf(Source source, String column) {
        return source.rows().stream()
                .mapToObj(row -> study.table().label(column, row))
                .filter(l -> !l.isEmpty())
                .findFirst()
                .orElse("");
    }

    /** The name under which results share their conditions. */
    String sample(Source source) {
        final String label =
                measurand.reporting().sample().map(c -> sampleOf(source, c)).orElse("");
        return label.isEmpty() ? source.key().conditionText() : label;
    }
}
