package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/** What is written is read back with Jackson, an independent reader of the standard (RFC 8259). */
class JsonTextTest {
    private static final ObjectMapper READER = new ObjectMapper();

    private static JsonNode read(JsonText json) throws IOException {
        return READER.readTree(json.bytes());
    }

    @Test
    void nestedObjectsAndArraysReadBack() throws IOException {
        final JsonText json = new JsonText();
        json.beginObject().key("name").value("r").key("n").value(0.002).key("yes").value(true);
        json.key("none").nothing().key("empty").beginObject().end();
        json.key("list").beginArray().value("a").beginObject().key("b").value(1).end().end();
        json.key("after").value("z").end();

        assertThat(read(json))
                .isEqualTo(
                        READER.readTree(
                                """
                                {"name": "r", "n": 0.002, "yes": true, "none": null, "empty": {},
                                 "list": ["a", {"b": 1}], "after": "z"}
                                """));
    }

    @Test
    void isIndentedByTwoBlanksAndEndsWithALineFeed() {
        final JsonText json = new JsonText();
        json.beginObject().key("a").beginArray().value(1).value(2).end().key("b").value("c").end();

        assertThat(new String(json.bytes(), StandardCharsets.UTF_8))
                .isEqualTo("{\n  \"a\": [\n    1,\n    2\n  ],\n  \"b\": \"c\"\n}\n");
    }

    @Test
    void everyControlCharacterAndLetterReadsBack() throws IOException {
        final StringBuilder all = new StringBuilder();
        for (int c = 0; c < 0x3000; c++) {
            all.appendCodePoint(c);
        }
        all.append("\ud83d\udc6f");
        final JsonText json = new JsonText();
        json.beginObject().key(all.toString()).value(all.toString()).end();

        assertThat(read(json).get(all.toString()).textValue()).isEqualTo(all.toString());
    }

    @Test
    void aRowOfNumbersHoldsGapsAsNullAndInfinityAsText() throws IOException {
        final JsonText json = new JsonText();
        json.numbers(new double[] {1.5, Double.NaN, Double.POSITIVE_INFINITY, Double.MIN_VALUE});

        assertThat(read(json)).isEqualTo(READER.readTree("[1.5, null, \"inf\", 4.9e-324]"));
    }

    @Test
    void infinityIsTextAndNotANumberIsRefused() throws IOException {
        assertThat(read(new JsonText().value(Double.POSITIVE_INFINITY)))
                .isEqualTo(READER.readTree("\"inf\""));
        assertThatIllegalArgumentException().isThrownBy(() -> new JsonText().value(Double.NaN));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new JsonText().value(Double.NEGATIVE_INFINITY));
    }

    @Test
    void anOpenObjectIsNoDocument() {
        final JsonText json = new JsonText().beginObject();

        assertThatIllegalStateException().isThrownBy(json::bytes);
    }
}
