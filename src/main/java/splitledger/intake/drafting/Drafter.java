package splitledger.intake.drafting;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.intake.Sheet;

/** Drafts a protocol from tables of which nothing is known yet. */
public final class Drafter {
    private final Facts facts;
    private final Offered offered;
    private final String schema;

    private Drafter(Facts facts, Offered offered, String schema) {
        this.facts = facts;
        this.offered = offered;
        this.schema = schema;
    }

    /**
     * Drafts a protocol.
     *
     * @param sheets the tables
     * @param schema name of the protocol's schema, relative to the protocol, for editors
     * @throws ProblemException if no table seems to hold areas
     */
    public static Draft draft(List<Sheet> sheets, String schema) throws ProblemException {
        final List<TableGuess> tables = TableGuesser.guess(sheets);
        if (tables.stream().noneMatch(TableGuess::hasAreas)) {
            throw new ProblemException(
                    new Problem(
                            sheets.get(0).file(),
                            1,
                            "",
                            "no table of areas",
                            "columns named compound and area, or a column of numbers for each"
                                    + " compound",
                            "name the table of areas with --from; give its columns headings that say"
                                    + " what they hold"));
        }
        final Facts facts = Facts.of(tables);
        final boolean readable =
                tables.stream()
                        .filter(TableGuess::hasAreas)
                        .allMatch(t -> t.column("injection").isPresent());
        final Drafter drafter = new Drafter(facts, Offered.shipped(), schema);
        return new Draft(drafter::page, readable);
    }

    private Page page(boolean trial, Map<String, List<String>> remarks) {
        final Page page = new Page(trial);
        head(page);
        new TableLines(facts).write(page);
        remarks.getOrDefault("tables", List.of()).forEach(r -> page.note(0, r));
        page.gap();
        new CompoundLines(facts).write(page);
        page.gap();
        conventions(page);
        final CharacteristicLines characteristics = new CharacteristicLines(facts, offered);
        characteristics.write(page, remarks);
        page.gap();
        requirements(page);
        characteristics.writeResults(page, remarks);
        page.gap();
        tail(page);
        return page;
    }

    private void head(Page page) {
        final String names =
                facts.tables().stream()
                        .map(t -> t.sheet().file())
                        .collect(Collectors.joining(", "));
        page.line(0, "# yaml-language-server: $schema=" + schema)
                .note(0, "Drafted from " + names + ". Nothing has been evaluated.")
                .note(
                        0,
                        "A value that begins with ASK is a question that only you can answer: write the"
                                + " answer in its place. What was guessed has its reason above it or"
                                + " beside it: read it, and change what is wrong. Then run 'check' on"
                                + " this file, and 'evaluate'.")
                .line(0, "splitledger: 1")
                .put(0, "title", "Study of " + facts.tables().get(0).sheet().file())
                .line(0, "laboratory: {name: \"\", prepared-by: \"\", reviewed-by: \"\"}")
                .line(0, "instrument: {id: \"\", detector: \"\", gas: \"\", column: \"\"}")
                .gap();
    }

    private void conventions(Page page) {
        page.line(0, "conventions:")
                .note(
                        1,
                        "Write daily, if the calibration was made anew on each day of the precision"
                                + " study.")
                .line(1, "recalibrated: once");
        facts.holder("split_ratio")
                .flatMap(t -> t.column("split_ratio"))
                .ifPresent(
                        c ->
                                page.note(
                                                1,
                                                "The column '"
                                                        + c.heading()
                                                        + "' holds "
                                                        + listed(c)
                                                        + ". The two ways to write a split ratio"
                                                        + " differ by exactly 1.")
                                        .ask(
                                                1,
                                                "split-ratio",
                                                "which ratio is in the table: total-to-column,"
                                                        + " which is (vent + column flow)/column"
                                                        + " flow, or vent-to-column, which is vent"
                                                        + " flow/column flow?",
                                                "total-to-column"));
        if (!facts.has("preparation")) {
            page.note(
                            1,
                            "No column says which injections are of one independently made solution."
                                    + " Repeated injections of one flask are no independent"
                                    + " standards.")
                    .ask(
                            1,
                            "preparation",
                            "was every injection of a solution made for it alone? If so:"
                                    + " each-injection. If not: take this line out and name the"
                                    + " column of flasks at its table (columns, preparation)",
                            "each-injection");
        }
        units(page);
        page.gap();
    }

    private void units(Page page) {
        if (facts.hasAmounts()) {
            final String unit = unit("amount");
            if (unit.isEmpty()) {
                page.ask(1, "amount-unit", "in which unit are the amounts, such as mg/L?", "mg/L");
            } else {
                page.note(1, "The unit stands in the heading.").put(1, "amount-unit", unit);
            }
        }
        final String area = unit("area");
        if (!area.isEmpty()) {
            page.put(1, "area-unit", area);
        }
    }

    private String unit(String name) {
        return facts.holder(name).flatMap(t -> t.column(name)).map(Column::unit).orElse("");
    }

    private static void requirements(Page page) {
        page.note(0, "Limits stand here and nowhere else, each with the document that sets it:")
                .example(0, "- {quantity: rsd-repeatability, at-most: 2 %,")
                .example(0, "   source: our procedure 12 ed. 3, set: 2026-02-10}")
                .ask(
                        0,
                        "requirements",
                        "which limits must be met, and which document sets them? Without any, take"
                                + " this line out: everything is then reported for information",
                        "");
    }

    private static void tail(Page page) {
        page.note(0, "Injections left out on purpose, and what was done to the instrument:")
                .example(0, "exclusions:")
                .example(0, "  - {injection: \"0012\", compound: all, reason: vial not crimped,")
                .example(0, "     who: your name}")
                .example(0, "events:")
                .example(0, "  - {date: 2026-03-04, what: liner}");
    }

    /** The first labels of a column, and how many more there are. */
    static String listed(Column column) {
        return listed(List.copyOf(column.counts().keySet()));
    }

    /** The first names of a list, and how many more there are. */
    static String listed(List<String> names) {
        final int shown = Math.min(8, names.size());
        final String first = String.join(", ", names.subList(0, shown));
        return names.size() == shown ? first : first + " and " + (names.size() - shown) + " more";
    }
}
