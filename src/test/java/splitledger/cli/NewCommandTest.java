package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;

/** From foreign tables to a first report: two commands and one edit. */
class NewCommandTest {
    /** A long export with headings of its own, and the bench's list of the same injections. */
    private static final String AREAS =
            """
            Sample ID,Component,Peak area [pA*s]
            a1,linalool,10.1
            a2,linalool,20.3
            a3,linalool,30.2
            a4,linalool,40.4
            a5,linalool,25.1
            a6,linalool,0
            """;

    private static final String RUNS =
            """
            Run,Type,Flask,Conc (mg/L),Operator
            a1,Calibration,K1,1,A
            a2,Calibration,K2,2,A
            a3,Calibration,K3,3,A
            a4,Calibration,K4,4,A
            a5,Sample,S1,,B
            a6,Blank,B1,,B
            """;

    @TempDir Path folder;

    private Path write(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    private Bench.Ran draft(String... tables) {
        final List<String> arguments =
                new ArrayList<>(List.of("new", "--out", protocol().toString()));
        for (String table : tables) {
            arguments.addAll(List.of("--from", folder.resolve(table).toString()));
        }
        return Bench.command(arguments.toArray(String[]::new));
    }

    private Path protocol() {
        return folder.resolve("protocol.yaml");
    }

    private Tree.Mapping read(Path file) throws IOException, ProblemException {
        return YamlReader.read(file.toString(), Files.readAllBytes(file));
    }

    /** The draft with these questions answered, by key; a key with an empty answer goes. */
    private void answer(Map<String, String> answers) throws IOException {
        final List<String> lines = new ArrayList<>();
        for (String line : Files.readAllLines(protocol())) {
            final int at = line.indexOf(": \"ASK ");
            if (at < 0) {
                lines.add(line);
                continue;
            }
            final String key = line.substring(0, at).strip();
            assertThat(answers).as("a question that nobody expected: " + line).containsKey(key);
            final String answer = String.valueOf(answers.get(key));
            if (!answer.isEmpty()) {
                lines.add(line.substring(0, at) + ": " + answer);
            }
        }
        Files.write(protocol(), lines);
    }

    private void smallStudy() throws IOException {
        write("areas.csv", AREAS);
        write("runs.csv", RUNS);
    }

    @Test
    void anExportWithSemicolonsDecimalCommasAndLinesAboveItsHeaderIsDrafted() throws IOException {
        write(
                "areas.csv",
                "Sequence export;;;\nMethod: oil;;;\n\n"
                        + AREAS.replace(',', ';').replace('.', ',').replace("\n", ";\n"));
        write("runs.csv", RUNS);

        final Bench.Ran drafted = draft("areas.csv", "runs.csv");

        assertThat(drafted.exit()).as(drafted.err()).isZero();
        assertThat(Files.readString(protocol()))
                .contains("injection: Sample ID")
                .contains("compound: Component");
    }

    @Test
    void foreignTablesComeToAReportWithTwoCommandsAndOneEdit() throws IOException {
        smallStudy();

        final Bench.Ran drafted = draft("areas.csv", "runs.csv");

        assertThat(drafted.exit()).as(drafted.err()).isZero();
        assertThat(drafted.err()).isEmpty();
        answer(
                Map.of(
                        "zero-means", "not-detected",
                        "requirements", "",
                        "unit", "mg/L",
                        "R", "not-corrected"));
        final Path dossier = folder.resolve("dossier");
        final Bench.Ran evaluated =
                Bench.command(
                        "evaluate", "--no-pdf", protocol().toString(), "--out", dossier.toString());
        assertThat(evaluated.exit()).as(evaluated.err()).isZero();
        assertThat(dossier.resolve("report.html")).isNotEmptyFile();
        assertThat(Bench.rows(dossier.resolve("results.csv")))
                .anySatisfy(row -> assertThat(row).contains("linalool", "slope", "estimable"))
                .anySatisfy(row -> assertThat(row).contains("linalool", "result", "estimable"));
    }

    @Test
    void headingsAreMappedAndUnitsTakenFromThem() throws IOException, ProblemException {
        smallStudy();
        draft("areas.csv", "runs.csv");

        final Tree.Mapping draft = read(protocol());

        final Tree.Sequence tables = (Tree.Sequence) draft.get("tables").orElseThrow();
        final Tree.Mapping areas = (Tree.Mapping) tables.items().get(0);
        final Tree.Mapping runs = (Tree.Mapping) tables.items().get(1);
        assertThat(columns(areas))
                .containsExactlyInAnyOrderEntriesOf(
                        Map.of(
                                "injection", "Sample ID",
                                "compound", "Component",
                                "area", "Peak area [pA*s]"));
        assertThat(columns(runs))
                .containsExactlyInAnyOrderEntriesOf(
                        Map.of(
                                "injection", "Run",
                                "series", "Type",
                                "preparation", "Flask",
                                "amount", "Conc (mg/L)",
                                "analyst", "Operator"));
        assertThat(runs.texts("joins-on")).containsExactly("injection");
        assertThat(draft.mapping("conventions").text("amount-unit")).contains("mg/L");
        assertThat(draft.mapping("conventions").text("area-unit")).contains("pA*s");
    }

    @Test
    void theFlowerOilDraftSaysWhatTheWrittenProtocolSays() throws IOException, ProblemException {
        for (String name : List.of("areas.csv", "run-list.csv", "levels.csv")) {
            Files.copy(Path.of("datasets/flower-oil", name), folder.resolve(name));
        }
        Files.copy(Path.of("shared/compounds.csv"), folder.resolve("compounds.csv"));
        // in an order that gives nothing away
        final Bench.Ran ran = draft("levels.csv", "run-list.csv", "compounds.csv", "areas.csv");
        assertThat(ran.exit()).as(ran.err()).isZero();

        final Tree.Mapping draft = read(protocol());
        final Tree.Mapping written = read(Path.of("protocols/flower-oil/protocol.yaml"));

        final Map<String, Tree.Mapping> drafted = tables(draft);
        final Map<String, Tree.Mapping> known = tables(written);
        assertThat(drafted.keySet()).isEqualTo(known.keySet());
        known.forEach(
                (file, table) -> {
                    final Tree.Mapping mine = drafted.getOrDefault(file, Tree.Mapping.EMPTY);
                    assertThat(columns(mine)).as(file).isEqualTo(columns(table));
                    assertThat(mine.texts("joins-on")).as(file).isEqualTo(table.texts("joins-on"));
                    assertThat(mine.text("form")).as(file).isEqualTo(table.text("form"));
                });
        assertThat(draft.mapping("compounds").texts("targets"))
                .isEqualTo(written.mapping("compounds").texts("targets"));
        for (String id : List.of("calibration", "repeatability", "detection")) {
            final Tree.Mapping mine = draft.mapping("characteristics").mapping(id);
            final Tree.Mapping theirs = written.mapping("characteristics").mapping(id);
            assertThat(mine.mapping("where").texts("series"))
                    .as(id)
                    .isEqualTo(theirs.mapping("where").texts("series"));
            assertThat(mine.texts("factors")).as(id).isEqualTo(theirs.texts("factors"));
        }
        assertThat(draft.mapping("measurand").mapping("results-for").texts("series"))
                .containsExactly("sample");
        assertThat(draft.mapping("compounds").text("internal-standard").orElse(""))
                .startsWith("ASK ")
                .contains("n-C14");
    }

    @Test
    void whatOnlyTheLaboratoryKnowsIsAskedAndNothingIsEvaluatedBefore() throws IOException {
        write(
                "areas.csv",
                """
                injection,compound,area,series,amount,split_ratio
                i1,c,0,calibration,1,50
                i2,c,2,calibration,2,50
                i3,c,3,sample,,50
                """);
        assertThat(draft("areas.csv").exit()).isZero();

        for (String command : List.of("check", "evaluate")) {
            final List<String> arguments = new ArrayList<>(List.of(command, protocol().toString()));
            if (command.equals("evaluate")) {
                arguments.addAll(List.of("--out", folder.resolve("d").toString()));
            }
            final Bench.Ran ran = Bench.command(arguments.toArray(String[]::new));

            assertThat(ran.exit()).as(command).isEqualTo(2);
            assertThat(ran.err())
                    .contains("'tables.1.zero-means': found an open question")
                    .contains("'conventions.split-ratio': found an open question")
                    .contains("'conventions.preparation': found an open question")
                    .contains("'measurand.inputs.R': found an open question")
                    .contains("'requirements': found an open question")
                    .contains("expected your answer")
                    .doesNotContain("found 'ASK", "only tables that join");
        }
        assertThat(folder.resolve("d")).doesNotExist();
    }

    @Test
    void aFileThatIsThereIsReplacedOnlyWhenAsked() throws IOException {
        smallStudy();
        write("protocol.yaml", "mine\n");

        final Bench.Ran refused = draft("areas.csv", "runs.csv");

        assertThat(refused.exit()).isEqualTo(2);
        assertThat(refused.err()).contains("protocol.yaml", "--replace");
        assertThat(protocol()).hasContent("mine");
        assertThat(folder.resolve("protocol.schema.json")).doesNotExist();
        final Bench.Ran replaced =
                Bench.command(
                        "new",
                        "--replace",
                        "--out",
                        protocol().toString(),
                        "--from",
                        folder.resolve("areas.csv").toString(),
                        folder.resolve("runs.csv").toString());
        assertThat(replaced.exit()).as(replaced.err()).isZero();
        assertThat(protocol()).content().contains("splitledger: 1");
    }

    @Test
    void theSchemaLiesBesideTheDraftAndTheFirstLinePointsToIt() throws IOException {
        smallStudy();
        write("protocol.schema.json", "{}");

        final Bench.Ran ran = draft("areas.csv", "runs.csv");

        assertThat(ran.out()).contains("protocol.schema.json is there already and was kept");
        assertThat(folder.resolve("protocol.schema.json")).hasContent("{}");
        Files.delete(folder.resolve("protocol.schema.json"));
        Files.delete(protocol());
        draft("areas.csv", "runs.csv");
        assertThat(Files.readAllLines(protocol()).get(0))
                .isEqualTo("# yaml-language-server: $schema=protocol.schema.json");
        assertThat(folder.resolve("protocol.schema.json"))
                .hasSameBinaryContentAs(Path.of("protocols/protocol.schema.json"));
    }

    @Test
    void injectionsThatNoColumnTellsApartAreAskedForWithThePairThatWould() throws IOException {
        write(
                "areas.csv",
                """
                Batch,Sample,Type,Component,Area
                1,5,Calibration,c,10
                1,7,Calibration,c,14
                2,5,Calibration,c,11
                2,7,Calibration,c,15
                """);

        final Bench.Ran ran = draft("areas.csv");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out()).contains("a different label for each injection");
        assertThat(protocol())
                .content()
                .contains("'Batch' and 'Sample' together")
                .contains("injection: \"ASK ")
                .contains("calibration:\n    where: {series: Calibration}");
    }

