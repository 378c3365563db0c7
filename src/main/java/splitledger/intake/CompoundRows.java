package splitledger.intake;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.base.Shown;
import splitledger.study.Compounds.Compound;

/**
 * Rows of the compound table: {@code name}, {@code boiling_point} (degC), {@code source}; where it
 * has them, {@code effective_carbon_number} and {@code molar_mass} (g/mol).
 */
final class CompoundRows implements TableFile.Rows {
    private static final String NAME = "name";
    private static final String BOILING_POINT = "boiling_point";
    private static final String SOURCE = "source";
    private static final String CARBON_NUMBER = "effective_carbon_number";
    private static final String MOLAR_MASS = "molar_mass";

    private final String file;
    private final Reading reading;
    private final Map<String, Compound> compounds = new LinkedHashMap<>();
    private final Map<String, Integer> lines = new LinkedHashMap<>();
    private NumberStyle style = NumberStyle.DOT;
    private int name;
    private int boilingPoint;
    private int source;
    private int carbonNumber;
    private int molarMass;

    CompoundRows(String file, Reading reading) {
        this.file = file;
        this.reading = reading;
    }

    /** The compounds by name, in order of the file. */
    Map<String, Compound> compounds() {
        return compounds;
    }

    @Override
    public Collection<String> required() {
        return List.of(NAME, BOILING_POINT, SOURCE);
    }

    @Override
    public String look(List<List<String>> cells, boolean plain) {
        final List<String> sample = cells.stream().map(row -> row.get(boilingPoint)).toList();
        style = NumberStyles.of(sample, TableFormat.UNSTATED, plain);
        return plain && style.equals(NumberStyle.DOT) ? "" : style.words();
    }

    @Override
    public boolean header(int line, List<String> headings) {
        for (String wanted : List.of(NAME, BOILING_POINT, SOURCE)) {
            if (!headings.contains(wanted)) {
                reading.problem(
                        new Problem(
                                file,
                                line,
                                "",
                                "no column '" + wanted + "'",
                                "the columns name, boiling_point (degC) and source",
                                Nearest.hint(wanted, headings)));
                return false;
            }
        }
        name = headings.indexOf(NAME);
        boilingPoint = headings.indexOf(BOILING_POINT);
        source = headings.indexOf(SOURCE);
        carbonNumber = headings.indexOf(CARBON_NUMBER);
        molarMass = headings.indexOf(MOLAR_MASS);
        return true;
    }

    @Override
    public void row(int line, RowCells cells) {
        final String compound = cells.text(name);
        if (compound.isEmpty()) {
            reading.problem(
                    new Problem(
                            file,
                            line,
                            NAME,
                            "an empty cell",
                            "the name of a compound",
                            "fill it in"));
            return;
        }
        if (!Shown.isHarmless(compound + cells.text(source))) {
            reading.problem(
                    new Problem(
                            file,
                            line,
                            NAME,
                            "a control character in '" + compound + "' or its source",
                            "plain text",
                            "take it out"));
            return;
        }
        final Integer before = lines.putIfAbsent(compound, line);
        if (before != null) {
            reading.problem(
                    new Problem(
                            file,
                            line,
                            NAME,
                            "'" + compound + "' a second time",
                            "each compound once",
                            "it stands in line " + before + " already: keep one of them"));
            return;
        }
        compounds.put(
                compound,
                new Compound(
                        compound,
                        number(line, cells, boilingPoint, BOILING_POINT),
                        cells.text(source),
                        number(line, cells, carbonNumber, CARBON_NUMBER),
                        number(line, cells, molarMass, MOLAR_MASS)));
    }

    /** A number; empty where the cell is empty or the column is not there. */
    private OptionalDouble number(int line, RowCells cells, int column, String heading) {
        if (column < 0 || column >= cells.size()) {
            return OptionalDouble.empty();
        }
        final String cell = cells.text(column);
        if (Cells.isNothing(cell)) {
            return OptionalDouble.empty();
        }
        final double value = cells.isTyped(column) ? Cells.number(cell) : style.number(cell);
        if (Double.isNaN(value)) {
            reading.problem(
                    new Problem(
                            file, line, heading, "'" + cell + "'", "a number", Cells.hint(cell)));
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(value);
    }
}
