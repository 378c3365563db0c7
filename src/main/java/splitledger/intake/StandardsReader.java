package splitledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import splitledger.base.Nearest;
import splitledger.propagation.Shape;
import splitledger.study.Standards;
import splitledger.study.Standards.Portion;
import splitledger.study.Standards.Solution;
import splitledger.study.Standards.Spread;
import splitledger.study.Standards.Temperature;
import splitledger.study.Standards.Vessel;
import splitledger.study.Standards.Weighing;
import splitledger.study.Tree;

/** Reads how the calibrants were made. */
final class StandardsReader {
    private static final Set<String> RESERVED =
            new LinkedHashSet<>(List.of("laboratory", "solvent", "glassware", "pieces"));
    private static final List<String> WEIGHING = List.of("compound", "mass", "purity");

    private final Tree.Mapping standards;
    private final InputFolder folder;
    private final Reading reading;
    private final Map<String, Tree.Mapping> recipes = new LinkedHashMap<>();
    private final Map<String, Solution> solutions = new LinkedHashMap<>();
    private final Set<String> open = new LinkedHashSet<>();

    private StandardsReader(Tree.Mapping standards, InputFolder folder, Reading reading) {
        this.standards = standards;
        this.folder = folder;
        this.reading = reading;
    }

    /** The block of a protocol; empty if it has none, or one that cannot be read. */
    static Optional<Standards> read(Tree.Mapping protocol, InputFolder folder, Reading reading)
            throws IOException {
        if (protocol.get("standards").isEmpty()
                || !(protocol.get("standards").get() instanceof Tree.Mapping block)
                || reading.touched(block.place())) {
            return Optional.empty();
        }
        return new StandardsReader(block, folder, reading).all();
    }

    private Optional<Standards> all() throws IOException {
        final int before = reading.problems();
        final LaboratoryReader laboratory = new LaboratoryReader(standards, reading);
        final Optional<Temperature> temperature = laboratory.temperature();
        final double expansion =
                laboratory.expansion(temperature.map(t -> t.halfWidth() > 0).orElse(false));
        final VesselReader vessels = VesselReader.of(standards, folder, reading);
        standards
                .entries()
                .forEach(
                        (name, entry) -> {
                            if (!RESERVED.contains(name) && entry instanceof Tree.Mapping recipe) {
                                recipes.put(name, recipe);
                            }
                        });
        if (recipes.isEmpty()) {
            reading.problem(
                    standards.place(),
                    "no solution",
                    "at least one solution, such as stock",
                    "name each solution and say how it was made");
        }
        for (String name : recipes.keySet()) {
            solution(name, vessels);
        }
        if (reading.problems() > before) {
            return Optional.empty();
        }
        vessels.tellChoices();
        return Optional.of(new Standards(temperature, expansion, solutions, standards.place()));
    }

    /** Makes a solution, what it is made of first. */
    private void solution(String name, VesselReader vessels) throws IOException {
        final Tree.Mapping recipe = recipes.get(name);
        if (recipe == null || solutions.containsKey(name) || !open.add(name)) {
            return;
        }
        final Optional<Vessel> into = vessels.flask(recipe, name + "/into");
        if (recipe.get("weighed").isPresent()) {
            final Map<String, Weighing> weighings = weighings(name, recipe);
            into.ifPresent(v -> solutions.put(name, new Standards.Weighed(name, weighings, v)));
            return;
        }
        final List<Portion> portions = new ArrayList<>();
        final List<Tree.Mapping> parts = portions(recipe);
        for (int i = 0; i < parts.size(); i++) {
            if (parent(name, parts.get(i), vessels)) {
                portion(parts.get(i), name + "/with " + (i + 1), vessels).ifPresent(portions::add);
            }
        }
        into.ifPresent(v -> solutions.put(name, new Standards.Diluted(name, portions, v)));
    }

    private static List<Tree.Mapping> portions(Tree.Mapping recipe) {
        if (recipe.get("portions").orElse(recipe) instanceof Tree.Sequence several) {
            return several.items().stream()
                    .filter(Tree.Mapping.class::isInstance)
                    .map(Tree.Mapping.class::cast)
                    .toList();
        }
        return List.of(recipe);
    }

    /** Makes the solution that a portion was taken from. */
    private boolean parent(String name, Tree.Mapping portion, VesselReader vessels)
            throws IOException {
        final String of = portion.text("of").orElse("");
        final Tree at = portion.get("of").orElse(portion);
        if (!recipes.containsKey(of)) {
            reading.problem(
                    at.place(),
                    "the solution '" + of + "'",
                    "a solution of the block",
                    Nearest.hint(of, recipes.keySet()));
            return false;
        }
        solution(of, vessels);
        if (!solutions.containsKey(of) && open.contains(of) && isMadeOf(of, name)) {
            reading.problem(
                    at.place(),
                    "the solution '" + of + "', which is made of '" + name + "' itself",
                    "a solution that was there before",
                    "one of the two must come from another solution");
            return false;
        }
        return true;
    }

