package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;

/** Opens outcomes in tests. */
public final class Outcomes {
    private Outcomes() {}

    /** The value, or the reason why there is none as a failure. */
    public static <T> T value(Outcome<T> outcome) {
        return outcome.fold(
                v -> v,
                not -> {
                    throw new AssertionError(not.reason() + ": " + not.detail());
                });
    }

    /** Asserts that there is none, and why. */
    public static void assertNot(Outcome<?> outcome, Outcome.Reason reason, String... words) {
        final Outcome.NotComputed<?> not =
                outcome.fold(
                        v -> {
                            throw new AssertionError("computed " + v);
                        },
                        n -> n);
        assertThat(not.reason()).isEqualTo(reason);
        for (String word : words) {
            assertThat(not.detail()).contains(word);
        }
    }
}
