package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.study.Compounds.Compound;
import splitledger.study.Criterion;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * What the protocol says about losses, completed.
 *
 * @param parents what decomposes, each with its products
 * @param responses relative to the parent's, by product; empty where areas count as they are
 * @param responseUncertainty relative standard uncertainty of one compound's response
 * @param given the block itself
 */
public record LossOptions(
        Map<String, List<String>> parents,
        Map<String, Map<String, Double>> responses,
        OptionalDouble responseUncertainty,
        Tree.Mapping given) {
    static final String CARBON_NUMBER = "carbon-number";
    private static final double PERCENT = 100;

    public LossOptions {
        parents = Collections.unmodifiableMap(new LinkedHashMap<>(parents));
        responses = Collections.unmodifiableMap(new LinkedHashMap<>(responses));
    }

    static LossOptions of(Study study, Tree.Mapping options) {
        final Map<String, List<String>> parents = parents(options);
        final Map<String, Map<String, Double>> responses = new LinkedHashMap<>();
        parents.forEach(
                (parent, products) -> {
                    final Map<String, Double> own = new LinkedHashMap<>();
                    for (String product : products) {
                        response(study, options, parent, product)
                                .ifPresent(r -> own.put(product, r));
                    }
                    responses.put(parent, own);
                });
        return new LossOptions(
                parents, responses, share(options.number("response-uncertainty")), options);
    }

    /** Everything that decomposes or is formed, without repeats, by a block of the protocol. */
    public static List<String> labile(Tree.Mapping options) {
        final List<String> all = new ArrayList<>();
        parents(options)
                .forEach(
                        (parent, products) -> {
                            all.add(parent);
                            all.addAll(products);
                        });
        return all.stream().distinct().toList();
    }

    private static Map<String, List<String>> parents(Tree.Mapping options) {
        final Map<String, List<String>> parents = new LinkedHashMap<>();
        final Tree.Mapping groups = options.mapping("products");
        groups.entries().keySet().forEach(p -> parents.put(p, groups.texts(p)));
        final Optional<String> parent = options.text("parent");
        if (parent.isPresent() && !options.texts("products").isEmpty()) {
            parents.put(parent.get(), options.texts("products"));
        }
        return parents;
    }

    private static Optional<Double> response(
            Study study, Tree.Mapping options, String parent, String product) {
        final OptionalDouble stated = number(options, "responses", product);
        if (stated.isPresent()) {
            return Optional.of(stated.getAsDouble()).filter(r -> r > 0);
        }
        if (!options.text("expected").orElse("").equals(CARBON_NUMBER)) {
            return options.get("responses").isPresent() ? Optional.of(1.0) : Optional.empty();
        }
        final Optional<Double> of = carbons(study, product);
        final Optional<Double> to = carbons(study, parent);
        return of.flatMap(p -> to.map(q -> p / q));
    }

    private static Optional<Double> carbons(Study study, String compound) {
        return study.compounds()
                .known(compound)
                .map(Compound::carbonNumber)
                .filter(OptionalDouble::isPresent)
                .map(OptionalDouble::getAsDouble);
    }

    /** A number for a name: the mapping's own, or the one that holds for all. */
    private static OptionalDouble number(Tree.Mapping options, String option, String name) {
        final OptionalDouble own = options.mapping(option).number(name);
        return own.isPresent() ? own : options.number(option);
    }

    private static OptionalDouble share(OptionalDouble percent) {
        return percent.isPresent()
                ? OptionalDouble.of(percent.getAsDouble() / PERCENT)
                : OptionalDouble.empty();
    }

    /** Whether the products' responses are all known. */
    boolean corrects(String parent) {
        final Map<String, Double> own = responses.getOrDefault(parent, Map.of());
        return own.keySet().containsAll(parents.getOrDefault(parent, List.of()));
    }

    /** Response of a product relative to the parent's, 1 if not known. */
    double response(String parent, String product) {
        return responses.getOrDefault(parent, Map.of()).getOrDefault(product, 1.0);
    }

    /** Breakdown that the solution brings along, as a share. */
    OptionalDouble ownBreakdown(String parent) {
        return share(number(given, "own-breakdown", parent));
    }

    /** Its standard uncertainty, as a share. */
    double ownUncertainty(String parent) {
        return share(number(given, "own-breakdown-uncertainty", parent)).orElse(0);
    }

    /** A relative standard uncertainty that the block states in percent. */
    OptionalDouble relative(String option) {
        return share(given.number(option));
    }

    /**
     * The lowest limit for the breakdown of a parent, as a share: those of the requirements, else
     * the option.
     */
    OptionalDouble limit(Study study, String parent) {
        double least = Double.POSITIVE_INFINITY;
        for (Criterion c : study.protocol().requirements()) {
            if (c.quantity().equals("breakdown")
                    && c.of().map(parent::equals)
                            .orElse(study.compounds().targets().contains(parent))
                    && c.limit() instanceof Criterion.Limit.AtMost most) {
                least =
                        Math.min(
                                least,
                                "1".equals(c.unit()) ? most.limit() : most.limit() / PERCENT);
            }
        }
        if (least < Double.POSITIVE_INFINITY) {
            return OptionalDouble.of(least);
        }
        return share(given.number("limit"));
    }
}