    private boolean isMadeOf(String solution, String of) {
        final Set<String> seen = new LinkedHashSet<>();
        final List<String> next = new ArrayList<>(List.of(solution));
        while (!next.isEmpty()) {
            final String one = next.remove(0);
            if (one.equals(of)) {
                return true;
            }
            if (seen.add(one) && recipes.containsKey(one)) {
                portions(recipes.get(one)).forEach(p -> p.text("of").ifPresent(next::add));
            }
        }
        return false;
    }

    private Optional<Portion> portion(Tree.Mapping portion, String use, VesselReader vessels) {
        final OptionalDouble take = VesselReader.millilitres(portion, "take", reading);
        if (take.isEmpty()) {
            return Optional.empty();
        }
        return vessels.measure(portion, use, take.getAsDouble())
                .map(
                        v ->
                                new Portion(
                                        portion.text("of").orElse(""),
                                        vessels.corrected(v, take.getAsDouble()),
                                        v));
    }

    private Map<String, Weighing> weighings(String solution, Tree.Mapping recipe)
            throws IOException {
        final Map<String, Weighing> found = new LinkedHashMap<>();
        final String written = recipe.text("weighed").orElse("");
        final Optional<String> name =
                folder.find(recipe.get("weighed").orElse(recipe).place(), written);
        if (name.isEmpty()) {
            return found;
        }
        final NamedRows rows =
                new NamedRows(
                        written,
                        reading,
                        WEIGHING,
                        (row, line) -> {
                            final String of = row.text("solution");
                            if (of.isEmpty() || of.equals(solution)) {
                                weighing(row, found);
                            }
                        });
        TableFile.read(
                folder, "weighings", name.get(), written, TableFormat.UNSTATED, reading, rows);
        return found;
    }

    private static void weighing(NamedRows.Row row, Map<String, Weighing> into) {
        final Optional<String> compound = row.name("compound");
        final OptionalDouble mass = row.number("mass");
        final OptionalDouble purity = row.number("purity");
        if (mass.isEmpty() || !(mass.getAsDouble() > 0)) {
            row.problem("mass", "'" + row.text("mass") + "'", "a mass above 0 in mg", "fill it in");
            return;
        }
        if (purity.isEmpty() || !(purity.getAsDouble() > 0 && purity.getAsDouble() <= 1)) {
            row.problem(
                    "purity",
                    "'" + row.text("purity") + "'",
                    "a mass fraction above 0 and not above 1, such as 0.995 or 99.5 %",
                    "write a percentage with its sign");
            return;
        }
        final Optional<Spread> massError = error(row, "mass");
        final Optional<Spread> purityError = error(row, "purity");
        if (compound.isEmpty() || massError.isEmpty() || purityError.isEmpty()) {
            return;
        }
        final Weighing weighing =
                new Weighing(
                        mass.getAsDouble(),
                        massError.get(),
                        purity.getAsDouble(),
                        purityError.get(),
                        row.text("source"));
        if (into.putIfAbsent(compound.get(), weighing) != null) {
            row.problem(
                    "compound",
                    "'" + compound.get() + "' a second time",
                    "each compound once for a solution",
                    "keep one, or tell solutions apart by a column 'solution'");
        }
    }

    /** {@code x_u}, a standard uncertainty, or {@code x_half_width}, between limits. */
    private static Optional<Spread> error(NamedRows.Row row, String of) {
        final OptionalDouble u = row.number(of + "_u");
        final OptionalDouble half = row.number(of + "_half_width");
        if (u.isPresent() == half.isPresent()) {
            row.problem(
                    of,
                    u.isPresent() ? "two uncertainties of it" : "no uncertainty of it",
                    "a number in " + of + "_u (standard uncertainty) or in " + of + "_half_width",
                    u.isPresent()
                            ? "keep one of them"
                            : "take it from the certificate, or from that of the balance; 0 if it is"
                                    + " known to be negligible");
            return Optional.empty();
        }
        return Optional.of(
                u.isPresent()
                        ? new Spread(u.getAsDouble(), "normal")
                        : new Spread(
                                half.getAsDouble()
                                        / new Shape.Rectangular().halfWidthInDeviations(),
                                "rectangular"));
    }
}
