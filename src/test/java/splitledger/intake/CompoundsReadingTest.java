package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import splitledger.study.Compounds;

class CompoundsReadingTest {
    private static final String GOOD = "compounds: {targets: [limonene, linalool]}";
    private static final String TABLE =
            """
            name,boiling_point,source,remark
            n-C10,174.1,from memory,x
            n-C9,150.8,from memory,
            n-C8,125.6,from memory,
            n-C40,,,
            limonene,176,from memory,
            """;
    private static final String LADDER_AREAS =
            """
            injection,compound,area
            A1,limonene,1
            A1,linalool,2
            A1,n-C10,3
            A1,n-C8,4
            A1,n-C7,5
            A2,limonene,1
            """;

    private static StudyFiles compounds(String compounds) {
        return StudyFiles.replacing(GOOD, "compounds: {" + compounds + "}")
                .with("studies/oil/areas.csv", LADDER_AREAS)
                .with("studies/shared/compounds.csv", TABLE);
    }

    @Test
    void aRangeTakesTheMembersThatCompoundTableAndTablesHave() {
        final Compounds compounds =
                compounds(
                                "from: ../shared/compounds.csv, targets: [limonene, linalool], ladder: n-C8 to n-C40")
                        .read()
                        .compounds();

        assertThat(compounds.ladder()).containsExactly("n-C8", "n-C10");
        assertThat(compounds.all()).containsExactly("limonene", "linalool", "n-C8", "n-C10");
        assertThat(compounds.known())
                .containsExactly(
                        new Compounds.Compound("limonene", OptionalDouble.of(176), "from memory"),
                        new Compounds.Compound("n-C8", OptionalDouble.of(125.6), "from memory"),
                        new Compounds.Compound("n-C10", OptionalDouble.of(174.1), "from memory"));
    }

    @Test
    void aListedLadderStandsInOrderOfBoilingPoint() {
        final Compounds compounds =
                compounds(
                                "from: ../shared/compounds.csv, targets: [limonene], ladder: [n-C10, n-C8]")
                        .read()
                        .compounds();

        assertThat(compounds.ladder()).containsExactly("n-C8", "n-C10");
    }

    @Test
    void aListedMemberMustBeInTheTables() {
        assertThat(
                        compounds(
                                        "from: ../shared/compounds.csv, targets: [limonene], ladder: [n-C9, n-C8]")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.ladder.1': found the compound 'n-C9', which areas.csv does not have, expected a compound as the table names it
                          what to do: did you mean 'n-C7'?""");
    }

    @Test
    void aRangeNeedsACompoundTable() {
        assertThat(compounds("targets: [limonene], ladder: n-C8 to n-C40").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.ladder': found a range without a compound table, expected the key 'from' with a table that lists the members
                          what to do: add 'from', or list the members""");
    }

    @Test
    void aRangeIsOfOneSeriesUpwards() {
        assertThat(
                        compounds(
                                        "from: ../shared/compounds.csv, targets: [limonene], ladder: n-C40 to n-C8")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.ladder': found 'n-C40 to n-C8', expected a range of one series, the shorter member first, such as n-C8 to n-C40
                          what to do: or list the members""");
    }

    @Test
    void aRangeWithoutAnyMemberInTheTablesIsAProblem() {
        assertThat(
                        compounds(
                                        "from: ../shared/compounds.csv, targets: [limonene], ladder: n-C9 to n-C9")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.ladder': found a ladder of which areas.csv has no member, expected members of the ladder in the tables
                          what to do: write the names in the compound table as in the tables""");
    }

    @Test
    void productsAndParentOfACharacteristicBelongToTheStudy() {
        final Compounds compounds =
                StudyFiles.replacing(
                                "characteristics:",
                                "characteristics:\n  losses: {where: {series: sample}, parent: limonene, products: [n-C8, n-C7]}")
                        .with("studies/oil/areas.csv", LADDER_AREAS)
                        .read()
                        .compounds();

        assertThat(compounds.targets()).containsExactly("limonene", "linalool");
        assertThat(compounds.products()).containsExactly("n-C8", "n-C7");
    }

    @Test
    void aCompoundTableWithMistakesIsToldLineByLine() {
        assertThat(
                        compounds("from: ../shared/compounds.csv, targets: [limonene]")
                                .with(
                                        "studies/shared/compounds.csv",
                                        "name,boiling_point,source\na,\"174,1\",s\na,1.5,s\n,1,s\n")
                                .texts())
                .containsExactly(
                        """
                        ../shared/compounds.csv:2: 'boiling_point': found '174,1', expected a number
                          what to do: write a dot as decimal mark and no thousands marks""",
                        """
                        ../shared/compounds.csv:3: 'name': found 'a' a second time, expected each compound once
                          what to do: it stands in line 2 already: keep one of them""",
                        """
                        ../shared/compounds.csv:4: 'name': found an empty cell, expected the name of a compound
                          what to do: fill it in""");
    }

    @Test
    void aCompoundTableNeedsItsThreeColumns() {
        assertThat(
                        compounds("from: ../shared/compounds.csv, targets: [limonene]")
                                .with(
                                        "studies/shared/compounds.csv",
                                        "name,boiling point,source\na,1,s\n")
                                .texts())
                .containsExactly(
                        """
                        ../shared/compounds.csv:1: found no column 'boiling_point', expected the columns name, boiling_point (degC) and source
                          what to do: did you mean 'boiling point'?""");
    }

    @Test
    void anUncertaintyOfTheInternalStandardNeedsItsAmountInTheSameUnit() {
        assertThat(
                        compounds(
                                        "targets: [limonene], internal-standard: {compound: linalool, standard-uncertainty: 1 mg/L}")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.internal-standard': found a standard uncertainty without an amount, expected the key 'amount'
                          what to do: add the amount of the internal standard""");
        assertThat(
                        compounds(
                                        "targets: [limonene], internal-standard: {compound: linalool, amount: 50 mg/L,"
                                                + " standard-uncertainty: 1 %}")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.internal-standard.standard-uncertainty': found the unit '%', expected the unit of the value, 'mg/L'
                          what to do: write both in one unit""");
    }
}
