package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import splitledger.intake.drafting.TableGuess.Kind;

/** Writes which peaks the study seems to be about. */
final class CompoundLines {
    /** Relative scatter below which a peak of all calibrants looks as if it had been added. */
    private static final double STEADY = 0.1;

    private static final int FEWEST = 5;

    private final Facts facts;

    CompoundLines(Facts facts) {
        this.facts = facts;
    }

    void write(Page page) {
        page.line(0, "compounds:");
        facts.tables().stream()
                .filter(t -> t.kind() == Kind.COMPOUNDS)
                .findFirst()
                .ifPresent(t -> page.put(1, "from", t.sheet().file()));
        final Optional<String> steady = steady();
        final List<String> targets = targets(steady);
        final boolean calibrated = facts.peaks().stream().anyMatch(facts::calibrated);
        page.note(
                1,
                calibrated
                        ? "Targets: the compounds with amounts of their own that differ from level to level."
                        : "Targets: every peak that has a name. Take out what you do not report.");
        page.putList(1, "targets", targets);
        final List<String> others = new ArrayList<>(facts.peaks());
        others.removeAll(targets);
        steady.ifPresent(others::remove);
        if (!others.isEmpty()) {
            page.note(1, "Peaks that are not in the study: " + Drafter.listed(others) + ".");
        }
        steady.ifPresent(
                name ->
                        page.note(
                                        1,
                                        "'"
                                                + name
                                                + "' is in every calibration injection and hardly"
                                                + " changes with the level: it may be an internal"
                                                + " standard.")
                                .ask(
                                        1,
                                        "internal-standard",
                                        "is "
                                                + name
                                                + " an internal standard? If so: {compound: "
                                                + name
                                                + ", amount: 50 mg/L}, with its own amount. If not,"
                                                + " take this line out",
                                        "{compound: " + Page.quoted(name) + "}"));
    }

    private List<String> targets(Optional<String> steady) {
        final List<String> calibrated = facts.peaks().stream().filter(facts::calibrated).toList();
        if (!calibrated.isEmpty()) {
            return calibrated;
        }
        final List<String> named =
                facts.peaks().stream()
                        .filter(p -> !isUnnamed(p) && steady.filter(p::equals).isEmpty())
                        .toList();
        return named.isEmpty() ? List.copyOf(facts.peaks()) : named;
    }

    private static boolean isUnnamed(String peak) {
        return peak.matches("(?i)(peak|unknown|unk|rt)?[ _.:#-]*[0-9.,]*");
    }

    /** The steadiest peak of the calibrants, if it is steady and others are not. */
    private Optional<String> steady() {
        final List<String> calibrants = calibrants(facts);
        if (calibrants.size() < FEWEST) {
            return Optional.empty();
        }
        String best = "";
        double least = STEADY;
        for (String peak : facts.peaks()) {
            final double scatter = facts.relativeScatter(peak, calibrants).orElse(1.0);
            if (!facts.calibrated(peak) && scatter < least) {
                best = peak;
                least = scatter;
            }
        }
        return best.isEmpty() ? Optional.empty() : Optional.of(best);
    }

    /** Injections of the series that look like calibrations. */
    static List<String> calibrants(Facts facts) {
        final List<String> found = new ArrayList<>();
        final Set<String> series = facts.labels("series", facts.injections());
        for (String label : series) {
            if (SeriesKind.of(label) == SeriesKind.CALIBRATION) {
                found.addAll(facts.where("series", label));
            }
        }
        return found;
    }
}
