package splitledger.study;

/**
 * One decision that the program took or a rule imposed, never silent.
 *
 * @param characteristic where it was taken
 * @param compound for which compound; empty for all
 * @param what what was decided
 * @param why the evidence or the rule
 * @param source published source, "common practice, no source" or "worked by hand"
 */
public record Choice(
        String characteristic, String compound, String what, String why, String source) {}
