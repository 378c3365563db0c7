package splitledger.report;

import java.util.List;
import java.util.Map;
import splitledger.base.JsonText;
import splitledger.study.Compounds;
import splitledger.study.InjectionTable;
import splitledger.study.InputFile;
import splitledger.study.Protocol;
import splitledger.study.Study;
import splitledger.study.Tree;

/** What went in, in the machine-readable record. The tables themselves are kept as files. */
final class StudyJson {
    private StudyJson() {}

    static void write(JsonText json, Study study) {
        final Protocol protocol = study.protocol();
        json.beginObject();
        json.key("title").value(protocol.title());
        json.key("purpose").value(protocol.purpose());
        texts(json.key("laboratory"), protocol.laboratory());
        texts(json.key("instrument"), protocol.instrument());
        conventions(json.key("conventions"), protocol.conventions());
        json.key("characteristics").beginObject();
        protocol.characteristics().forEach((id, options) -> tree(json.key(id), options));
        json.end();
        json.key("requirements").beginArray();
        protocol.requirements().forEach(c -> FindingJson.criterion(json, c));
        json.end();
        protocol.measurand().ifPresent(m -> MeasurandJson.write(json.key("measurand"), m));
        exclusions(json.key("exclusions"), protocol.exclusions());
        json.key("events").beginArray();
        for (Protocol.Event e : protocol.events()) {
            json.beginObject();
            json.key("date").value(e.date());
            json.key("what").value(e.what());
            json.end();
        }
        json.end();
        compounds(json.key("compounds"), study.compounds());
        table(json.key("table"), study.table());
        inputs(json.key("inputs"), study.inputs());
        ResultsJson.flags(json.key("flags"), study.flags());
        ResultsJson.choices(json.key("choices"), study.choices());
        json.end();
    }

    private static void texts(JsonText json, Map<String, String> texts) {
        json.beginObject();
        texts.forEach((name, text) -> json.key(name).value(text));
        json.end();
    }

    private static void list(JsonText json, List<String> texts) {
        json.beginArray();
        texts.forEach(json::value);
        json.end();
    }

    private static void conventions(JsonText json, Protocol.Conventions c) {
        json.beginObject();
        json.key("split_ratio").value(c.splitRatio());
        json.key("recalibrated").value(c.recalibrated());
        json.key("coverage").value(c.coverage());
        json.key("area_unit").value(c.areaUnit());
        json.key("amount_unit").value(c.amountUnit());
        json.end();
    }

    private static void tree(JsonText json, Tree tree) {
        if (tree instanceof Tree.Scalar s) {
            json.value(s.text());
        } else if (tree instanceof Tree.Sequence q) {
            json.beginArray();
            q.items().forEach(item -> tree(json, item));
            json.end();
        } else {
            json.beginObject();
            ((Tree.Mapping) tree).entries().forEach((name, value) -> tree(json.key(name), value));
            json.end();
        }
    }

    private static void exclusions(JsonText json, List<Protocol.Exclusion> exclusions) {
        json.beginArray();
        for (Protocol.Exclusion e : exclusions) {
            json.beginObject();
            json.key("injection").value(e.injection());
            json.key("compound").value(e.compound());
            json.key("reason").value(e.reason());
            json.key("who").value(e.who());
            json.end();
        }
        json.end();
    }

    private static void compounds(JsonText json, Compounds c) {
        json.beginObject();
        list(json.key("targets"), c.targets());
        list(json.key("ladder"), c.ladder());
        list(json.key("products"), c.products());
        c.internalStandard()
                .ifPresent(
                        i -> {
                            json.key("internal_standard").beginObject();
                            json.key("compound").value(i.compound());
                            if (i.amount().isPresent()) {
                                json.key("amount").value(i.amount().getAsDouble());
                            }
                            json.key("standard_uncertainty").value(i.standardUncertainty());
                            json.key("unit").value(i.unit());
                            json.end();
                        });
        json.key("known").beginArray();
        for (Compounds.Compound k : c.known()) {
            json.beginObject();
            json.key("name").value(k.name());
            if (k.boilingPoint().isPresent()) {
                json.key("boiling_point").value(k.boilingPoint().getAsDouble());
            }
            json.key("source").value(k.source());
            json.end();
        }
        json.end();
        json.end();
    }

    private static void table(JsonText json, InjectionTable table) {
        json.beginObject();
        json.key("rows").value(table.size());
        list(json.key("columns"), table.columns());
        json.end();
    }

    private static void inputs(JsonText json, List<InputFile> inputs) {
        json.beginArray();
        for (InputFile i : inputs) {
            json.beginObject();
            json.key("role").value(i.role());
            json.key("name").value(i.name());
            json.key("written").value(i.written());
            json.key("digest").value(i.digest());
            json.end();
        }
        json.end();
    }
}
