package splitledger.characteristic.losses;

import java.util.List;
import splitledger.characteristic.discrimination.Discrimination;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** What the characteristic losses asks for and gives. */
final class LossesCard {
    private LossesCard() {}

    static Card of() {
        return new Card(
                Losses.ID,
                "Losses by decomposition",
                "What decomposes on the hot surfaces of the inlet, and up to which temperature is it"
                        + " bearable?",
                options(),
                quantities(),
                List.of(Discrimination.ID));
    }

    private static List<Option> options() {
        return List.of(
                new Option(
                        "where",
                        Form.WHERE,
                        List.of(),
                        true,
                        "Rows of the labile compound with its products, at one or more inlet temperatures."),
                new Option(
                        "parent",
                        Form.TEXT,
                        List.of(),
                        false,
                        "The compound that decomposes; not needed where products names it."),
                new Option(
                        "products",
                        Form.GROUPS,
                        List.of(),
                        true,
                        "Its products; for several parents, each parent with its products."),
                new Option(
                        "responses",
                        Form.NUMBERS,
                        List.of(),
                        false,
                        "Response of each product relative to the parent's, per mole; without it areas count as they are."),
                new Option(
                        "expected",
                        Form.WORD,
                        List.of(LossOptions.CARBON_NUMBER),
                        false,
                        "Takes relative responses from effective carbon numbers (flame ionisation only)."),
                percent(
                        "response-uncertainty",
                        "Relative standard uncertainty of the response of a compound, percent; without it responses are taken as exact."),
                new Option(
                        "own-breakdown",
                        Form.NUMBERS,
                        List.of(),
                        false,
                        "Breakdown that the solution brings along, percent, for all parents or for each."),
                new Option(
                        "own-breakdown-uncertainty",
                        Form.NUMBERS,
                        List.of(),
                        false,
                        "Its standard uncertainty, percent; without it 0."),
                new Option(
                        "cold",
                        Form.WHERE,
                        List.of(),
                        false,
                        "Rows of the same solution injected cold onto the column: its own breakdown."),
                percent(
                        "limit",
                        "Breakdown that must not be passed, percent, where no requirement says so."),
                number("liner-volume", "Volume of the liner that the vapour passes, mL."),
                number("inlet-pressure", "Pressure in the inlet, kPa absolute."),
                number(
                        "column-flow",
                        "Flow through the column at 25 degC and 101.325 kPa, mL/min, where the table has none."),
                number(
                        "total-flow",
                        "Flow of vent and column together at 25 degC and 101.325 kPa, mL/min, for all rows."),
                percent(
                        "residence-time-uncertainty",
                        "Relative standard uncertainty of the residence time, percent."),
                percent(
                        "amount-uncertainty",
                        "Relative standard uncertainty of the parent's amount against that of the stable compound in the same solution, percent."),
                number(
                        "threshold",
                        "Smallest area that the integrator reports; without it the smallest that it did."));
    }

    private static Option number(String name, String meaning) {
        return new Option(name, Form.NUMBER, List.of(), false, meaning);
    }

    private static Option percent(String name, String meaning) {
        return number(name, meaning);
    }

    private static List<Quantity> quantities() {
        final List<String> conditions = List.of("inlet-temperature", "ratio");
        return List.of(
                quantity(
                        "breakdown",
                        Kind.ESTIMATE,
                        "%",
                        conditions,
                        "Share of the parent that is found as its products."),
                quantity(
                        "activation-energy",
                        Kind.ESTIMATE,
                        "kJ/mol",
                        List.of(),
                        "From the slope of the logarithm of the rate over the inverse temperature."),
                quantity(
                        "apparent-rate",
                        Kind.ESTIMATE,
                        "1/s",
                        List.of("inlet-temperature"),
                        "Rate of the breakdown at the middle temperature of the series."),
                quantity(
                        "arrhenius-curvature-p",
                        Kind.STATISTIC,
                        "1",
                        List.of(),
                        "Probability of such a bend if one activation energy held."),
                quantity(
                        "highest-inlet-temperature",
                        Kind.ESTIMATE,
                        "degC",
                        List.of("ratio"),
                        "Inlet temperature at which the breakdown reaches its limit."),
                quantity(
                        "unexplained-deficit",
                        Kind.ESTIMATE,
                        "%",
                        conditions,
                        "Response of the parent that is missing against the curve of the ladder."),
                quantity(
                        "remaining-loss",
                        Kind.ESTIMATE,
                        "%",
                        conditions,
                        "What of that deficit the breakdown does not explain."));
    }

    private static Quantity quantity(
            String name, Kind kind, String unit, List<String> conditions, String meaning) {
        return new Quantity(name, kind, unit, conditions, meaning);
    }
}
