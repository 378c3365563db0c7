/**
 * Files to {@link splitledger.study.Study}: the protocol (YAML, checked against the published JSON
 * Schema), the compound table and the tables of injections. Start at {@link
 * splitledger.intake.StudyReader}.
 *
 * <p>House rules here: a mistake of the user is a {@link splitledger.base.Problem} with file, row,
 * column, what was found, what was expected and what to do, and reading goes on to find the next
 * one. Numbers are parsed strictly while a file streams by and stay in arrays; Tablesaw gets labels
 * and row indexes only ({@link splitledger.intake.LabelTables}) and never reads a file or guesses a
 * type. Nothing is decided silently: what reading decided is a choice, what it noticed a flag.
 */
package splitledger.intake;
