package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import splitledger.study.Protocol.Found;

/**
 * Measurement equations by name. Each takes those of the usual inputs that the protocol gives: what
 * multiplies, what divides, and a blank that is taken off first. A protocol with other inputs
 * writes its equation out.
 */
final class ReadyEquations {
    /** Names with what {@code found} is in each. */
    private enum Ready {
        EXTERNAL_STANDARD("external-standard", Found.AMOUNT),
        INTERNAL_STANDARD("internal-standard", Found.AMOUNT),
        STANDARD_ADDITION("standard-addition", Found.ADDITION),
        AREA_NORMALISATION("area-normalisation", Found.AREA_SHARE);

        private final String code;
        private final Found found;

        Ready(String code, Found found) {
            this.code = code;
            this.found = found;
        }
    }

    private static final String BLANK = "blank";
    private static final List<String> TIMES =
            List.of("dilution", "volume", "precision", "bracketing", "standard");
    private static final List<String> OVER =
            List.of("portion", "recovery", "split", "discrimination", "loss", "matrix");

    private ReadyEquations() {}

    /** Names that may stand in place of an equation. */
    static List<String> names() {
        return List.of(Ready.values()).stream().map(r -> r.code).toList();
    }

    /** The usual inputs. */
    static List<String> inputs() {
        final List<String> all = new ArrayList<>(List.of(BLANK));
        all.addAll(TIMES);
        all.addAll(OVER);
        return all;
    }

    /** What {@code found} is in an equation of this name; empty if there is none. */
    static Optional<Found> found(String name) {
        return List.of(Ready.values()).stream()
                .filter(r -> r.code.equals(name))
                .map(r -> r.found)
                .findFirst();
    }

    /** The equation with those inputs that are given. */
    static String equation(Set<String> given) {
        final StringBuilder text = new StringBuilder();
        text.append(given.contains(BLANK) ? "(found - blank)" : "found");
        TIMES.stream().filter(given::contains).forEach(s -> text.append(" * ").append(s));
        OVER.stream().filter(given::contains).forEach(s -> text.append(" / ").append(s));
        return text.toString();
    }
}
