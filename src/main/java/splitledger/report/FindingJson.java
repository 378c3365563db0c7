package splitledger.report;

import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.base.CodePoints;
import splitledger.base.JsonText;
import splitledger.study.Answer;
import splitledger.study.Criterion;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.Judgement;
import splitledger.study.Rows;
import splitledger.study.Trail;

/** A finding in the machine-readable record. */
final class FindingJson {
    private FindingJson() {}

    static void write(JsonText json, Finding finding, InjectionTable table) {
        json.beginObject();
        json.key("characteristic").value(finding.key().characteristic());
        json.key("compound").value(finding.key().compound());
        json.key("condition").beginObject();
        finding.key().condition().forEach((name, value) -> json.key(name).value(value));
        json.end();
        json.key("quantity").value(finding.key().quantity());
        json.key("method").value(finding.key().method());
        json.key("status").value(finding.answer().status());
        json.key("verdict").value(finding.verdict().code());
        answer(json, finding.answer());
        json.key("note").value(finding.note());
        json.key("judgements").beginArray();
        finding.judgements().forEach(j -> judgement(json, j));
        json.end();
        rows(json.key("rows"), finding.rows(), table);
        trail(json.key("trail"), finding.trail());
        json.end();
    }

    private static void answer(JsonText json, Answer answer) {
        json.key("unit").value(answer.unit());
        if (answer instanceof Answer.Estimate e) {
            json.key("kind").value("estimate");
            json.key("value").value(e.value());
            json.key("standard_uncertainty").value(e.standardUncertainty());
            json.key("degrees_of_freedom").value(e.degreesOfFreedom());
            json.key("lower").value(e.lower());
            json.key("upper").value(e.upper());
            json.key("coverage").value(e.coverage());
            json.key("law").value(law(e.law()));
        } else if (answer instanceof Answer.Bound b) {
            json.key("kind").value("bound");
            optional(json, "value", b.value());
            optional(json, "lower", b.lower());
            optional(json, "upper", b.upper());
            json.key("coverage").value(b.coverage());
            json.key("reason").value(b.reason());
            json.key("detail").value(b.detail());
        } else if (answer instanceof Answer.Statistic s) {
            json.key("kind").value("statistic");
            json.key("value").value(s.value());
        } else {
            final Answer.NotEstimable n = (Answer.NotEstimable) answer;
            json.key("kind").value("none");
            json.key("reason").value(n.reason());
            json.key("detail").value(n.detail());
        }
    }

    private static String law(Answer.Law law) {
        return switch (law) {
            case STUDENT -> "student";
            case CHI_SQUARE -> "chi-square";
            case SPREAD -> "spread";
            case ENDS -> "ends";
        };
    }

    private static void optional(JsonText json, String name, OptionalDouble value) {
        if (value.isPresent()) {
            json.key(name).value(value.getAsDouble());
        }
    }

    private static void judgement(JsonText json, Judgement judgement) {
        json.beginObject();
        json.key("verdict").value(judgement.verdict().code());
        json.key("explanation").value(judgement.explanation());
        criterion(json.key("criterion"), judgement.criterion());
        json.end();
    }

    /** A criterion. */
    static void criterion(JsonText json, Criterion c) {
        json.beginObject();
        json.key("quantity").value(c.quantity());
        c.of().ifPresent(of -> json.key("of").value(of));
        c.to().ifPresent(to -> json.key("to").value(to));
        c.method().ifPresent(method -> json.key("method").value(method));
        json.key("condition").beginObject();
        c.condition().forEach((name, value) -> json.key(name).value(value));
        json.end();
        if (c.limit() instanceof Criterion.Limit.AtMost most) {
            json.key("at_most").value(most.limit());
        } else if (c.limit() instanceof Criterion.Limit.AtLeast least) {
            json.key("at_least").value(least.limit());
        } else {
            final Criterion.Limit.Within within = (Criterion.Limit.Within) c.limit();
            json.key("equals").value(within.equals());
            json.key("within").value(within.margin());
        }
        json.key("unit").value(c.unit());
        json.key("text").value(c.text());
        json.key("basis").value(c.basis().code());
        json.key("risk").value(c.risk());
        json.key("source").value(c.source());
        json.key("set").value(c.set());
        ResultsJson.place(json.key("place"), c.place());
        json.end();
    }

    /** File by file the lines that the finding rests on. */
    private static void rows(JsonText json, Rows rows, InjectionTable table) {
        final Map<String, TreeSet<Integer>> lines = new TreeMap<>(CodePoints.ORDER);
        rows.stream()
                .mapToObj(table::place)
                .forEach(p -> lines.computeIfAbsent(p.file(), f -> new TreeSet<>()).add(p.row()));
        json.beginArray();
        lines.forEach(
                (file, numbers) -> {
                    json.beginObject();
                    json.key("file").value(file);
                    json.key("lines")
                            .numbers(numbers.stream().mapToDouble(Integer::doubleValue).toArray());
                    json.end();
                });
        json.end();
    }

    /** The steps of a calculation worked by hand. */
    static void trail(JsonText json, Trail trail) {
        json.beginArray();
        for (Trail.Step s : trail.steps()) {
            json.beginObject();
            json.key("words").value(s.words());
            json.key("formula").value(s.formula());
            json.key("numbers").value(s.numbers());
            json.key("value").value(s.value());
            json.key("unit").value(s.unit());
            json.end();
        }
        json.end();
    }
}
