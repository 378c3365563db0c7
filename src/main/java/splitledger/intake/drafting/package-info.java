/**
 * Tables nobody has described yet to the draft of a protocol: what each table and column seems to
 * be, said with its reason, and questions for what only the laboratory can know. Start at {@link
 * splitledger.intake.drafting.Drafter}.
 *
 * <p>House rules here: a guess is written down with what it rests on; nothing that changes a result
 * (the meaning of 0, of a preparation, of a split ratio, correct or not, limits) is guessed at all.
 * A draft holds for people what it holds for the program: both forms come from one writer.
 */
package splitledger.intake.drafting;