    @Test
    void theDraftTellsWhatTheTablesAllowAndWhatIsMissing() throws IOException {
        smallStudy();

        final Bench.Ran ran = draft("areas.csv", "runs.csv");

        assertThat(ran.out())
                .contains("calibration: 4 injections of 4 preparations")
                .contains("4 levels; 5 are wanted")
                .contains("1 blank injection; 10 are wanted");
        final String unwrapped = Files.readString(protocol()).replaceAll("\n *# ", " ");
        assertThat(unwrapped)
                .contains("4 levels; 5 are wanted")
                .contains("repeatability: no series of the tables looks as if it were for it.")
                .contains("It needs 6 independent preparations");
    }

    @Test
    void tablesThatDoNotFitTogetherAreToldInTheDraft() throws IOException {
        write("areas.csv", AREAS);
        write("runs.csv", RUNS.replace("a6,", "b6,"));

        final Bench.Ran ran = draft("areas.csv", "runs.csv");

        assertThat(ran.exit()).isZero();
        assertThat(ran.out()).contains("cannot be read like this yet", "a6");
        assertThat(Files.readString(protocol()).replaceAll("\n *# ", " "))
                .contains("1 injections of the areas are not in it")
                .contains("unmatched: ignore");
    }

    @Test
    void cellsCannotBreakOutOfCommentsOrTexts() throws IOException, ProblemException {
        write(
                "areas.csv",
                """
                injection,compound,area,"type
                evil: 1"
                i1,"a: b # c, [d]",1,"cal
                evil: 2"
                i2,"a: b # c, [d]",2,"cal"
                """);

        final Bench.Ran ran = draft("areas.csv");

        assertThat(ran.exit()).as(ran.err()).isZero();
        final Tree.Mapping draft = read(protocol());
        assertThat(draft.get("evil")).isEmpty();
        final Tree.Sequence tables = (Tree.Sequence) draft.get("tables").orElseThrow();
        assertThat(columns((Tree.Mapping) tables.items().get(0)))
                .containsEntry("series", "type\nevil: 1");
        assertThat(draft.mapping("compounds").texts("targets")).containsExactly("a: b # c, [d]");
    }

