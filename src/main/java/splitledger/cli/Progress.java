package splitledger.cli;

import java.io.Console;
import java.io.PrintWriter;
import java.util.Optional;

/**
 * A bar that fills as studies end, on a terminal only: a pipe, a file or a test never sees it.
 * Threads may share it.
 */
final class Progress {
    private static final int WIDTH = 30;

    private final Optional<PrintWriter> terminal;
    private final int total;
    private int ended;

    private Progress(Optional<PrintWriter> terminal, int total) {
        this.terminal = terminal;
        this.total = total;
    }

    /**
     * A bar where there is somebody to see it.
     *
     * @param err stream of messages
     * @param total how many studies there are
     */
    static Progress on(PrintWriter err, int total) {
        final boolean seen = isTerminal() && !"dumb".equals(System.getenv("TERM"));
        return new Progress(seen ? Optional.of(err) : Optional.empty(), total);
    }

    /** Whether a person sits there; from Java 22 on a console alone no longer says so. */
    @SuppressWarnings("SystemConsoleNull")
    private static boolean isTerminal() {
        final Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException older) {
            return true;
        } catch (ReflectiveOperationException unknown) {
            return false;
        }
    }

    /** A bar that is always drawn, for tests. */
    static Progress drawn(PrintWriter out, int total) {
        return new Progress(Optional.of(out), total);
    }

    /** One more has ended. */
    synchronized void step() {
        ended++;
        draw();
    }

    /** Lets something be printed where the bar stands. */
    synchronized void aside(Runnable printing) {
        clear();
        printing.run();
        if (ended < total) {
            draw();
        }
    }

    /** Takes the bar away. */
    synchronized void clear() {
        terminal.ifPresent(
                out -> {
                    out.print("\r" + " ".repeat(WIDTH + 2 + 2 * digits() + 2) + "\r");
                    out.flush();
                });
    }

    private void draw() {
        terminal.ifPresent(
                out -> {
                    final int full = (int) ((long) WIDTH * ended / Math.max(1, total));
                    out.print(
                            "\r["
                                    + "#".repeat(full)
                                    + " ".repeat(WIDTH - full)
                                    + "] "
                                    + ended
                                    + "/"
                                    + total);
                    out.flush();
                });
    }

    private int digits() {
        return Integer.toString(total).length();
    }
}
