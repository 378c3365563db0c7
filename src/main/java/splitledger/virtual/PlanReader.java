package splitledger.virtual;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** Reads the days of a design. */
final class PlanReader {
    private static final int MOST_COPIES = 1000;
    private static final String SPLIT = "split";
    private static final String ON_COLUMN = "on-column";
    private static final String[] TECHNIQUES = {SPLIT, ON_COLUMN};

    private PlanReader() {}

    static Plan.Day day(Fields fields, Collection<String> levels, Collection<String> oils) {
        final Plan.Day day =
                new Plan.Day(
                        fields.text("day"),
                        moment(fields, "date", LocalDate::parse, LocalDate.EPOCH, "2026-02-16"),
                        moment(fields, "start", LocalTime::parse, LocalTime.MIN, "08:00"),
                        fields.lists("sessions").stream()
                                .map(
                                        session ->
                                                session.stream()
                                                        .map(batch -> batch(batch, levels, oils))
                                                        .toList())
                                .toList());
        fields.done();
        return day;
    }

    private static Plan.Batch batch(
            Fields fields, Collection<String> levels, Collection<String> oils) {
        final boolean numbered = fields.has("flasks");
        if (numbered == fields.has("flask")) {
            fields.wrong(
                    fields.place(),
                    numbered ? "'flask' and 'flasks'" : "neither 'flask' nor 'flasks'",
                    "one of them",
                    "'flask: CHECK' is one solution, 'flasks: K' numbers them K01, K02, ...");
        }
        final Plan.Batch batch =
                new Plan.Batch(
                        fields.text("experiment"),
                        numbered ? fields.text("flasks") : fields.text("flask", ""),
                        numbered,
                        allOf(fields, "analysts"),
                        fields.knownTexts("levels", levels),
                        fields.knownTexts("oils", oils),
                        fields.count("preparations", MOST_COPIES, 1),
                        fields.count("injections", MOST_COPIES, 1),
                        fields.numbers("splits"),
                        fields.numbers("temperatures"),
                        fields.text("occasion", ""),
                        fields.texts("instruments"),
                        EffectsReader.word(
                                        fields, "technique", SPLIT, TECHNIQUES, Function.identity())
                                .equals(ON_COLUMN));
        final int solutions =
                batch.analysts().size()
                        * Math.max(1, batch.levels().size())
                        * Math.max(1, batch.oils().size())
                        * batch.preparations();
        if (!numbered && solutions > 1) {
            fields.wrong(
                    fields.at("flask"),
                    solutions + " solutions in one flask",
                    "one",
                    "number them: 'flasks: " + batch.flask() + "'");
        }
        if (batch.splits().stream().anyMatch(r -> r < 1)) {
            fields.wrong(
                    fields.at("splits"),
                    "a ratio below 1",
                    "ratios of total flow to column flow, 1 or more",
                    "");
        }
        if (batch.onColumn() && !batch.splits().isEmpty()) {
            fields.wrong(
                    fields.at("splits"),
                    "split ratios on the column",
                    "no ratio, or the technique split",
                    "nothing is split in a cold injection onto the column");
        }
        fields.done();
        return batch;
    }

    private static List<String> allOf(Fields fields, String key) {
        final List<String> all = fields.texts(key);
        if (all.isEmpty()) {
            fields.wrong(fields.at(key), "nothing", "one or more labels", "");
        }
        return all;
    }

    private static <T> T moment(
            Fields fields, String key, Function<String, T> parse, T otherwise, String example) {
        final String text = fields.text(key);
        return parsed(text, parse)
                .orElseGet(
                        () -> {
                            if (!text.isEmpty()) {
                                fields.wrong(fields.at(key), text, "as in " + example, "");
                            }
                            return otherwise;
                        });
    }

    private static <T> Optional<T> parsed(String text, Function<String, T> parse) {
        try {
            return Optional.of(parse.apply(text));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
