package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ExitTest {
    @Test
    void codesAreThoseThatScriptsRelyOn() {
        assertThat(Exit.DONE.code()).isEqualTo(0);
        assertThat(Exit.CRITERION_NOT_MET.code()).isEqualTo(1);
        assertThat(Exit.BAD_INPUT.code()).isEqualTo(2);
        assertThat(Exit.FAULT.code()).isEqualTo(3);
    }

    @Test
    void ofSeveralStudiesTheWorstOneCounts() {
        assertThat(Exit.DONE.worse(Exit.CRITERION_NOT_MET)).isEqualTo(Exit.CRITERION_NOT_MET);
        assertThat(Exit.FAULT.worse(Exit.BAD_INPUT)).isEqualTo(Exit.FAULT);
        assertThat(Exit.DONE.worse(Exit.DONE)).isEqualTo(Exit.DONE);
    }
}
