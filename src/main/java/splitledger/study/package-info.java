/**
 * The vocabulary as records: the protocol, the compounds, the injection table, findings with their
 * keys and verdicts, and the finished {@link splitledger.study.Evaluation} from which everything is
 * written. Start at {@link splitledger.study.Study} (what goes in) and {@link
 * splitledger.study.Evaluation} (what comes out).
 *
 * <p>May use {@code base}, {@code propagation}, {@code statistics}. Holds no calculation but the
 * verdict.
 */
package splitledger.study;
