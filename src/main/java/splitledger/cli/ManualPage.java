package splitledger.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * The manual page of the program in the language of {@code man}, made from the commands: a section
 * for each command with its options, then the exit codes.
 */
final class ManualPage {
    private final StringBuilder page = new StringBuilder();

    private ManualPage() {}

    /**
     * The page.
     *
     * @param program all commands
     * @param version of the program
     * @return lines that end with a line feed
     */
    static String of(CommandLine program, String version) {
        final ManualPage page = new ManualPage();
        page.write(program.getCommandSpec(), version);
        return page.page.toString();
    }

    private void write(CommandSpec program, String version) {
        final String name = program.name();
        // without a date: the same sources give the same page
        request(
                ".TH "
                        + name.toUpperCase(Locale.ROOT)
                        + " 1 \"\" \""
                        + name
                        + " "
                        + version
                        + "\"");
        request(".nh");
        request(".ad l");
        section("NAME");
        text(name + " - findings, verdicts and uncertainty from gas-chromatography injections");
        section("SYNOPSIS");
        request(".B " + escaped(name));
        text("COMMAND [OPTION...] [ARGUMENT...]");
        section("DESCRIPTION");
        paragraphs(program.usageMessage().description());
        section("COMMANDS");
        for (CommandLine command : program.subcommands().values()) {
            command(name, command.getCommandSpec());
        }
        section("EXIT STATUS");
        program.usageMessage().exitCodeList().forEach((code, meaning) -> entry(code, meaning));
        section("ENVIRONMENT");
        entry("JAVA_HOME", "The Java to use, if it is 17 or newer; else the one on the PATH.");
        entry("SPLITLEDGER_JAVA_OPTS", "More options for Java, separated by blanks.");
    }

    private void command(String program, CommandSpec command) {
        request(".SS " + escaped(program + " " + command.name()));
        paragraphs(command.usageMessage().description());
        for (PositionalParamSpec argument : command.positionalParameters()) {
            if (!argument.hidden()) {
                entry(argument.paramLabel(), joined(argument.description()));
            }
        }
        for (OptionSpec option : command.options()) {
            if (!option.hidden()) {
                entry(names(option), joined(option.description()));
            }
        }
        paragraphs(command.usageMessage().footer());
    }

    private static String names(OptionSpec option) {
        final List<String> names = new ArrayList<>(List.of(option.names()));
        final String label = option.arity().max() == 0 ? "" : "=" + option.paramLabel();
        return String.join(", ", names) + label;
    }

    private static String joined(String[] lines) {
        return String.join(" ", lines);
    }

    private void entry(String term, String meaning) {
        request(".TP");
        request("\\fB" + escaped(term) + "\\fR");
        text(meaning);
    }

    private void section(String heading) {
        request(".SH " + heading);
    }

    private void paragraphs(String[] paragraphs) {
        for (String paragraph : paragraphs) {
            request(".PP");
            text(paragraph);
        }
    }

    private void text(String text) {
        // as the help prints it: picocli's own marks resolved
        final String plain = Ansi.OFF.string(text.replace("%n", "\n").replace("%%", "%"));
        plain.lines()
                .map(String::strip)
                .filter(l -> !l.isEmpty())
                .forEach(l -> request(guarded(l)));
    }

    /** A full stop or an apostrophe at the start of a line would be a request. */
    private static String guarded(String line) {
        final String escaped = escaped(line);
        return line.startsWith(".") || line.startsWith("'") ? "\\&" + escaped : escaped;
    }

    private static String escaped(String text) {
        return text.replace("\\", "\\e").replace("-", "\\-");
    }

    private void request(String line) {
        page.append(line).append('\n');
    }
}
