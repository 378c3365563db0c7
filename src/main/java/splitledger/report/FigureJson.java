package splitledger.report;

import java.util.List;
import java.util.Locale;
import splitledger.base.JsonText;
import splitledger.study.Doubles;
import splitledger.study.Figure;

/** The data of a figure in the machine-readable record. */
final class FigureJson {
    private FigureJson() {}

    static void write(JsonText json, Figure figure) {
        json.beginObject();
        json.key("id").value(figure.id());
        json.key("characteristic").value(figure.characteristic());
        json.key("compound").value(figure.compound());
        json.key("title").value(figure.title());
        json.key("caption").value(figure.caption());
        json.key("alternative").value(figure.alternative());
        axis(json.key("x"), figure.x());
        axis(json.key("y"), figure.y());
        json.key("layers").beginArray();
        figure.layers().forEach(layer -> layer(json, layer));
        json.end();
        json.end();
    }

    private static void axis(JsonText json, Figure.Axis axis) {
        json.beginObject();
        json.key("label").value(axis.label());
        json.key("unit").value(axis.unit());
        json.key("from").value(axis.from());
        json.key("to").value(axis.to());
        json.key("ticks").beginArray();
        for (Figure.Tick tick : axis.ticks()) {
            json.beginObject();
            json.key("at").value(tick.at());
            json.key("text").value(tick.text());
            json.end();
        }
        json.end();
        json.end();
    }

    private static void layer(JsonText json, Figure.Layer layer) {
        json.beginObject();
        json.key("name").value(layer.name());
        json.key("role").value(layer.role().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        if (layer instanceof Figure.Points p) {
            json.key("kind").value("points");
            numbers(json, "x", p.x());
            numbers(json, "y", p.y());
            texts(json, "labels", p.labels());
        } else if (layer instanceof Figure.Line l) {
            json.key("kind").value("line");
            numbers(json, "x", l.x());
            numbers(json, "y", l.y());
        } else if (layer instanceof Figure.Band b) {
            json.key("kind").value("band");
            numbers(json, "x", b.x());
            numbers(json, "lower", b.lower());
            numbers(json, "upper", b.upper());
        } else if (layer instanceof Figure.Intervals i) {
            json.key("kind").value("intervals");
            numbers(json, "x", i.x());
            numbers(json, "y", i.y());
            numbers(json, "lower", i.lower());
            numbers(json, "upper", i.upper());
        } else if (layer instanceof Figure.Boxes b) {
            json.key("kind").value("boxes");
            numbers(json, "x", b.x());
            numbers(json, "y", b.y());
            texts(json, "texts", b.texts());
        } else {
            final Figure.Bars b = (Figure.Bars) layer;
            json.key("kind").value("bars");
            numbers(json, "lengths", b.lengths());
            texts(json, "categories", b.categories());
            texts(json, "texts", b.texts());
        }
        json.end();
    }

    /** A number that cannot be drawn is a gap. */
    private static void numbers(JsonText json, String name, Doubles values) {
        json.key(name)
                .numbers(values.stream().map(v -> Double.isInfinite(v) ? Double.NaN : v).toArray());
    }

    private static void texts(JsonText json, String name, List<String> texts) {
        json.key(name).beginArray();
        texts.forEach(json::value);
        json.end();
    }
}
