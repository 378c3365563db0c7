package splitledger.statistics;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How the factors of a precision study lie to each other, read from the labels, and the random
 * terms that follow.
 *
 * <ul>
 *   <li>A factor is <b>nested</b> in another if each of its labels occurs under one label of the
 *       other only (every analyst worked on one day); two factors of which neither is nested in the
 *       other are <b>crossed</b> (two analysts every day).
 *   <li>Terms: every factor; every combination of mutually crossed factors (day:analyst); the
 *       preparation, which is nested within the cell of all factors unless told otherwise. What is
 *       left is the residual: {@value #INJECTION}, or {@value #PREPARATION} if every preparation
 *       was injected once.
 *   <li>A factor with one label tells nothing and is left out; so is a term that divides the rows
 *       like an earlier one (analysts that change with the day): the two are confounded, and {@link
 *       #confounded} says so.
 * </ul>
 *
 * @param terms random terms in the order in which they are fitted; the residual is not among them
 * @param residual name of the residual
 * @param relations for each pair of factors, in their order
 * @param confounded terms that were left out, and what holds their scatter instead
 * @param tree parent of each term that is nested in another: the coarsest-to-finest chain
 */
public record ScatterStructure(
        List<ScatterFactor> terms,
        String residual,
        List<Relation> relations,
        List<Confounded> confounded,
        Map<String, String> tree) {

    /** Name of the residual of injections. */
    public static final String INJECTION = "injection";

    /** Name of the term of preparations. */
    public static final String PREPARATION = "preparation";

    /** How two factors lie to each other. */
    public enum Kind {
        NESTED,
        CROSSED,
        ALIKE
    }

    /**
     * A pair of factors.
     *
     * @param kind with {@code NESTED}, {@code factor} is nested in {@code other}
     */
    public record Relation(String factor, String other, Kind kind) {}

    /** A term that cannot be told from another. An empty {@code with} means: it has one label. */
    public record Confounded(String term, String with) {}

    /**
     * Reads the structure.
     *
     * @param factors day, analyst, ..., in the order of the protocol; without the preparation
     * @param preparation labels of the preparations, if there are any
     * @param nestedIn overrides: factor to the factor within which its labels are to be read as
     *     different (analyst 1 of day 1 is not analyst 1 of day 2); for {@value #PREPARATION} it
     *     takes the place of the cell, and an empty text means that its labels are unique as they
     *     stand
     */
    public static ScatterStructure read(
            List<ScatterFactor> factors,
            Optional<ScatterFactor> preparation,
            Map<String, String> nestedIn) {
        final List<Confounded> confounded = new ArrayList<>();
        final List<ScatterFactor> mains = new ArrayList<>();
        for (ScatterFactor factor : overridden(factors, nestedIn)) {
            if (factor.levels() > 1) {
                addUnlessAlike(mains, factor, confounded);
            } else {
                confounded.add(new Confounded(factor.name(), ""));
            }
        }
        final List<Relation> relations = relations(mains);
        final List<ScatterFactor> terms = new ArrayList<>(mains);
        for (ScatterFactor term : interactions(mains)) {
            addUnlessAlike(terms, term, confounded);
        }
        if (preparation.isPresent()) {
            addPreparation(
                    terms,
                    mains.size(),
                    preparationTerm(
                            preparation.get(),
                            factors,
                            mains,
                            Optional.ofNullable(nestedIn.get(PREPARATION))),
                    confounded);
        }
        final boolean single =
                terms.stream()
                        .anyMatch(t -> t.name().equals(PREPARATION) && t.levels() == t.rows());
        final String residual = single ? PREPARATION : INJECTION;
        for (ScatterFactor term : List.copyOf(terms)) {
            if (term.levels() == term.rows()) {
                terms.remove(term);
                if (!term.name().equals(residual)) {
                    confounded.add(new Confounded(term.name(), residual));
                }
            }
        }
        return new ScatterStructure(
                List.copyOf(terms), residual, relations, List.copyOf(confounded), tree(terms));
    }

    private static List<ScatterFactor> overridden(
            List<ScatterFactor> factors, Map<String, String> nestedIn) {
        final List<ScatterFactor> found = new ArrayList<>();
        for (ScatterFactor factor : factors) {
            final String parent = nestedIn.getOrDefault(factor.name(), "");
            found.add(
                    factors.stream()
                            .filter(f -> f.name().equals(parent))
                            .findFirst()
                            .map(f -> f.with(factor, factor.name()))
                            .orElse(factor));
        }
        return found;
    }

    private static void addUnlessAlike(
            List<ScatterFactor> terms, ScatterFactor term, List<Confounded> confounded) {
        final Optional<ScatterFactor> alike =
                terms.stream().filter(t -> t.dividesLike(term)).findFirst();
        if (alike.isPresent()) {
            confounded.add(new Confounded(term.name(), alike.get().name()));
        } else {
            terms.add(term);
        }
    }

    /**
     * The preparation comes last. A combination of factors that divides alike (one preparation a
     * cell) gives way to it; a single factor (one preparation a day) does not, for then nothing is
     * known of preparations under the same conditions.
     */
    private static void addPreparation(
            List<ScatterFactor> terms,
            int mains,
            ScatterFactor preparation,
            List<Confounded> confounded) {
        for (int i = terms.size() - 1; i >= 0; i--) {
            if (terms.get(i).dividesLike(preparation)) {
                if (i < mains) {
                    confounded.add(new Confounded(PREPARATION, terms.get(i).name()));
                    return;
                }
                confounded.add(new Confounded(terms.remove(i).name(), PREPARATION));
            }
        }
        terms.add(preparation);
    }

    private static ScatterFactor preparationTerm(
            ScatterFactor preparation,
            List<ScatterFactor> factors,
            List<ScatterFactor> mains,
            Optional<String> parent) {
        if (parent.isPresent()) {
            return factors.stream()
                    .filter(f -> f.name().equals(parent.get()))
                    .findFirst()
                    .map(f -> f.with(preparation, PREPARATION))
                    .orElse(preparation.named(PREPARATION));
        }
        ScatterFactor cell = preparation.named(PREPARATION);
        for (ScatterFactor main : mains) {
            cell = main.with(cell, PREPARATION);
        }
        return cell;
    }

    private static List<Relation> relations(List<ScatterFactor> mains) {
        final List<Relation> found = new ArrayList<>();
        for (int i = 0; i < mains.size(); i++) {
            for (int j = i + 1; j < mains.size(); j++) {
                final ScatterFactor a = mains.get(i);
                final ScatterFactor b = mains.get(j);
                if (a.isNestedIn(b)) {
                    found.add(new Relation(a.name(), b.name(), Kind.NESTED));
                } else if (b.isNestedIn(a)) {
                    found.add(new Relation(b.name(), a.name(), Kind.NESTED));
                } else {
                    found.add(new Relation(a.name(), b.name(), Kind.CROSSED));
                }
            }
        }
        return List.copyOf(found);
    }

    /** Combinations of two and more mutually crossed factors, fewest factors first. */
    private static List<ScatterFactor> interactions(List<ScatterFactor> mains) {
        final List<ScatterFactor> found = new ArrayList<>();
        for (int size = 2; size <= mains.size(); size++) {
            for (int set = 0; set < 1 << mains.size(); set++) {
                if (Integer.bitCount(set) == size) {
                    crossedCombination(mains, set).ifPresent(found::add);
                }
            }
        }
        return found;
    }

    private static Optional<ScatterFactor> crossedCombination(List<ScatterFactor> mains, int set) {
        final List<ScatterFactor> members = new ArrayList<>();
        for (int i = 0; i < mains.size(); i++) {
            if ((set & 1 << i) != 0) {
                members.add(mains.get(i));
            }
        }
        ScatterFactor together = members.get(0);
        for (int i = 1; i < members.size(); i++) {
            final ScatterFactor next = members.get(i);
            for (ScatterFactor earlier : members.subList(0, i)) {
                if (next.isNestedIn(earlier) || earlier.isNestedIn(next)) {
                    return Optional.empty();
                }
            }
            together = together.with(next, together.name() + ":" + next.name());
        }
        return Optional.of(together);
    }

    /** Each term under the finest other term that holds it. */
    private static Map<String, String> tree(List<ScatterFactor> terms) {
        final Map<String, String> parents = new LinkedHashMap<>();
        for (ScatterFactor term : terms) {
            Optional<ScatterFactor> parent = Optional.empty();
            for (ScatterFactor other : terms) {
                final boolean holds = other.levels() < term.levels() && term.isNestedIn(other);
                if (holds && (parent.isEmpty() || other.levels() > parent.get().levels())) {
                    parent = Optional.of(other);
                }
            }
            parent.ifPresent(p -> parents.put(term.name(), p.name()));
        }
        return Collections.unmodifiableMap(parents);
    }

    /** The same without a term whose scatter the data cannot tell from that of earlier terms. */
    ScatterStructure without(ScatterFactor term) {
        final List<ScatterFactor> rest = new ArrayList<>(terms);
        rest.remove(term);
        final List<Confounded> more = new ArrayList<>(confounded);
        more.add(new Confounded(term.name(), "the terms before it"));
        return new ScatterStructure(
                List.copyOf(rest), residual, relations, List.copyOf(more), tree(rest));
    }

    /** Names of all terms, the residual last. */
    public List<String> names() {
        final List<String> names = new ArrayList<>();
        terms.forEach(t -> names.add(t.name()));
        names.add(residual);
        return List.copyOf(names);
    }

    /**
     * Weights of the components in the variance of results under repeatability conditions:
     * preparation + injection / m; of everything else nothing.
     *
     * @param meanOf m, injections of one preparation that a result averages, {@code > 0}
     */
    public double[] repeatability(double meanOf) {
        Checks.positive("meanOf", meanOf);
        final double[] weights = new double[terms.size() + 1];
        for (int i = 0; i < terms.size(); i++) {
            weights[i] = terms.get(i).name().equals(PREPARATION) ? 1 : 0;
        }
        weights[terms.size()] = residual.equals(PREPARATION) ? 1 : 1 / meanOf;
        return weights;
    }

    /**
     * Weights of the components in the variance of results under intermediate conditions: all
     * factors and their combinations + preparation + injection / m.
     *
     * @param meanOf m, injections of one preparation that a result averages, {@code > 0}
     */
    public double[] intermediate(double meanOf) {
        final double[] weights = repeatability(meanOf);
        for (int i = 0; i < terms.size(); i++) {
            weights[i] = 1;
        }
        return weights;
    }
}
