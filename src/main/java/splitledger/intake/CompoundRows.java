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

/** Rows of the compound table: {@code name}, {@code boiling_point} (degC), {@code source}. */
final class CompoundRows implements TableFile.Rows {
    private static final String NAME = "name";
    private static final String BOILING_POINT = "boiling_point";
    private static final String SOURCE = "source";

    private final String file;
    private final Reading reading;
    private final Map<String, Compound> compounds = new LinkedHashMap<>();
    private final Map<String, Integer> lines = new LinkedHashMap<>();
    private NumberStyle style = NumberStyle.DOT;
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
        compounds.put(compound, new Compound(compound, celsius(line, cells), cells.text(source)));
    }

    private OptionalDouble celsius(int line, RowCells cells) {
        final String cell = cells.text(boilingPoint);
        if (Cells.isNothing(cell)) {
            return OptionalDouble.empty();
        }
        final double value = cells.isTyped(boilingPoint) ? Cells.number(cell) : style.number(cell);
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
