package splitledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.intake.ShippedTables.Kind;
import splitledger.propagation.Shape;
import splitledger.study.Standards.Spread;
import splitledger.study.Standards.Vessel;
import splitledger.study.Tree;

/**
 * The glassware of a protocol: kinds from a list, and pieces with a name of their own. A kind that
 * is named without a piece is a piece of its own at each place of the protocol.
 */
final class VesselReader {
    private static final double SAME = 1e-9;

    private final Reading reading;
    private final Map<String, Kind> kinds;
    private final Map<String, Vessel> pieces = new LinkedHashMap<>();
    private final Map<String, Integer> unnamed = new TreeMap<>();
    private final Map<String, Vessel> used = new TreeMap<>();

    private VesselReader(Reading reading, Map<String, Kind> kinds) {
        this.reading = reading;
        this.kinds = kinds;
    }

    /** Reads the list of glassware and the pieces of the block. */
    static VesselReader of(Tree.Mapping standards, InputFolder folder, Reading reading)
            throws IOException {
        final Optional<String> own = standards.text("glassware");
        Map<String, Kind> kinds = Map.of();
        if (own.isEmpty()) {
            kinds = ShippedTables.glassware();
        } else {
            final Tree tree = standards.get("glassware").orElse(standards);
            final Optional<String> name = folder.find(tree.place(), own.get());
            if (name.isPresent()) {
                kinds = ShippedTables.glassware(folder, name.get(), own.get(), reading);
            }
        }
        final VesselReader vessels = new VesselReader(reading, kinds);
        standards
                .mapping("pieces")
                .entries()
                .forEach(
                        (name, piece) -> {
                            if (piece instanceof Tree.Mapping mapping) {
                                vessels.piece(name, mapping);
                            }
                        });
        return vessels;
    }

    /**
     * The flask of {@code into}.
     *
     * @param use names this place of the protocol
     */
    Optional<Vessel> flask(Tree.Mapping solution, String use) {
        final Optional<Vessel> vessel = vessel(solution, "into", use);
        final Optional<Kind> kind = vessel.map(v -> kinds.get(v.kind()));
        if (kind.isPresent() && kind.get().graduated()) {
            tell(
                    solution,
                    "into",
                    "'" + kind.get().name() + "', which measures portions",
                    "a vessel with one mark",
                    "name the flask that was made up to the mark");
            return Optional.empty();
        }
        return vessel;
    }

    /**
     * The vessel of {@code with}.
     *
     * @param take volume that it measured, mL
     */
    Optional<Vessel> measure(Tree.Mapping portion, String use, double take) {
        final Optional<Vessel> vessel = vessel(portion, "with", use);
        final Optional<Kind> kind = vessel.map(v -> kinds.get(v.kind()));
        if (kind.isEmpty()) {
            return Optional.empty();
        }
        final double marked = kind.get().volume();
        final boolean fits =
                kind.get().graduated()
                        ? take <= marked * (1 + SAME)
                        : Math.abs(take - marked) <= SAME * marked;
        if (!fits) {
            tell(
                    portion,
                    "take",
                    Numbers.text(take) + " mL with '" + kind.get().name() + "'",
                    kind.get().graduated()
                            ? "no more than " + Numbers.text(marked) + " mL"
                            : Numbers.text(marked) + " mL, the one volume that it measures",
                    "change the volume or the vessel; one with a scale is called graduated, burette,"
                            + " piston or syringe");
            return Optional.empty();
        }
        return vessel;
    }

    /** The volume that a vessel measures for a wanted one: a calibrated piece differs, mL. */
    double corrected(Vessel vessel, double wanted) {
        final Kind kind = kinds.get(vessel.kind());
        return kind == null ? wanted : wanted * vessel.volume() / kind.volume();
    }

    /** A volume in mL; empty, with a problem, if it is none. */
    static OptionalDouble millilitres(Tree.Mapping mapping, String key, Reading reading) {
        final Optional<Quantity> q = Quantity.ofSize(mapping, key, reading);
        if (q.isEmpty()) {
            return OptionalDouble.empty();
        }
        final double size =
                switch (q.get().unit()) {
                    case "mL", "ml" -> 1;
                    case "L", "l" -> 1000;
                    case "uL", "ul", "\u00b5L", "\u03bcL" -> 1e-3;
                    default -> 0;
                };
        if (size == 0) {
            reading.problem(
                    mapping.get(key).orElse(mapping).place(),
                    "'" + mapping.text(key).orElse("") + "'",
                    "a volume in mL, uL or L",
                    "write the unit behind the number");
            return OptionalDouble.empty();
        }
        // dividing keeps 100 uL exactly 0.1 mL
        return OptionalDouble.of(size < 1 ? q.get().value() / 1000 : q.get().value() * size);
    }

