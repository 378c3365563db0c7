package splitledger.report;

import java.util.Comparator;
import java.util.List;
import splitledger.base.JsonText;
import splitledger.study.Choice;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Place;

/**
 * The machine-readable record: everything an evaluation holds, with every digit, after the schema
 * {@code results.schema.json} beside this class. Names are those of the CSV files where these have
 * them.
 */
final class ResultsJson {
    private static final int FORMAT = 1;

    private ResultsJson() {}

    static byte[] bytes(Evaluation evaluation, String programVersion) {
        final JsonText json = new JsonText();
        json.beginObject();
        json.key("format").value(FORMAT);
        json.key("program").value(programVersion);
        json.key("seed").value(Long.toString(evaluation.seed()));
        StudyJson.write(json.key("study"), evaluation.study());
        questions(json, evaluation.questions());
        json.key("findings").beginArray();
        evaluation.findings().stream()
                .sorted(Comparator.comparing(Finding::key, CsvFiles.PRINTED))
                .forEach(f -> FindingJson.write(json, f, evaluation.study().table()));
        json.end();
        json.key("budgets").beginArray();
        evaluation.budgets().forEach(b -> BudgetJson.write(json, b));
        json.end();
        json.key("figures").beginArray();
        evaluation.figures().forEach(f -> FigureJson.write(json, f));
        json.end();
        choices(json.key("choices"), evaluation.choices());
        flags(json.key("flags"), evaluation.flags());
        return json.end().bytes();
    }

    private static void questions(JsonText json, List<Evaluation.Question> questions) {
        json.key("questions").beginArray();
        for (Evaluation.Question q : questions) {
            json.beginObject();
            json.key("id").value(q.id());
            json.key("title").value(q.title());
            json.key("question").value(q.question());
            json.key("injected").value(q.injected());
            json.key("how").value(q.how());
            json.end();
        }
        json.end();
    }

    /** An array of choices. */
    static void choices(JsonText json, List<Choice> choices) {
        json.beginArray();
        for (Choice c : choices) {
            json.beginObject();
            json.key("characteristic").value(c.characteristic());
            json.key("compound").value(c.compound());
            json.key("what").value(c.what());
            json.key("why").value(c.why());
            json.key("source").value(c.source());
            json.end();
        }
        json.end();
    }

    /** An array of flags. */
    static void flags(JsonText json, List<Flag> flags) {
        json.beginArray();
        for (Flag f : flags) {
            json.beginObject();
            place(json.key("place"), f.place());
            json.key("subject").value(f.subject());
            json.key("what").value(f.what());
            json.end();
        }
        json.end();
    }

    /** A place. */
    static void place(JsonText json, Place place) {
        json.beginObject();
        json.key("file").value(place.file());
        json.key("row").value(place.row());
        json.key("path").value(place.path());
        json.end();
    }
}
