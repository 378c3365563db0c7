package splitledger.study;

/**
 * A criterion applied to a finding.
 *
 * @param criterion the criterion
 * @param verdict what it says
 * @param explanation in words: what was compared with what, and the bound beside it
 */
public record Judgement(Criterion criterion, Verdict verdict, String explanation) {}