    /** Says what was taken for granted of the vessels in use. */
    void tellChoices() {
        final List<String> several = new ArrayList<>();
        unnamed.forEach(
                (kind, count) -> {
                    if (count > 1) {
                        several.add(kind);
                    }
                });
        if (!several.isEmpty()) {
            reading.choice(
                    "Glassware named by its kind alone is a piece of its own at each place of the"
                            + " protocol: "
                            + String.join(", ", several),
                    "only a piece with a name (standards: pieces) is known to be the same one,"
                            + " with the same error, wherever it is used",
                    "common practice, no source");
        }
        used.forEach(
                (words, v) ->
                        reading.choice(
                                words,
                                "triangular".equals(v.tolerance().shape())
                                        ? "volumes near the mark are likelier than those at the"
                                                + " limits (JCGM 100:2008, 4.3.9)"
                                        : "as stated for the piece",
                                v.source()));
        if (used.values().stream().anyMatch(v -> v.repeatability() == 0)) {
            reading.choice(
                    "The repeatability of filling and delivering is not added where none is stated",
                    "what differs from one preparation to the next shows in their scatter; that of a"
                            + " stock does not: state repeatability for its pieces if it matters",
                    "common practice, no source");
        }
    }

    private Optional<Vessel> vessel(Tree.Mapping mapping, String key, String use) {
        final String text = mapping.text(key).orElse("").strip().replaceAll("\\s+", " ");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        final Vessel piece = pieces.get(text);
        if (piece != null) {
            note(piece);
            return Optional.of(piece);
        }
        final Optional<Kind> kind = kind(mapping, key, text);
        kind.ifPresent(k -> unnamed.merge(k.name(), 1, Integer::sum));
        final Optional<Vessel> vessel =
                kind.map(
                        k ->
                                new Vessel(
                                        use,
                                        k.name(),
                                        k.volume(),
                                        triangular(k.tolerance()),
                                        k.repeatability(),
                                        k.expansion(),
                                        k.source()));
        vessel.ifPresent(this::note);
        return vessel;
    }

    private void note(Vessel v) {
        final boolean limits = "triangular".equals(v.tolerance().shape());
        final double half =
                v.tolerance().standardUncertainty()
                        * (limits ? new Shape.Triangular().halfWidthInDeviations() : 1);
        used.putIfAbsent(
                v.kind()
                        + ": "
                        + splitledger.study.Trail.digits(v.volume())
                        + " mL, "
                        + (limits ? "within " : "standard uncertainty ")
                        + splitledger.study.Trail.digits(half)
                        + " mL"
                        + (limits ? " on either side, taken as triangular" : ""),
                v);
    }

    private Optional<Kind> kind(Tree.Mapping mapping, String key, String text) {
        final Kind kind = kinds.get(text);
        if (kind == null && !kinds.isEmpty()) {
            final List<String> names = new ArrayList<>(pieces.keySet());
            names.addAll(kinds.keySet());
            final String hint =
                    Nearest.to(text, names)
                            .map(n -> "did you mean '" + n + "'?")
                            .orElse(
                                    "use a name of the list, such as flask 100 mL A or pipette 10 mL A; or give a"
                                            + " list of your own (standards: glassware)");
            tell(mapping, key, "'" + text + "'", "glassware of the list, or a piece", hint);
        }
        return Optional.ofNullable(kind);
    }

    private void piece(String name, Tree.Mapping m) {
        final Optional<Kind> found = kind(m, "is", m.text("is").orElse("").strip());
        if (found.isEmpty()) {
            return;
        }
        if (m.get("half-width").isPresent() && m.get("standard-uncertainty").isPresent()) {
            tell(m, "half-width", "both", "half-width or standard-uncertainty", "keep one of them");
            return;
        }
        final Kind k = found.get();
        final OptionalDouble half = millilitres(m, "half-width", reading);
        final OptionalDouble u = millilitres(m, "standard-uncertainty", reading);
        final Spread error =
                u.isPresent()
                        ? new Spread(u.getAsDouble(), "normal")
                        : triangular(half.orElse(k.tolerance()));
        final boolean own = u.isPresent() || half.isPresent() || m.get("volume").isPresent();
        pieces.put(
                name,
                new Vessel(
                        name,
                        k.name(),
                        millilitres(m, "volume", reading).orElse(k.volume()),
                        error,
                        millilitres(m, "repeatability", reading).orElse(k.repeatability()),
                        m.number("expansion").orElse(k.expansion()),
                        m.text("source").orElse(own ? "stated in the protocol" : k.source())));
    }

    private static Spread triangular(double half) {
        return new Spread(half / new Shape.Triangular().halfWidthInDeviations(), "triangular");
    }

    private void tell(
            Tree.Mapping mapping, String key, String found, String expected, String hint) {
        reading.problem(mapping.get(key).orElse(mapping).place(), found, expected, hint);
    }
}
