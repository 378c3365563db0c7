package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import splitledger.study.Choice;
import splitledger.study.Criterion;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Study;

class ProtocolReadingTest {
    private static final String AREAS_WITH_OIL =
            """
            injection,compound,area,oil
            A1,limonene,10.5,100
            A1,linalool,20,100
            A2,limonene,-0.5,101
            A2,linalool,n.a.,101
            """;

    private static StudyFiles requirement(String item) {
        return StudyFiles.adding("requirements:\n  - {" + item + "}\n");
    }

    private static Criterion criterion(String item) {
        return requirement(item).read().protocol().requirements().get(0);
    }

    private static StudyFiles inputs(String equation, String inputs) {
        return StudyFiles.adding(
                        "measurand:\n  name: n\n  unit: mg/g\n  equation: \""
                                + equation
                                + "\"\n  inputs:\n"
                                + inputs.indent(4))
                .with("studies/oil/areas.csv", AREAS_WITH_OIL);
    }

    private static Protocol.Input input(String form) {
        return inputs("found * a", "a: " + form)
                .read()
                .protocol()
                .measurand()
                .orElseThrow()
                .inputs()
                .getOrDefault("a", new Protocol.NotCorrected(Place.NONE));
    }

    @Test
    void factsAndConventionsAreKeptAndDefaultsAreFilledIn() {
        final Protocol protocol =
                StudyFiles.adding(
                                """
                                purpose: detection
                                laboratory: {name: Invented Laboratory, reviewed-by: ""}
                                instrument: {id: 007}
                                events: [{date: 2026-03-04, what: liner}]
                                """)
                        .read()
                        .protocol();

        assertThat(protocol.title()).isEqualTo("Two terpenes");
        assertThat(protocol.purpose()).isEqualTo("detection");
        assertThat(protocol.laboratory())
                .isEqualTo(Map.of("name", "Invented Laboratory", "reviewed-by", ""));
        assertThat(protocol.instrument()).isEqualTo(Map.of("id", "007"));
        assertThat(protocol.events()).containsExactly(new Protocol.Event("2026-03-04", "liner"));
        assertThat(protocol.conventions())
                .isEqualTo(
                        new Protocol.Conventions("", "once", 0.95, "area counts", "amount units"));
        assertThat(protocol.characteristics().keySet()).containsExactly("calibration");
    }

    @Test
    void theUnitOfAmountsIsThatOfTheInternalStandardUnlessStated() {
        final String standard =
                "compounds: {targets: [limonene],"
                        + " internal-standard: {compound: linalool, amount: 50.0 mg/L, standard-uncertainty: 0.3}}";
        final String good = "compounds: {targets: [limonene, linalool]}";
        final Study study = StudyFiles.replacing(good, standard).read();
        final Study stated =
                StudyFiles.replacing(good, standard + "\nconventions: {amount-unit: ug/mL}").read();

        assertThat(study.protocol().conventions().amountUnit()).isEqualTo("mg/L");
        assertThat(stated.protocol().conventions().amountUnit()).isEqualTo("ug/mL");
        assertThat(study.compounds().internalStandard().orElseThrow().amount())
                .isEqualTo(OptionalDouble.of(50));
        assertThat(study.compounds().internalStandard().orElseThrow().standardUncertainty())
                .isEqualTo(0.3);
    }

    @Test
    void aRequirementIsReadWithItsDefaults() {
        final Criterion c = criterion("quantity: rsd-repeatability, at-most: 2 %, source: own");

        assertThat(c.limit()).isEqualTo(new Criterion.Limit.AtMost(2));
        assertThat(c.unit()).isEqualTo("%");
        assertThat(c.basis()).isEqualTo(Criterion.Basis.OBSERVED);
        assertThat(c.risk()).isEqualTo(0.05);
        assertThat(c.set()).isEmpty();
        assertThat(c.of()).isEmpty();
        assertThat(c.place().row()).isEqualTo(10);
    }

    @Test
    void aRequirementIsReadWithAllItsKeys() {
        final Criterion c =
                criterion(
                        "quantity: ratio, equals: 1, within: 0.03, basis: equivalence, risk: 0.1,"
                                + " source: own ed. 3, set: 2026-02-10, of: limonene, to: linalool,"
                                + " method: line, condition: {level: L1}");

        assertThat(c.limit()).isEqualTo(new Criterion.Limit.Within(1, 0.03));
        assertThat(c.basis()).isEqualTo(Criterion.Basis.EQUIVALENCE);
        assertThat(c.risk()).isEqualTo(0.1);
        assertThat(c.set()).isEqualTo("2026-02-10");
        assertThat(c.of()).contains("limonene");
        assertThat(c.to()).contains("linalool");
        assertThat(c.method()).contains("line");
        assertThat(c.condition())
                .isEqualTo(new TreeMap<>(Map.of("level", "L1", "reference", "linalool")));
    }

