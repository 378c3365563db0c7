package splitledger.budget;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.study.Finding;
import splitledger.study.Protocol.FromFinding;
import splitledger.study.Protocol.Input;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.NotCorrected;
import splitledger.study.Study;

/** The recovery in a measurement equation, as the laboratory decided to treat it. */
final class RecoveryInput {
    private static final String RECOVERY = "recovery";
    private static final String FACTOR = "recovery-factor";
    private static final String NEITHER = "neither";

    /** Spikes read off the calibration come before additions, which are a check of them. */
    private static final String USUAL = "spike";

    private final List<Finding> findings;
    private final Optional<String> decision;

    RecoveryInput(Study study, List<Finding> findings) {
        this.findings = findings;
        this.decision =
                Optional.ofNullable(study.protocol().characteristics().get(RECOVERY))
                        .flatMap(o -> o.text("decision"));
    }

    /** Whether an input is a recovery. */
    static boolean is(Input input) {
        return input instanceof FromFinding f && f.quantity().equals(RECOVERY);
    }

    /** The symbol that stands for recovery, corrected for or not; empty if none does. */
    static Optional<String> symbol(Measurand measurand) {
        return measurand.inputs().entrySet().stream()
                .filter(
                        e ->
                                is(e.getValue())
                                        || (e.getValue() instanceof NotCorrected
                                                && List.of("R", RECOVERY).contains(e.getKey())))
                .map(Map.Entry::getKey)
                .findFirst();
    }

    /** Whether the protocol decides to leave it out altogether. */
    boolean neither() {
        return decision.filter(NEITHER::equals).isPresent();
    }

    /** The factor as the protocol decides; without a decision, what the equation names. */
    Outcome<Uncertain> of(FromFinding input, String compound) {
        if (neither()) {
            return Outcome.of(Uncertain.exact(1, "1"));
        }
        return decision.isPresent()
                ? decided(decision.get(), input, compound)
                : usual(input, compound);
    }

    /**
     * The factor under a decision.
     *
     * @param way {@code correct} or {@code include}
     */
    Outcome<Uncertain> decided(String way, FromFinding input, String compound) {
        final Map<String, String> condition = new LinkedHashMap<>(input.condition());
        condition.put("decision", way);
        return usual(
                new FromFinding(FACTOR, input.method(), condition, input.home(), input.place()),
                compound);
    }

    /** Both ways of treating the recovery of a compound, where it is known; else none. */
    Map<String, Uncertain> bothWays(Measurand measurand, String compound) {
        final Map<String, Uncertain> ways = new LinkedHashMap<>();
        final Optional<Input> input = symbol(measurand).map(s -> measurand.inputs().get(s));
        if (input.isPresent()) {
            final FromFinding named =
                    input.get() instanceof FromFinding f
                            ? f
                            : new FromFinding(
                                    FACTOR,
                                    Optional.empty(),
                                    Map.of(),
                                    splitledger.study.Protocol.Home.NOT_STATED,
                                    input.get().place());
            for (String way : List.of("correct", "include")) {
                decided(way, named, compound)
                        .<Optional<Uncertain>>fold(Optional::of, not -> Optional.empty())
                        .ifPresent(x -> ways.put(way, x));
            }
        }
        return ways;
    }

    private Outcome<Uncertain> usual(FromFinding input, String compound) {
        final Outcome<Uncertain> named = NamedFinding.of(findings, input, compound);
        if (named instanceof Outcome.Computed || input.method().isPresent()) {
            return named;
        }
        return NamedFinding.of(
                        findings,
                        new FromFinding(
                                input.quantity(),
                                Optional.of(USUAL),
                                input.condition(),
                                input.home(),
                                input.place()),
                        compound)
                .fold(Outcome::of, not -> named);
    }
}
