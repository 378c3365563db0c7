package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.study.Tree;

class ProtocolSchemaTest {

    private static List<String> check(String text) {
        return check(text, StudyFiles.exampleSchema());
    }

    private static List<String> check(String text, JsonNode schema) {
        final Tree.Mapping tree;
        try {
            tree = YamlReader.read("p.yaml", text.getBytes(StandardCharsets.UTF_8));
        } catch (ProblemException e) {
            throw new AssertionError(e.getMessage(), e);
        }
        final Reading reading = new Reading();
        ProtocolSchema.of(schema).check(tree, reading);
        try {
            reading.throwIfAny();
            return List.of();
        } catch (ProblemException e) {
            return e.problems().stream().map(Problem::text).toList();
        }
    }

    @Test
    void aProtocolWithEveryKeyOfThisVersionPasses() {
        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: Terpenes
                                purpose: full-validation
                                laboratory: {name: Invented Laboratory, prepared-by: "", reviewed-by: }
                                instrument: {id: GC-3, detector: FID}
                                tables:
                                  - {file: a.csv, form: wide, columns: {injection: Sample ID}, zero-means: not-detected}
                                  - {file: r.csv, joins-on: injection, unmatched: ignore}
                                  - {file: l.csv, joins-on: [level, compound]}
                                compounds: {from: c.csv, targets: [limonene], ladder: n-C8 to n-C40,
                                            internal-standard: {compound: n-C14, amount: 50.0 mg/L, standard-uncertainty: 0.3 mg/L}}
                                conventions: {split-ratio: total-to-column, flows-at: {temperature: 25 degC, pressure: 101.325 kPa},
                                              recalibrated: once, coverage: 0.95, area-unit: pA s, amount-unit: mg/L, preparation: each-injection}
                                characteristics:
                                  calibration: {where: {series: calibration, level: {not: L1}, split_ratio: {at-least: 20, at-most: 100}}}
                                  detection: {where: {series: [calibration, blank]}}
                                requirements:
                                  - {quantity: rsd-repeatability, at-most: 2 %, basis: observed, risk: 0.05, source: procedure 12, set: 2026-02-10}
                                  - {quantity: split-exponent, equals: 1, within: 0.03, basis: equivalence, source: procedure 12, of: limonene,
                                     to: n-C20, method: any, condition: {level: L1}}
                                measurand:
                                  name: mass fraction
                                  unit: mg/g
                                  equation: found * V / oil
                                  inputs:
                                    V: {value: 10 mL, half-width: 0.025 mL, shape: triangular, source: flask}
                                    R: not-corrected
                                    oil: {column: oil, unit: mg, standard-uncertainty: 0.1 mg}
                                  results-for: {series: sample}
                                exclusions: [{injection: 0317, compound: all, reason: vial not crimped, who: M. Invented}]
                                events: [{date: 2026-03-04, what: liner}]
                                """))
                .isEmpty();
    }

    @Test
    void unknownKeysAreAnsweredWithTheNearestOneOrWithAll() {
        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: x
                                conventions: {recalibrate: once}
                                events: [{date: 2026-03-04, what: liner, zzzzzzzz: x}]
                                """))
                .containsExactly(
                        """
                        p.yaml:3: 'conventions.recalibrate': found the unknown key 'recalibrate', expected one of the keys that may stand here
                          what to do: did you mean 'recalibrated'?""",
                        """
                        p.yaml:4: 'events.1.zzzzzzzz': found the unknown key 'zzzzzzzz', expected one of the keys that may stand here
                          what to do: known here: date, what""");
    }

    @Test
    void anotherVersionOfTheFormIsRefused() {
        assertThat(check("splitledger: 2\ntitle: x\n"))
                .containsExactly(
                        """
                        p.yaml:1: 'splitledger': found '2', expected 1
                          what to do: Version of the form of this file.""");
    }

    @Test
    void missingKeysAreToldAtTheMappingThatLacksThem() {
        assertThat(check("title: x\nexclusions: [{injection: A1, reason: spilt}]\n"))
                .containsExactly(
                        """
                        p.yaml:1: found no key 'splitledger', expected the key 'splitledger'
                          what to do: add it (Version of the form of this file.)""",
                        """
                        p.yaml:2: 'exclusions.1': found no key 'who', expected the key 'who'
                          what to do: add it (Who decided it.)""");
    }

    @Test
    void wrongWordsAreAnsweredWithTheWordsThatMayStandThere() {
        assertThat(check("splitledger: 1\ntitle: x\nconventions: {split-ratio: total-to-colum}\n"))
                .containsExactly(
                        """
                        p.yaml:3: 'conventions.split-ratio': found 'total-to-colum', expected one of total-to-column, vent-to-column
                          what to do: did you mean 'total-to-column'? (Which ratio the tables hold: (vent + column flow)/column flow, or vent flow/column flow.)""");
    }

    @Test
    void aLongListOfWordsIsNotPrintedWhereOneOfThemIsNear() throws IOException {
        final JsonNode schema = StudyFiles.exampleSchema();
        ((ObjectNode) schema.at("/$defs/criterion/properties/quantity"))
                .set(
                        "enum",
                        new ObjectMapper()
                                .readTree(
                                        "[\"a\",\"b\",\"c\",\"d\",\"e\",\"f\",\"g\",\"h\",\"i\",\"j\",\"slope\"]"));

        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: x
                                requirements: [{quantity: slop, at-most: 1, source: y}]
                                """,
                                schema))
                .containsExactly(
                        """
                        p.yaml:3: 'requirements.1.quantity': found 'slop', expected one of the words known here
                          what to do: did you mean 'slope'? (Name of the quantity it is about.)""");
    }

    @Test
    void numbersMustBeFiniteUnquotedAndWithinTheirBounds() {
        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: x
                                requirements:
                                  - {quantity: q, at-most: 1, source: s, risk: "0.05"}
                                  - {quantity: q, at-most: 1, source: s, risk: .nan}
                                  - {quantity: q, at-most: 1, source: s, risk: 0}
                                  - {quantity: q, at-most: 1, source: s, risk: 0.6}
                                  - {quantity: q, at-most: 1, source: s, risk: 0,05}
                                """))
                .containsExactly(
                        """
                        p.yaml:4: 'requirements.1.risk': found the quoted text '0.05', expected a number
                          what to do: take the quotes out""",
                        """
                        p.yaml:5: 'requirements.2.risk': found '.nan', expected a number
                          what to do: leave the cell empty where there is no number (Risk of a wrong verdict. Without it: 0.05.)""",
                        """
                        p.yaml:6: 'requirements.3.risk': found '0', expected a number above 0
                          what to do: Risk of a wrong verdict. Without it: 0.05.""",
                        """
                        p.yaml:7: 'requirements.4.risk': found '0.6', expected a number not above 0.5
                          what to do: Risk of a wrong verdict. Without it: 0.05.""",
                        """
                        p.yaml:8: 'requirements.5.05': found the unknown key '05', expected one of the keys that may stand here
                          what to do: known here: quantity, at-most, at-least, equals, within, basis, risk, source, set, of, to, method, condition""",
                        """
                        p.yaml:8: 'requirements.5.risk': found '0', expected a number above 0
                          what to do: Risk of a wrong verdict. Without it: 0.05.""");
    }

    @Test
    void aRequirementHasExactlyOneFormOfLimit() {
        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: x
                                requirements:
                                  - {quantity: q, source: s}
                                  - {quantity: q, source: s, at-most: 1, at-least: 0}
                                  - {quantity: q, source: s, equals: 1}
                                """))
                .containsExactly(
                        """
                        p.yaml:4: 'requirements.1': found none of them, expected exactly one of at-most, at-least, equals
                          what to do: One limit with its source. Exactly one of at-most, at-least, and equals with within.""",
                        """
                        p.yaml:5: 'requirements.2': found at-most and at-least, expected exactly one of at-most, at-least, equals
                          what to do: One limit with its source. Exactly one of at-most, at-least, and equals with within.""",
                        """
                        p.yaml:6: 'requirements.3': found 'equals' without 'within', expected both of them
                          what to do: add 'within'""");
    }

    @Test
    void anInputHasExactlyOneForm() {
        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: x
                                measurand:
                                  name: n
                                  unit: "1"
                                  equation: a
                                  inputs:
                                    a: {source: s}
                                    b: corrected
                                    c: [1]
                                """))
                .containsExactly(
                        """
                        p.yaml:8: 'measurand.inputs.a': found none of them, expected exactly one of value, values, column, finding, amount-of, factor
                          what to do: not-corrected, or exactly one of value, values, column, finding, amount-of and factor with what belongs to it.""",
                        """
                        p.yaml:9: 'measurand.inputs.b': found 'corrected', expected not-corrected, or exactly one of value, values, column, finding, amount-of and factor with what belongs to it.""",
                        """
                        p.yaml:10: 'measurand.inputs.c': found a list, expected keys with values or a text
                          what to do: not-corrected, or exactly one of value, values, column, finding, amount-of and factor with what belongs to it.""");
    }

    @Test
    void emptyListsMappingsAndTextsAreRefused() {
        assertThat(
                        check(
                                """
                                splitledger: 1
                                title: ""
                                tables: []
                                compounds: {targets: [limonene, limonene]}
                                characteristics:
                                  calibration: {where: {}}
                                  detection:
                                """))
                .containsExactly(
                        """
                        p.yaml:2: 'title': found an empty text, expected a text
                          what to do: Title of the study, as printed.""",
                        """
                        p.yaml:3: 'tables': found an empty list, expected at least one item
                          what to do: The tables of injections, in the order in which they are read.""",
                        """
                        p.yaml:4: 'compounds.targets': found an item twice, expected each item once
                          what to do: keep one of them""",
                        """
                        p.yaml:6: 'characteristics.calibration.where': found an empty mapping, expected at least one key
                          what to do: Conditions on columns that a row must meet, all of them, such as {series: calibration}.""",
                        "p.yaml:7: 'characteristics.detection': found nothing, expected keys with values");
    }

    @Test
    void aChoiceBetweenATextAndAListIsToldInWords() throws IOException {
        final JsonNode schema = StudyFiles.exampleSchema();
        ((ObjectNode) schema.at("/properties/characteristics/properties/repeatability/properties"))
                .set(
                        "factors",
                        new ObjectMapper()
                                .readTree(
                                        """
                                        {"description": "Columns.",
                                         "oneOf": [{"type": "string"},
                                                   {"type": "array", "items": {"type": "string"}}]}
                                        """));

        assertThat(
                        check(
                                "splitledger: 1\ntitle: x\ncharacteristics: {repeatability: {factors: {day: 1}}}\n",
                                schema))
                .containsExactly(
                        """
                        p.yaml:3: 'characteristics.repeatability.factors': found keys with values, expected a text or a list
                          what to do: Columns.""");
    }

    @Test
    void optionsThatAreConditionsOnRowsAreKnownFromTheSchema() {
        final ProtocolSchema schema = ProtocolSchema.of(StudyFiles.exampleSchema());

        assertThat(schema.wheres("recovery")).containsExactly("where", "native");
        assertThat(schema.wheres("no-such")).isEmpty();
    }

    @Test
    void theFrameAloneKnowsNoCharacteristic() throws IOException {
        final JsonNode frame =
                new ObjectMapper()
                        .readTree(
                                ProtocolSchemaTest.class.getResourceAsStream(
                                        "protocol-frame.schema.json"));

        assertThat(frame.at("/properties/characteristics/properties").isObject()).isTrue();
        assertThat(frame.at("/properties/characteristics/properties").isEmpty()).isTrue();
    }
}
