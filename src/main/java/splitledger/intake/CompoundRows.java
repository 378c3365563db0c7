package splitledger.intake;

import de.siegmar.fastcsv.reader.CsvRecord;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.study.Compounds.Compound;

/** Rows of the compound table: {@code name}, {@code boiling_point} (degC), {@code source}. */
final class CompoundRows implements CsvFile.Rows {
    private static final String NAME = "name";
    private static final String BOILING_POINT = "boiling_point";
    private static final String SOURCE = "source";

    private final String file;
    private final Reading reading;
    private final Map<String, Compound> compounds = new LinkedHashMap<>();
    private final Map<String, Integer> lines = new LinkedHashMap<>();
    private int name;
    private int boilingPoint;
    private int source;

    CompoundRows(String file, Reading reading) {
        this.file = file;
        this.reading = reading;
    }

    /** The compounds by name, in order of the file. */
    Map<String, Compound> compounds() {
        return compounds;
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
        return true;
    }

    @Override
    public void row(int line, CsvRecord cells) {
        final String compound = cells.getField(name).strip();
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
                new Compound(compound, celsius(line, cells), cells.getField(source).strip()));
    }

    private OptionalDouble celsius(int line, CsvRecord cells) {
        final String cell = cells.getField(boilingPoint).strip();
        if (Cells.isNothing(cell)) {
            return OptionalDouble.empty();
        }
        final double value = Cells.number(cell);
        if (Double.isNaN(value)) {
            reading.problem(
                    new Problem(
                            file,
                            line,
                            BOILING_POINT,
                            "'" + cell + "'",
                            "a number",
                            Cells.hint(cell)));
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(value);
    }
}
