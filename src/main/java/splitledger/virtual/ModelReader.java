package splitledger.virtual;

import java.util.Map;

/** Reads the parts of a design that hold parameters alone; bounds are those of sense. */
final class ModelReader {
    private static final double MOST = 1e6;
    private static final double LARGEST_SCATTER = 30;

    private ModelReader() {}

    static Design.Inlet inlet(Fields f) {
        final Design.Inlet inlet =
                new Design.Inlet(
                        f.parameter("injected-volume", "uL", 0.01, 100),
                        scatter(f, "stroke-scatter"),
                        f.parameter("split-ratio", "1", 1, 10_000),
                        scatter(f, "split-setting-scatter"),
                        f.parameter("temperature", "degC", 0, 500),
                        f.parameter("column-flow", "mL/min", 0.01, 100),
                        f.parameter("liner-volume", "mL", 0.01, 10),
                        f.parameter("pressure", "kPa", 1, 2000),
                        f.parameter("run-time", "min", 1, 1000),
                        f.optional("carry-over", "%", 0, LARGEST_SCATTER, 0));
        f.done();
        return inlet;
    }

    static Design.Discrimination discrimination(Fields top) {
        if (!top.has("discrimination")) {
            return new Design.Discrimination(
                    Parameter.absent(0, "%"),
                    Parameter.absent(0, "degC"),
                    Parameter.absent(1, "degC"),
                    Parameter.absent(0, "%"),
                    Parameter.absent(0, "degC"),
                    Map.of());
        }
        final Fields f = top.fields("discrimination");
        final Fields occasions = f.optionalFields("occasions");
        final Design.Discrimination discrimination =
                new Design.Discrimination(
                        f.parameter("heavy-end-loss", "%", 0, 100),
                        f.parameter("midpoint", "degC", -273, 1000),
                        f.parameter("width", "degC", 1, 1000),
                        scatter(f, "scatter-per-100-degC"),
                        f.parameter("scatter-from", "degC", -273, 1000),
                        occasions.each(o -> occasions.parameter(o, "%", 0, 100)));
        f.done();
        return discrimination;
    }

    static Design.Detector detector(Fields f) {
        final Design.Detector detector =
                new Design.Detector(
                        f.parameter("response", "pA*s/ng", 1e-6, MOST),
                        scatter(f, "response-deviation"),
                        scatter(f, "day-gain"),
                        f.optional("saturation", "pA*s", 1e-3, 1e12, Double.POSITIVE_INFINITY),
                        f.optional("drift", "%", -1, 1, 0),
                        f.optional("drift-against-standard", "%", -1, 1, 0));
        f.done();
        return detector;
    }

    static Design.Integration integration(Fields f) {
        final Design.Integration integration =
                new Design.Integration(
                        f.parameter("constant", "pA*s", 0, MOST),
                        scatter(f, "proportional"),
                        f.parameter("threshold", "pA*s", 0, MOST),
                        f.count("significant-digits", 15, 5));
        f.done();
        return integration;
    }

    static Design.Preparation preparation(Fields f) {
        final Design.Preparation preparation =
                new Design.Preparation(
                        scatter(f, "dilution"),
                        scatter(f, "internal-standard-addition"),
                        f.parameter("balance", "mg", 0, 100),
                        f.parameter("flask-volume", "mL", 0, 10),
                        f.parameter("volume", "mL", 0.1, 10_000),
                        range(f.fields("portion")),
                        scatter(f, "between-days"),
                        scatter(f, "between-analysts"),
                        f.optional("day-by-analyst", "%", 0, LARGEST_SCATTER, 0));
        f.done();
        return preparation;
    }

    static Plan.Incident incident(Fields f) {
        final Plan.Incident incident =
                new Plan.Incident(
                        f.text("flask"),
                        f.count("injection", 1000, 1),
                        f.parameter("solvent-lost", "%", 0, 90),
                        f.parameter("compound-lost", "%", 0, 100),
                        f.parameter("at", "degC", -273, 1000),
                        f.parameter("fall", "degC", 1, 1000));
        f.done();
        return incident;
    }

    private static Design.Range range(Fields f) {
        final double from = f.number("from", 0.001, MOST);
        final Design.Range range =
                new Design.Range(from, f.number("to", from, MOST), f.text("unit"));
        if (!range.unit().isEmpty() && !range.unit().equals("mg")) {
            f.wrong(f.at("unit"), "the unit " + range.unit(), "mg", "convert the values");
        }
        f.text("basis");
        f.done();
        return range;
    }

    private static Parameter scatter(Fields f, String key) {
        return f.parameter(key, "%", 0, LARGEST_SCATTER);
    }
}
