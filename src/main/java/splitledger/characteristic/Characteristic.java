package splitledger.characteristic;

import splitledger.study.Card;
import splitledger.study.Contribution;
import splitledger.study.Extent;
import splitledger.study.Study;
import splitledger.study.Tree;

/** One performance characteristic. Implementations are stateless. */
public interface Characteristic {

    /** What it is. */
    Card card();

    /**
     * Answers its question.
     *
     * @param study all that goes in
     * @param options its block of the protocol, of the form its card declares
     * @param earlier what the characteristics it needs have given
     * @param extent what may be left out
     * @return findings, figures and choices; a quantity that cannot be given has its finding with
     *     the reason
     */
    Contribution evaluate(Study study, Tree.Mapping options, Earlier earlier, Extent extent);
}
