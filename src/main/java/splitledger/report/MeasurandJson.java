package splitledger.report;

import java.util.List;
import splitledger.base.JsonText;
import splitledger.study.Protocol;
import splitledger.study.Reporting;
import splitledger.study.Where;

/** The measurand of a protocol in {@code results.json}. */
final class MeasurandJson {
    private MeasurandJson() {}

    static void write(JsonText json, Protocol.Measurand m) {
        json.beginObject();
        json.key("name").value(m.name());
        json.key("unit").value(m.unit());
        json.key("equation").value(m.equation());
        json.key("inputs").beginObject();
        m.inputs().forEach((symbol, input) -> input(json.key(symbol), input));
        json.end();
        if (!m.correlations().isEmpty()) {
            json.key("correlations").beginArray();
            m.correlations().forEach(c -> correlated(json, c));
            json.end();
        }
        m.resultsFor().ifPresent(w -> where(json.key("results_for"), w));
        json.key("found")
                .value(
                        switch (m.found()) {
                            case AMOUNT -> "amount";
                            case ADDITION -> "standard-addition";
                            case AREA_SHARE -> "area-share";
                        });
        reporting(json, m.reporting());
        json.end();
    }

    private static void correlated(JsonText json, Protocol.Correlated group) {
        json.beginObject();
        list(json.key("symbols"), group.symbols());
        json.key("coefficients").beginArray();
        for (var row : group.coefficients()) {
            json.beginArray();
            row.forEach(r -> json.value(r.doubleValue()));
            json.end();
        }
        json.end();
        json.key("observed").value(group.observed());
        json.end();
    }

    private static void input(JsonText json, Protocol.Input input) {
        json.beginObject();
        if (input instanceof Protocol.Given g) {
            json.key("kind").value("given");
            json.key("value").value(g.value());
            json.key("unit").value(g.unit());
            json.key("standard_uncertainty").value(g.standardUncertainty());
            json.key("distribution").value(g.shape().code());
            json.key("degrees_of_freedom").value(g.degreesOfFreedom());
            json.key("source").value(g.source());
            home(json, g.home());
        } else if (input instanceof Protocol.Readings r) {
            json.key("kind").value("readings");
            json.key("values").beginArray();
            r.values().stream().forEach(v -> json.value(v));
            json.end();
            json.key("unit").value(r.unit());
            json.key("standard_deviation").value(r.standardDeviation());
            json.key("degrees_of_freedom").value(r.degreesOfFreedom());
            json.key("source").value(r.source());
        } else if (input instanceof Protocol.RowVariable r) {
            json.key("kind").value("column");
            json.key("column").value(r.column());
            json.key("unit").value(r.unit());
            json.key("standard_uncertainty").value(r.standardUncertainty());
            json.key("source").value(r.source());
        } else if (input instanceof Protocol.Spread s) {
            json.key("kind").value("spread");
            json.key("value").value(s.value());
            json.key("quantity").value(s.quantity());
            if (s.meanOf().isPresent()) {
                json.key("mean_of").value(s.meanOf().getAsDouble());
            }
        } else if (input instanceof Protocol.FromFinding f) {
            json.key("kind").value("finding");
            json.key("quantity").value(f.quantity());
            f.method().ifPresent(v -> json.key("method").value(v));
            if (!f.condition().isEmpty()) {
                json.key("condition").beginObject();
                f.condition().forEach((name, v) -> json.key(name).value(v));
                json.end();
            }
            home(json, f.home());
        } else if (input instanceof Protocol.AmountOf of) {
            json.key("kind").value("amount-of");
            where(json.key("rows"), of.rows());
        } else if (input instanceof Protocol.SplitFactor f) {
            json.key("kind").value("split-factor");
            f.relativeUncertainty()
                    .ifPresent(u -> json.key("relative_standard_uncertainty").value(u));
            json.key("source").value(f.source());
        } else {
            json.key("kind").value("not-corrected");
        }
        json.end();
    }

    private static void home(JsonText json, Protocol.Home home) {
        home.effect().ifPresent(e -> json.key("effect").value(e.code()));
        home.actsOn().ifPresent(a -> json.key("acts_on").value(a.code()));
        home.differs().ifPresent(d -> json.key("differs").value(d));
        home.disjoint().ifPresent(d -> json.key("disjoint").value(d));
    }

    private static void reporting(JsonText json, Reporting r) {
        json.key("routine").beginObject();
        r.sample().ifPresent(c -> json.key("sample").value(c));
        json.key("preparations").value(r.preparations());
        r.injections().ifPresent(n -> json.key("injections").value(n));
        json.end();
        r.belowLimit()
                .ifPresent(
                        b -> {
                            json.key("below_limit").beginObject();
                            json.key("report").value(b.words() ? "words" : "value");
                            json.key("limit").value(b.quantity());
                            b.method().ifPresent(v -> json.key("method").value(v));
                            json.end();
                        });
        json.key("specification").beginArray();
        for (Reporting.Specification s : r.specifications()) {
            json.beginObject();
            s.of().ifPresent(c -> json.key("of").value(c));
            s.atLeast().ifPresent(v -> json.key("at_least").value(v));
            s.atMost().ifPresent(v -> json.key("at_most").value(v));
            json.key("risk").value(s.risk());
            json.key("source").value(s.source());
            json.end();
        }
        json.end();
        json.key("evidence").beginArray();
        for (Reporting.Evidence e : r.evidence()) {
            json.beginObject();
            json.key("name").value(e.name());
            json.key("kind").value(e.kind());
            json.key("of").value(e.of());
            json.key("result").value(e.result());
            json.key("value").value(e.value());
            json.key("standard_uncertainty").value(e.standardUncertainty());
            json.key("expanded").value(e.expanded());
            json.key("source").value(e.source());
            json.end();
        }
        json.end();
    }

    private static void where(JsonText json, Where where) {
        json.beginArray();
        for (Where.Condition c : where.conditions()) {
            json.beginObject();
            json.key("column").value(c.column());
            if (c instanceof Where.OneOf some) {
                list(json.key("one_of"), some.labels());
            } else if (c instanceof Where.NoneOf none) {
                list(json.key("none_of"), none.labels());
            } else {
                final Where.Within within = (Where.Within) c;
                bound(json, "at_least", within.atLeast());
                bound(json, "at_most", within.atMost());
            }
            json.end();
        }
        json.end();
    }

    /** An end that is open is left out. */
    private static void bound(JsonText json, String name, double value) {
        if (!Double.isInfinite(value)) {
            json.key(name).value(value);
        }
    }

    private static void list(JsonText json, List<String> items) {
        json.beginArray();
        items.forEach(json::value);
        json.end();
    }
}