    @Test
    void aRequirementAboutACompoundOutsideTheStudyIsAnsweredWithTheNearestOne() {
        assertThat(requirement("quantity: q, at-least: 1, source: s, of: limonen").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:10: 'requirements.1.of': found 'limonen', which is no compound of the study, expected one of the targets, the ladder, the products or the internal standard
                          what to do: did you mean 'limonene'?""");
    }

    @Test
    void twoReferencesOfOneRequirementAreRefused() {
        assertThat(
                        requirement(
                                        "quantity: q, at-least: 1, source: s, to: linalool, condition: {reference: limonene}")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:10: 'requirements.1.condition': found the reference 'limonene' beside to: linalool, expected one reference
                          what to do: take one of them out""");
    }

    @Test
    void aLimitThatIsNoQuantityIsRefused() {
        assertThat(requirement("quantity: q, at-most: two %, source: s").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:10: 'requirements.1.at-most': found 'two %', expected a finite number with its unit, such as 10 mL
                          what to do: write a dot as decimal mark and no thousands marks; the unit follows the number""");
    }

    @Test
    void aMarginInAnotherUnitThanItsValueIsRefused() {
        assertThat(requirement("quantity: q, equals: 1 mg, within: 3 %, source: s").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:10: 'requirements.1.within': found the unit '%', expected the unit of the value, 'mg'
                          what to do: write both in one unit""");
    }

    @Test
    void aValueBetweenLimitsGetsTheStandardUncertaintyOfItsShape() {
        // JCGM 100:2008, 4.3.7 and 4.3.9: a/sqrt(3) and a/sqrt(6); worked by hand for a = 0.025
        final Protocol.Given triangular =
                (Protocol.Given)
                        input(
                                "{value: 10 mL, half-width: 0.025 mL, shape: triangular, source: flask}");
        final Protocol.Given rectangular =
                (Protocol.Given) input("{value: 10 mL, half-width: 0.025, shape: rectangular}");

        assertThat(triangular.value()).isEqualTo(10);
        assertThat(triangular.unit()).isEqualTo("mL");
        assertThat(triangular.standardUncertainty()).isCloseTo(0.0102062073, within(1e-10));
        assertThat(triangular.shape().code()).isEqualTo("triangular");
        assertThat(triangular.degreesOfFreedom()).isInfinite();
        assertThat(triangular.source()).isEqualTo("flask");
        assertThat(rectangular.standardUncertainty()).isCloseTo(0.0144337567, within(1e-10));
        assertThat(rectangular.source()).isEmpty();
    }

    @Test
    void aHalfWidthWithoutShapeIsTakenAsRectangularAndSaidSo() {
        final Study study = inputs("found * a", "a: {value: 10 mL, half-width: 0.025 mL}").read();

        assertThat(StudyFiles.decisions(study))
                .containsExactly(
                        new Choice(
                                "intake",
                                "",
                                "measurand.inputs.a is taken as rectangular",
                                "only the half-width between its limits is stated",
                                "JCGM 100:2008, 4.3.7"));
    }

    @Test
    void aStandardUncertaintyMayHaveDegreesOfFreedom() {
        final Protocol.Given given =
                (Protocol.Given)
                        input(
                                "{value: 10 mL, standard-uncertainty: 0.1 mL, degrees-of-freedom: 9, shape: normal}");

        assertThat(given.standardUncertainty()).isEqualTo(0.1);
        assertThat(given.degreesOfFreedom()).isEqualTo(9);
        assertThat(given.shape().code()).isEqualTo("normal");
    }

    @Test
    void aValueAloneIsExact() {
        final Protocol.Given given = (Protocol.Given) input("{value: 2}");

        assertThat(given.standardUncertainty()).isZero();
        assertThat(given.unit()).isEqualTo("1");
    }

    @Test
    void columnsSpreadsFindingsAndNotCorrectedAreInputsToo() {
        assertThat(input("{column: oil, unit: mg, standard-uncertainty: 0.1 mg, source: balance}"))
                .isEqualTo(new Protocol.RowVariable("oil", "mg", 0.1, "balance", placeOfA()));
        assertThat(input("{value: 1, spread-of: rsd-repeatability, mean-of: 2}"))
                .isEqualTo(
                        new Protocol.Spread(
                                1, "rsd-repeatability", OptionalDouble.of(2), placeOfA()));
        assertThat(input("{finding: recovery}"))
                .isEqualTo(
                        new Protocol.FromFinding(
                                "recovery",
                                Optional.empty(),
                                Map.of(),
                                Protocol.Home.NOT_STATED,
                                placeOfA()));
        assertThat(input("not-corrected")).isEqualTo(new Protocol.NotCorrected(placeOfA()));
    }

    private static Place placeOfA() {
        return new Place(StudyFiles.PROTOCOL, 14, "measurand.inputs.a");
    }

