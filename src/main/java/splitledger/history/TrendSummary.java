package splitledger.history;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.CodePoints;

/** What a trend says in a few lines. */
final class TrendSummary {
    /**
     * Share of newest points that ask for action though nothing changed, limits known and values
     * normal, changes to both sides counting; a test simulates it.
     */
    static final double FALSE_SHARE = 0.0125;

    private static final int SHOWN = 20;

    private TrendSummary() {}

    static boolean needsAction(History history, Charts.Made made) {
        return made.charts().stream().anyMatch(c -> c.standing() == Standing.ACT)
                || history.leftOut().stream().anyMatch(History.LeftOut::damaged);
    }

    /** Studies in order of time. */
    static List<History.Dated> inOrder(List<History.Dated> studies) {
        return studies.stream()
                .sorted(
                        Comparator.comparing(History.Dated::instrument, CodePoints.ORDER)
                                .thenComparingDouble(
                                        d -> StudyTime.days(d.time()).orElse(Double.NaN))
                                .thenComparing(History.Dated::dossier, CodePoints.ORDER))
                .toList();
    }

    /** How many dossiers of which instruments and when. */
    static String studies(History history) {
        final Set<String> instruments = new TreeSet<>(CodePoints.ORDER);
        history.studies().forEach(s -> instruments.add(s.instrument()));
        final List<String> days =
                history.studies().stream()
                        .map(s -> StudyTime.day(s.time()))
                        .sorted(CodePoints.ORDER)
                        .toList();
        return history.studies().size()
                + (history.studies().size() == 1 ? " dossier of " : " dossiers of ")
                + String.join(", ", instruments)
                + ", from "
                + days.get(0)
                + " to "
                + days.get(days.size() - 1)
                + "; "
                + history.leftOut().size()
                + " left out.";
    }

    /** What chance alone brings. */
    static String chance(Charts.Made made) {
        final long limited = made.charts().stream().filter(c -> c.last().hasLimits()).count();
        if (limited == 0) {
            return "No chart has limits yet: at least "
                    + TrendOptions.LEAST_BASE
                    + " dossiers are needed.";
        }
        return "Chance alone: about 1 chart in "
                + Math.round(1 / FALSE_SHARE)
                + " asks for action though nothing changed, more often where limits rest on few"
                + " dossiers. Of the "
                + limited
                + " charts with limits here, "
                + Shortly.number(Math.rint(10 * limited * FALSE_SHARE) / 10)
                + " are to be expected. Charts of one instrument are not independent: what moves one"
                + " often moves others.";
    }

    /** For the terminal. */
    static List<String> lines(History history, Charts.Made made) {
        final List<String> lines = new ArrayList<>();
        lines.add("  " + studies(history));
        int shown = 0;
        for (Chart chart : made.charts()) {
            final Standing standing = chart.standing();
            if ((standing == Standing.ACT || standing == Standing.WATCH) && shown++ < SHOWN) {
                final TrendWords words = new TrendWords(chart);
                lines.add("  " + standing.words() + ": " + words.title());
                lines.add("    " + words.newest());
            }
        }
        if (shown > SHOWN) {
            lines.add("  and " + (shown - SHOWN) + " more, see the page");
        }
        history.leftOut().forEach(l -> lines.add("  left out: " + l.what() + ": " + l.why()));
        if (!needsAction(history, made)) {
            lines.add("  nothing needs action");
        }
        return lines;
    }
}
