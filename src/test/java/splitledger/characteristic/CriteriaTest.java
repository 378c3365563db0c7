package splitledger.characteristic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

/** Limits that others set. */
class CriteriaTest {
    @Test
    void everyLimitHasItsSourceAndSaysWhatWasNotCompared() {
        assertThat(Criteria.all())
                .extracting(Criteria.Criterion::id)
                .containsExactly(
                        "pharmacopoeial-repeatability",
                        "horwitz",
                        "aoac-recovery",
                        "eu-pesticide-recovery",
                        "ich-accuracy",
                        "recovery-significance",
                        "recovery-bias-included",
                        "reference-material-comparison",
                        "organochlorine-breakdown",
                        "semivolatiles-breakdown");
        assertThat(Criteria.of("horwitz").cited())
                .isEqualTo(
                        "W. Horwitz, Anal. Chem. 54 (1982) 67A; M. Thompson, Analyst 125 (2000) 385 (from memory)");
    }

    @Test
    void aLimitThatIsNotThereIsNamed() {
        assertThatThrownBy(() -> Criteria.of("other"))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("criteria.yaml holds no other");
    }
}