    @Test
    void partsOfAnInputThatDoNotFitTogetherAreRefused() {
        final List<String> texts =
                inputs(
                                "found * a * b * c * d * e * f * g * h",
                                """
                                a: {value: 10 mL, half-width: 25 mg}
                                b: {value: 10, standard-uncertainty: 0.1 mL}
                                c: {value: 10 mL, half-width: -1 mL}
                                d: {value: 10 mL, half-width: 1 mL, shape: normal}
                                e: {value: 10 mL, standard-uncertainty: 1 mL, shape: triangular}
                                f: {value: 10 mL, half-width: 1 mL, standard-uncertainty: 1 mL}
                                g: {value: 1 mL, spread-of: rsd-repeatability}
                                h: {value: "1,000 mL"}
                                """)
                        .texts();

        assertThat(texts)
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:14: 'measurand.inputs.a.half-width': found the unit 'mg', expected the unit of the value, 'mL'
                          what to do: write both in one unit""",
                        """
                        studies/oil/protocol.yaml:15: 'measurand.inputs.b.standard-uncertainty': found the unit 'mL', expected no unit, as at the value
                          what to do: write both in one unit""",
                        """
                        studies/oil/protocol.yaml:16: 'measurand.inputs.c.half-width': found '-1 mL', expected a number that is not negative
                          what to do: take the sign out""",
                        """
                        studies/oil/protocol.yaml:17: 'measurand.inputs.d.shape': found 'normal' beside a half-width, expected rectangular, triangular, trapezoidal or arcsine
                          what to do: a normal shape has no ends: give the standard uncertainty instead""",
                        """
                        studies/oil/protocol.yaml:18: 'measurand.inputs.e.shape': found 'triangular' beside a standard uncertainty, expected normal, t, lognormal, gamma
                          what to do: give the half-width between the limits instead""",
                        """
                        studies/oil/protocol.yaml:19: 'measurand.inputs.f.standard-uncertainty': found the key 'standard-uncertainty' here, expected only value, half-width, shape, top-half-width, degrees-of-freedom, source, effect, acts-on, differs, disjoint
                          what to do: take it out, or use another form of input""",
                        """
                        studies/oil/protocol.yaml:20: 'measurand.inputs.g.value': found the unit 'mL', expected no unit, as at the value
                          what to do: write both in one unit""",
                        """
                        studies/oil/protocol.yaml:21: 'measurand.inputs.h.value': found '1,000 mL', expected a finite number with its unit, such as 10 mL
                          what to do: write a dot as decimal mark and no thousands marks; the unit follows the number""");
    }

    @Test
    void numbersThatAreNotFiniteAreRefused() {
        assertThat(
                        inputs(
                                        "found * a * b * c",
                                        "a: {value: NaN}\nb: {value: 1e999 mL}\nc: {value: .inf}")
                                .problems())
                .extracting(p -> p.row() + " " + p.found() + " " + p.expected())
                .containsExactly(
                        "14 'NaN' a finite number with its unit, such as 10 mL",
                        "15 '1e999 mL' a finite number with its unit, such as 10 mL",
                        "16 '.inf' a finite number with its unit, such as 10 mL");
    }

    @Test
    void aMistakeInTheEquationIsToldWithItsCharacter() {
        assertThat(inputs("found * (a", "a: {value: 1}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:12: 'measurand.equation': found 'found * (a', wrong at character 11: found the end, expected ')', expected ordinary algebra: + - * / ^, parentheses, exp, ln, log10, sqrt, symbols
                          what to do: look at character 11""");
    }

    @Test
    void aSymbolThatIsNoInputIsToldWithItsCharacter() {
        assertThat(inputs("found * vol1 * vol2", "vol1: {value: 1}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:12: 'measurand.equation': found the symbol 'vol2' at character 16, which is no input, expected symbols that stand under inputs, or found
                          what to do: did you mean 'vol1'?""");
    }

    @Test
    void anInputThatTheEquationDoesNotUseIsRefused() {
        assertThat(inputs("found", "a: {value: 1}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:14: 'measurand.inputs.a': found the input 'a', which the equation does not use, expected inputs that the equation uses
                          what to do: use it in the equation, or take it out""");
    }

    @Test
    void reservedAndUnreadableSymbolsAreRefused() {
        assertThat(
                        inputs(
                                        "found",
                                        "found: {value: 1}\ncombined: {value: 1}\nln: {value: 1}\na-b: {value: 1}")
                                .problems())
                .filteredOn(p -> !p.found().contains("does not use"))
                .extracting(p -> p.row() + " " + p.found() + "; " + p.expected())
                .containsExactly(
                        "14 the symbol 'found', which has a meaning already; a symbol of your own",
                        "15 the symbol 'combined', which has a meaning already; a symbol of your own",
                        "16 the symbol 'ln', which has a meaning already; a symbol of your own",
                        "17 the symbol 'a-b'; letters, digits and underscore, a letter first");
    }
}
