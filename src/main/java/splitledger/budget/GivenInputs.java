package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.stream.IntStream;
import splitledger.propagation.ActsOn;
import splitledger.propagation.CorrelatedRoots;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.study.Protocol.Correlated;
import splitledger.study.Protocol.Given;
import splitledger.study.Protocol.Readings;

/** Inputs that the protocol itself gives: stated values and means of readings, with their roots. */
final class GivenInputs {
    private GivenInputs() {}

    static Uncertain of(String symbol, Given given) {
        if (given.standardUncertainty() == 0) {
            return Uncertain.exact(given.value(), given.unit());
        }
        final String source = Inputs.source(given);
        final Pool pool = new Pool("given/" + symbol, given.degreesOfFreedom(), source);
        final Root root =
                new Root(
                        pool.id(),
                        pool,
                        given.home().effect().orElse(Effect.REFERENCE_VALUE),
                        given.home().actsOn().orElse(ActsOn.SAMPLE),
                        given.shape(),
                        source);
        return Uncertain.of(given.value(), given.unit(), root, given.standardUncertainty());
    }

    static Uncertain of(String symbol, Readings readings) {
        if (readings.standardUncertainty() == 0) {
            return Uncertain.exact(readings.mean(), readings.unit());
        }
        final String words = words(readings);
        final Pool pool = new Pool("readings/" + symbol, readings.degreesOfFreedom(), words);
        final Root root =
                Root.normal(pool.id(), pool, Effect.REFERENCE_VALUE, ActsOn.SAMPLE, words);
        return Uncertain.of(readings.mean(), readings.unit(), root, readings.standardUncertainty());
    }

    /** What the readings are, in words. */
    static String words(Readings readings) {
        final String count = "mean of " + readings.values().size() + " readings";
        final String deviation = readings.pooled() ? count + ", standard deviation stated" : count;
        return readings.source().isEmpty() ? deviation : deviation + ", " + readings.source();
    }

    /**
     * Puts the inputs of a group on common roots of one pool. Its degrees of freedom are the fewest
     * of its members: n - 1 for readings taken together.
     *
     * @param inputs by symbol; those of the group are replaced
     */
    static void join(Correlated group, SortedMap<String, Uncertain> inputs) {
        final List<Uncertain> values = new ArrayList<>();
        double freedom = Double.POSITIVE_INFINITY;
        final double[][] r = new double[group.symbols().size()][];
        for (int i = 0; i < r.length; i++) {
            final Uncertain input = inputs.get(group.symbols().get(i));
            if (input == null) {
                throw new IllegalStateException("reading has checked the symbols before");
            }
            values.add(input);
            freedom = Math.min(freedom, input.degreesOfFreedom());
            r[i] = group.coefficients().get(i).stream().mapToDouble(Double::doubleValue).toArray();
        }
        final double[][] factor =
                CorrelatedRoots.factor(r)
                        .orElseThrow(() -> new IllegalStateException("checked in reading"));
        final String id = "together/" + String.join("+", group.symbols());
        final String cause =
                group.observed() ? "readings taken together" : "correlation stated in the protocol";
        final Pool pool = new Pool(id, freedom, cause);
        final List<Root> roots =
                IntStream.range(0, r.length)
                        .mapToObj(
                                i ->
                                        Root.normal(
                                                id + "/" + i,
                                                pool,
                                                Effect.REFERENCE_VALUE,
                                                ActsOn.SAMPLE,
                                                cause))
                        .toList();
        final List<Uncertain> joined = CorrelatedRoots.joined(values, factor, roots);
        for (int i = 0; i < joined.size(); i++) {
            inputs.put(group.symbols().get(i), joined.get(i));
        }
    }
}
