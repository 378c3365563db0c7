package splitledger.spark;

import java.io.IOException;
import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import org.jspecify.annotations.Nullable;
import splitledger.base.CsvRows;
import splitledger.base.ProblemException;
import splitledger.dossier.DossierWriter;
import splitledger.fleet.Job;
import splitledger.history.StudyTime;
import splitledger.intake.StudyReader;
import splitledger.study.Protocol;
import splitledger.study.Study;

/**
 * Results of dossiers as rows of one table. The columns {@code instrument} (its id in the protocol)
 * and {@code year} divide it; {@code time} is that of the first injection as stated, empty if none
 * is; else see {@link StudyTime}. {@code row} is the place in {@code results.csv}, from 1. What was
 * done to the instrument stands in rows of the characteristic {@code work}.
 *
 * @param worker how studies are reached
 */
record TidyRows(StudyWorker worker) implements Serializable {
    static final String WORK = "work";

    /** Columns that hold text from {@code results.csv}, in order of the table. */
    private static final List<String> TEXTS =
            List.of("characteristic", "compound", "condition", "quantity", "method", "unit");

    private static final List<String> NUMBERS =
            List.of("value", "standard_uncertainty", "degrees_of_freedom", "lower", "upper");
    private static final List<String> ENDS = List.of("status", "reason", "verdict");
    private static final int YEAR = 4;

    /** The columns. */
    static StructType schema() {
        StructType s =
                new StructType()
                        .add("instrument", DataTypes.StringType)
                        .add("year", DataTypes.StringType)
                        .add("time", DataTypes.StringType)
                        .add("dossier", DataTypes.StringType)
                        .add("row", DataTypes.IntegerType);
        for (String text : TEXTS) {
            s = s.add(text, DataTypes.StringType);
        }
        for (String number : NUMBERS) {
            s = s.add(number, DataTypes.DoubleType);
        }
        for (String end : ENDS) {
            s = s.add(end, DataTypes.StringType);
        }
        return s;
    }

    /**
     * Rows of one dossier that is there.
     *
     * @throws IOException if it cannot be read or is none
     */
    Iterator<Row> of(StudyWork work) throws IOException {
        final Path folder = new Path(worker.out(), work.name());
        final FileSystem files = folder.getFileSystem(worker.conf().value());
        final HadoopVault dossier = new HadoopVault(files, folder);
        final Study study;
        try {
            final Job.Located located = worker.located(work);
            study =
                    StudyReader.read(
                            new HadoopVault(files, new Path(folder, inputs())), located.protocol());
        } catch (ProblemException changed) {
            throw new IOException("'" + folder + "' cannot be read again", changed);
        }
        final String instrument = study.protocol().instrument().getOrDefault("id", "").strip();
        final String time = StudyTime.of(study).map(StudyTime::text).orElse("").strip();
        final List<List<String>> results =
                CsvRows.of(new String(dossier.read("results.csv"), StandardCharsets.UTF_8));
        final List<Row> rows = new ArrayList<>();
        for (int i = 1; i < results.size(); i++) {
            rows.add(
                    row(List.of(instrument, time, work.name()), i, results.get(0), results.get(i)));
        }
        for (Protocol.Event event : study.protocol().events()) {
            rows.add(
                    row(
                            List.of(instrument, event.date(), work.name()),
                            rows.size() + 1,
                            List.of("characteristic", "quantity"),
                            List.of(WORK, event.what())));
        }
        return rows.iterator();
    }

    private static String inputs() {
        return DossierWriter.INPUTS.replace("/", "");
    }

    private static Row row(List<String> of, int number, List<String> header, List<String> cells) {
        final List<@Nullable Object> values = new ArrayList<>();
        final String time = of.get(1);
        values.add(of.get(0));
        values.add(time.length() < YEAR ? "" : time.substring(0, YEAR));
        values.add(time);
        values.add(of.get(2));
        values.add(number);
        TEXTS.forEach(name -> values.add(cell(header, cells, name)));
        NUMBERS.forEach(name -> values.add(number(cell(header, cells, name))));
        ENDS.forEach(name -> values.add(cell(header, cells, name)));
        return RowFactory.create(values.toArray());
    }

    private static String cell(List<String> header, List<String> cells, String name) {
        final int at = header.indexOf(name);
        return at < 0 ? "" : cells.get(at);
    }

    private static @Nullable Double number(String cell) {
        if (cell.isEmpty()) {
            return null;
        }
        return cell.equals("inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(cell);
    }
}