    @Test
    void tablesWithoutAreasAndTablesThatAreNotThereAreRefused() throws IOException {
        write("notes.csv", "who,what\nA,liner\n");

        final Bench.Ran none = draft("notes.csv");
        final Bench.Ran lost = draft("lost.csv", "gone.csv");

        assertThat(none.exit()).isEqualTo(2);
        assertThat(none.err()).contains("notes.csv", "no table of areas");
        assertThat(lost.exit()).isEqualTo(2);
        assertThat(lost.err()).contains("lost.csv", "gone.csv", "no such file");
        assertThat(protocol()).doesNotExist();
    }

    private static Map<String, Tree.Mapping> tables(Tree.Mapping protocol) {
        final Map<String, Tree.Mapping> tables = new TreeMap<>();
        final Tree.Sequence sequence = (Tree.Sequence) protocol.get("tables").orElseThrow();
        for (Tree item : sequence.items()) {
            final Tree.Mapping table = (Tree.Mapping) item;
            final String file = table.text("file").orElseThrow();
            tables.put(file.substring(file.lastIndexOf('/') + 1), table);
        }
        return tables;
    }

    private static Map<String, String> columns(Tree.Mapping table) {
        final Map<String, String> columns = new TreeMap<>();
        table.mapping("columns")
                .entries()
                .forEach((name, heading) -> columns.put(name, ((Tree.Scalar) heading).text()));
        return columns;
    }
}
