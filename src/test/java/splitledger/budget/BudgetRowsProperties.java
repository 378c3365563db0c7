package splitledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.ExpressionException;
import splitledger.propagation.ExpressionParser;
import splitledger.propagation.LawOfPropagation;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.study.Budget;

class BudgetRowsProperties {

    @Property(tries = 300)
    @Label("shares sum to 100, whatever causes the inputs share")
    void sharesSumTo100(@ForAll @Size(6) List<@DoubleRange(min = -0.3, max = 0.3) Double> parts)
            throws ExpressionException {
        final SortedMap<String, Uncertain> inputs = new TreeMap<>();
        for (int i = 0; i < 3; i++) {
            final SortedMap<Root, Double> own = new TreeMap<>();
            own.put(root("common", ActsOn.BOTH), parts.get(i));
            own.put(root("own" + i, ActsOn.SAMPLE), 0.01 + Math.abs(parts.get(i + 3)));
            inputs.put(String.valueOf((char) ('a' + i)), Uncertain.of(2 + i, "1", own));
        }
        final List<Budget.Row> rows =
                BudgetRows.of(
                        new ArrayList<>(inputs.keySet()),
                        inputs,
                        Map.of(),
                        Map.of(),
                        LawOfPropagation.propagate(
                                ExpressionParser.parse("a * b / c + a"), inputs, "1"));

        assertThat(rows.stream().mapToDouble(r -> r.share().orElse(0.0)).sum())
                .isCloseTo(100, within(1e-9));
    }

    private static Root root(String name, ActsOn side) {
        return Root.normal(name, Pool.known(name, "test"), Effect.MODEL, side, "test");
    }
}
