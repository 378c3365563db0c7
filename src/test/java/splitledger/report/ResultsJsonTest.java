package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import org.junit.jupiter.api.Test;
import splitledger.study.Evaluation;
import splitledger.study.Figure;

class ResultsJsonTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private final Evaluation evaluation = SampleEvaluation.evaluation();

    @Test
    void theRecordIsValidAfterItsPublishedSchema() throws IOException {
        assertThat(schema().validate(record())).isEmpty();
    }

    @Test
    void theSchemaRefusesWhatTheRecordNeverHolds() throws IOException {
        final JsonNode unknown = record();
        ((ObjectNode) unknown).put("surprise", 1);
        final JsonNode verdict = record();
        ((ObjectNode) verdict.get("findings").get(0)).put("verdict", "passed");
        final JsonNode value = record();
        final JsonNode estimate = finding(value, "slope");
        ((ObjectNode) estimate).remove("value");

        assertThat(schema().validate(unknown)).isNotEmpty();
        assertThat(schema().validate(verdict)).isNotEmpty();
        assertThat(estimate.get("kind").asText()).isEqualTo("estimate");
        assertThat(schema().validate(value)).isNotEmpty();
    }

    @Test
    void everythingThatWasEvaluatedIsThere() throws IOException {
        final JsonNode json = record();

        assertThat(json.get("findings")).hasSize(evaluation.findings().size());
        assertThat(json.get("budgets")).hasSize(evaluation.budgets().size());
        assertThat(json.get("figures")).hasSize(evaluation.figures().size());
        assertThat(json.get("choices")).hasSize(evaluation.choices().size());
        assertThat(json.get("flags")).hasSize(evaluation.flags().size());
        assertThat(json.get("questions")).hasSize(evaluation.questions().size());
        assertThat(json.get("study").get("inputs")).hasSize(2);
        assertThat(json.get("seed").asText()).isEqualTo("20260210");
    }

    @Test
    void numbersKeepEveryDigitAndRowsKeepTheirLines() throws IOException {
        final JsonNode slope = finding(record(), "slope");

        assertThat(slope.get("value").asDouble()).isEqualTo(0.051234);
        assertThat(slope.get("rows").get(0).get("file").asText()).isEqualTo("areas.csv");
        assertThat(slope.get("rows").get(0).get("lines").toString()).isEqualTo("[16,17]");
        assertThat(slope.get("trail")).hasSize(2);
        assertThat(slope.get("trail").get(1).get("formula").asText()).isEqualTo("b = Sxy / Sxx");
    }

    @Test
    void figuresKeepTheirDataAndGapsAreNull() throws IOException {
        final Figure figure = evaluation.figures().get(2);
        final JsonNode json = record().get("figures").get(2);

        assertThat(json.get("id").asText()).isEqualTo(figure.id());
        assertThat(json.get("layers")).hasSize(figure.layers().size());
        assertThat(json.get("layers").get(3).get("y").get(19).isNumber()).isTrue();
        assertThat(json.get("layers").get(3).get("y").get(20).isNull()).isTrue();
    }

    @Test
    void twoRunsGiveTheSameBytes() {
        assertThat(ResultsJson.bytes(SampleEvaluation.evaluation(), "0.1.0"))
                .isEqualTo(ResultsJson.bytes(evaluation, "0.1.0"));
    }

    /** The finding of a quantity of limonene. */
    private static JsonNode finding(JsonNode record, String quantity) {
        for (JsonNode f : record.get("findings")) {
            if (f.get("quantity").asText().equals(quantity)
                    && f.get("compound").asText().equals("limonene")) {
                return f;
            }
        }
        throw new AssertionError("no finding of " + quantity);
    }

    private JsonNode record() throws IOException {
        return MAPPER.readTree(ResultsJson.bytes(evaluation, "0.1.0"));
    }

    private static Schema schema() throws IOException {
        final JsonNode node = MAPPER.readTree(Wording.Resources.text("results.schema.json"));
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(node);
    }
}
