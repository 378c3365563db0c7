/**
 * From a {@link splitledger.study.Study} to an {@link splitledger.study.Evaluation}: orders the
 * characteristics, collects what they give, makes budgets, applies the requirements. Pure: the same
 * study gives the same evaluation. Start at {@link splitledger.evaluation.Evaluator}.
 *
 * <p>May use {@code characteristic}, {@code budget}, {@code study}. Also writes, at build time, the
 * resources that the cards generate ({@link splitledger.evaluation.GenerateResources}).
 */
package splitledger.evaluation;
