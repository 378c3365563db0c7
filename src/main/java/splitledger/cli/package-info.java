/**
 * The command line: picocli commands, one class each, thin. Start at {@link splitledger.cli.Main}.
 *
 * <p>House rules here: this is the only room that prints, exits and knows a terminal. A command
 * reads its options, makes one call into another room and prints what came back; it holds no
 * formula, no parsing of files and no rounding. It prints through the writers of its {@code
 * CommandLine}, never through {@code System.out}, so that a test can run it in process and compare
 * the whole output. Exit codes are an interface: {@link splitledger.cli.Exit} is their only list,
 * and {@link splitledger.cli.Failures} the only place that turns an exception into one.
 */
package splitledger.cli;
