package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;
import splitledger.base.Nearest;
import splitledger.base.ProblemException;
import splitledger.base.Shown;

/**
 * The one place that turns an exception into words on the error stream and an {@link Exit}. A stack
 * trace is shown only for a fault of the program; whoever mistyped an option or named a broken
 * table gets the message alone.
 */
public final class Failures {
    private static final String PROGRAM = "splitledger: ";

    /** What picocli says of it; it has no exception of its own for this case. */
    private static final String MISSING_COMMAND = "Missing required subcommand";

    /** What systems say when there is no room left. */
    private static final List<String> FULL =
            List.of("No space left", "File too large", "quota", "not enough space");

    private static final String IN_WORDS = "java.io.IOException: ";

    private Failures() {}

    /**
     * Something is wrong with the command as it was typed: says what, guesses what was meant, and
     * names the command that explains it.
     */
    static int ofParameters(ParameterException problem, String[] args) {
        final CommandSpec command = problem.getCommandLine().getCommandSpec();
        final PrintWriter err = problem.getCommandLine().getErr();
        final String words = words(problem, command);
        final String help = "Type '" + command.qualifiedName() + " --help' to see what there is.";
        if (MessagesOption.asked(args) == MessageForm.JSON) {
            err.println(
                    MessageLines.json(
                            MessageLines.ofCommand(words, "a command that can be run", help)));
        } else {
            err.println(PROGRAM + words);
            err.println(help);
        }
        return Exit.BAD_INPUT.code();
    }

    private static String words(ParameterException problem, CommandSpec command) {
        if (problem instanceof UnmatchedArgumentException unmatched) {
            return unmatched(unmatched, command);
        }
        return MISSING_COMMAND.equals(problem.getMessage())
                ? "say what to do: a command is missing"
                : String.valueOf(problem.getMessage());
    }

    /** A command threw an exception while it ran. */
    static int ofExecution(Exception problem, CommandLine command, ParseResult parsed) {
        ParseResult innermost = parsed;
        while (innermost.hasSubcommand()) {
            innermost = innermost.subcommand();
        }
        final MessageForm form =
                innermost.matchedOptionValue(MessagesOption.NAME, MessageForm.TEXT);
        return report(problem, command.getErr(), form).code();
    }

    /**
     * Says what happened, as text.
     *
     * @param problem whatever ended the command
     * @param err where to say it
     * @return the exit that fits
     */
    public static Exit report(Throwable problem, PrintWriter err) {
        return report(problem, err, MessageForm.TEXT);
    }

    /**
     * Says what happened.
     *
     * @param problem whatever ended the command
     * @param err where to say it
     * @param form for people or for programs
     * @return the exit that fits
     */
    static Exit report(Throwable problem, PrintWriter err, MessageForm form) {
        if (problem instanceof ProblemException input) {
            if (form == MessageForm.JSON) {
                input.problems().forEach(p -> err.println(MessageLines.json(p)));
            } else {
                err.println(input.getMessage());
            }
            return Exit.BAD_INPUT;
        }
        final Throwable inner = inner(problem);
        if (inner instanceof IOException io) {
            tell(inWords(io), "", err, form);
            return Exit.BAD_INPUT;
        }
        if (problem instanceof OutOfMemoryError) {
            tell(
                    "there is not enough memory for this. Give it more, for example:"
                            + " SPLITLEDGER_JAVA_OPTS=-Xmx4g",
                    "",
                    err,
                    form);
            return Exit.BAD_INPUT;
        }
        tell(
                "this is a fault of the program, not of your input. Please report it with the"
                        + " lines below and the output of 'splitledger --version'.",
                "",
                err,
                form);
        problem.printStackTrace(err);
        return Exit.FAULT;
    }

    private static void tell(String words, String todo, PrintWriter err, MessageForm form) {
        err.println(
                form == MessageForm.JSON
                        ? MessageLines.json(MessageLines.ofCommand(words, "", todo))
                        : PROGRAM + words);
    }

    /**
     * What a wrapper around a failed read or write holds. A class that could not be set up for want
     * of room says the cause in its message only, once it is asked for a second time.
     */
    private static Throwable inner(Throwable problem) {
        if (!(problem instanceof UncheckedIOException || problem instanceof LinkageError)) {
            return problem;
        }
        for (Throwable t = problem; t != null; t = t.getCause()) {
            if (t instanceof IOException) {
                return t;
            }
            final String message = String.valueOf(t.getMessage());
            final int at = message.lastIndexOf(IN_WORDS);
            if (t instanceof ExceptionInInitializerError && at >= 0) {
                return new IOException(
                        message.substring(at + IN_WORDS.length())
                                .replaceFirst(" \\[in thread.*", ""));
            }
        }
        return problem;
    }

    private static String unmatched(UnmatchedArgumentException problem, CommandSpec command) {
        final String met = problem.getUnmatched().get(0);
        final List<String> known = new ArrayList<>();
        final String kind;
        if (problem.isUnknownOption()) {
            kind = "option";
            command.options().forEach(option -> known.addAll(List.of(option.names())));
        } else if (!command.subcommands().isEmpty()) {
            kind = "command";
            known.addAll(command.subcommands().keySet());
        } else {
            return "'" + met + "' is one argument too many";
        }
        return Nearest.to(met, known)
                .map(word -> "there is no " + kind + " '" + met + "'; did you mean '" + word + "'?")
                .orElse("there is no " + kind + " '" + met + "'");
    }

    /** The messages of the file system are often a bare name: says what is the matter with it. */
    private static String inWords(IOException problem) {
        final String message = Shown.text(String.valueOf(problem.getMessage()));
        if (problem instanceof NoSuchFileException) {
            return message + ": there is no such file or folder";
        }
        if (problem instanceof AccessDeniedException) {
            return message + ": it may not be opened (rights, or another program holds it)";
        }
        if (FULL.stream().anyMatch(message::contains)) {
            return message
                    + ": the disk or what you may use of it is full. Make room there and in the"
                    + " folder for temporary files, or name another folder with --out";
        }
        if (problem instanceof FileSystemException) {
            return message;
        }
        return "a file could not be read or written: " + message;
    }
}
