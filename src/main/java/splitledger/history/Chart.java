package splitledger.history;

import java.util.List;

/**
 * One quantity of one instrument over time.
 *
 * @param key what it shows
 * @param method how its values were found
 * @param scale on which limits were set
 * @param points in order of time, at least one
 * @param works on the instrument, in order of time
 * @param missing dossiers that ask for it and give no value
 * @param remarks what the reader has to know
 */
record Chart(
        SeriesKey key,
        String method,
        Scale scale,
        List<ChartPoint> points,
        List<History.Work> works,
        List<DatedValue> missing,
        List<String> remarks) {
    /** With fewer dossiers behind them, limits are provisional; common practice, no source. */
    static final int FEW = 8;

    Chart {
        points = List.copyOf(points);
        works = List.copyOf(works);
        missing = List.copyOf(missing);
        remarks = List.copyOf(remarks);
    }

    /** How it stands at its last dossier. */
    Standing standing() {
        final ChartPoint last = last();
        if (last.acts()) {
            return Standing.ACT;
        }
        if (!last.signals().isEmpty()) {
            return Standing.WATCH;
        }
        if (!last.hasLimits()) {
            return Standing.TOO_FEW;
        }
        return points.stream().anyMatch(p -> !p.signals().isEmpty())
                ? Standing.EARLIER
                : Standing.QUIET;
    }

    /** The newest point. */
    ChartPoint last() {
        return points.get(points.size() - 1);
    }

    /** Values behind the newest limits. */
    long behindLimits() {
        return points.stream().filter(p -> p.stretch() == last().stretch() && p.base()).count();
    }

    /** Whether the newest limits rest on few values. */
    boolean isProvisional() {
        return last().hasLimits() && behindLimits() < FEW;
    }
}
