package splitledger.intake;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import splitledger.base.Digests;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.study.Compounds;
import splitledger.study.InjectionTable;
import splitledger.study.InputFile;
import splitledger.study.Place;
import splitledger.study.Protocol;
import splitledger.study.Standards;
import splitledger.study.Study;
import splitledger.study.Tree;

/** Reads a protocol and everything it names. */
public final class StudyReader {
    private final Vault vault;
    private final String protocolName;
    private final ProtocolSchema schema;
    private final Reading reading = new Reading();
    private Optional<InjectionTable> everything = Optional.empty();

    private StudyReader(Vault vault, String protocolName, ProtocolSchema schema) {
        this.vault = vault;
        this.protocolName = protocolName;
        this.schema = schema;
    }

    /**
     * Reads a study.
     *
     * @param vault holds the protocol and the files it names
     * @param protocolName name of the protocol in the vault
     * @return the study, its exclusions already taken out of the table
     * @throws ProblemException with everything that is wrong with protocol and tables
     * @throws IOException if a file that is there cannot be read
     * @throws IllegalStateException if the program was built without its schema
     */
    public static Study read(Vault vault, String protocolName)
            throws ProblemException, IOException {
        return new StudyReader(vault, protocolName, ProtocolSchema.shipped()).read();
    }

    /** The same with a schema that is given. */
    static Study read(Vault vault, String protocolName, JsonNode schema)
            throws ProblemException, IOException {
        return new StudyReader(vault, protocolName, ProtocolSchema.of(schema)).read();
    }

    private Study read() throws ProblemException, IOException {
        final Tree.Mapping tree = protocolTree();
        OpenQuestions.tell(tree, reading);
        schema.check(tree, reading);
        final InputFolder folder = new InputFolder(vault, protocolName, reading);
        final Candidates candidates = new CompoundsReader(tree, folder, reading).read();
        final Wanted wanted = Wanted.of(tree, schema, reading);
        final List<TableSpec> specs = TableSpec.all(tree, reading);
        requireParts(tree, specs);
        final List<RawTable> tables = new ArrayList<>();
        final UnitTargets units = new UnitTargets(tree, candidates, reading);
        for (TableSpec spec : specs) {
            TableReader.read(spec, folder, candidates, wanted, units, reading)
                    .ifPresent(tables::add);
        }
        units.tellUnstated();
        final Protocol protocol = new ProtocolReader(tree, candidates, units, reading).read();
        final Optional<Standards> standards = StandardsReader.read(tree, folder, reading);
        final boolean allRead =
                tables.size() == specs.size() && !reading.touched(tablesPlace(tree));
        final StudyChecks checks = new StudyChecks(tree, reading);
        checks.splitRatio(tables);
        if (!allRead) {
            reading.throwIfAny();
        }
        final Set<String> columns = columns(tables);
        if (!tables.isEmpty()) {
            checks.columns(wanted, columns);
            checks.preparations(columns);
        }
        final List<RawTable> areas = tables.stream().filter(t -> t.spec().hasAreas()).toList();
        final Compounds compounds = compounds(candidates, areas);
        final InjectionTable joined = table(tree, protocol, areas, tables, compounds, checks);
        reading.throwIfAny();
        final InjectionTable table =
                standards
                        .map(s -> new StandardsTable(s, protocol, reading).applied(joined))
                        .orElse(joined);
        reading.throwIfAny();
        StudyChecks.tellGaps(table, reading);
        Integrity.tell(table, reading);
        return new Study(
                protocol,
                compounds,
                table,
                reading.inputs(),
                reading.flags(),
                reading.choices(),
                standards,
                everything);
    }

    private Tree.Mapping protocolTree() throws ProblemException, IOException {
        if (!vault.exists(protocolName)) {
            throw new ProblemException(
                    new Problem(
                            protocolName,
                            0,
                            "",
                            "no such file",
                            "a protocol that can be read",
                            "check name and folder"));
        }
        final byte[] bytes = vault.read(protocolName);
        reading.input(new InputFile("protocol", protocolName, protocolName, Digests.sha256(bytes)));
        return YamlReader.read(protocolName, bytes);
    }

    /** What must be there before tables mean anything. */
    private void requireParts(Tree.Mapping tree, List<TableSpec> specs) {
        final boolean budgetOnly =
                tree.text("purpose").orElse("").equals("budget")
                        && tree.mapping("characteristics").entries().isEmpty();
        if (tree.get("tables").isEmpty() && !budgetOnly) {
            tell(
                    tree,
                    "no key 'tables'",
                    "the tables of injections",
                    "add tables, each with its file");
        }
        if (tree.get("compounds").isEmpty() && !(budgetOnly && specs.isEmpty())) {
            tell(
                    tree,
                    "no key 'compounds'",
                    "the compounds of the study",
                    "add compounds with targets");
        }
        if (!specs.isEmpty()
                && specs.stream().noneMatch(TableSpec::hasAreas)
                && !reading.touched(tablesPlace(tree))) {
            reading.problem(
                    tablesPlace(tree),
                    "only tables that join",
                    "at least one table of areas",
                    "add the table of areas, or take joins-on out of it");
        }
    }

    private void tell(Tree.Mapping tree, String found, String expected, String hint) {
        reading.problem(tree.place(), found, expected, hint);
    }

    private static Place tablesPlace(Tree.Mapping tree) {
        return tree.get("tables")
                .map(Tree::place)
                .orElse(new Place(tree.place().file(), 0, "tables"));
    }

    private static Set<String> columns(List<RawTable> tables) {
        final Set<String> columns = new TreeSet<>();
        tables.forEach(t -> columns.addAll(t.columns()));
        return columns;
    }

    private Compounds compounds(Candidates candidates, List<RawTable> areas) {
        final Set<String> present = Assembly.present(areas);
        if (!areas.isEmpty()) {
            CompoundChecks.present(candidates, present, areas, reading);
        }
        return candidates.among(present);
    }

    private InjectionTable table(
            Tree.Mapping tree,
            Protocol protocol,
            List<RawTable> areas,
            List<RawTable> tables,
            Compounds compounds,
            StudyChecks checks)
            throws ProblemException {
        if (areas.isEmpty()) {
            return new Frame(List.of(), List.of(), List.of()).table(Optional.empty());
        }
        final Frame frame = Assembly.of(areas, compounds, reading);
        final boolean joined = Joining.joinAll(frame, tables, reading);
        applyPreparation(tree, frame);
        checks.exclusions(protocol.exclusions(), frame);
        final InjectionTable table = frame.table(kept(protocol.exclusions(), frame));
        if (!protocol.exclusions().isEmpty()) {
            everything = Optional.of(frame.table(Optional.empty()));
        }
        if (joined) {
            checks.wheres(schema, table);
        }
        return table;
    }

    private void applyPreparation(Tree.Mapping tree, Frame frame) {
        final Optional<String> stated = tree.mapping("conventions").text("preparation");
        if (stated.isPresent() && !frame.has(Columns.PREPARATION)) {
            frame.eachInjectionPrepared();
            reading.choice(
                    "every injection is a preparation of its own",
                    "conventions say preparation: each-injection",
                    "as stated in the protocol");
        }
    }

    private static Optional<IntPredicate> kept(List<Protocol.Exclusion> exclusions, Frame frame) {
        final Set<String> whole = new TreeSet<>();
        final Set<List<String>> single = new java.util.HashSet<>();
        for (Protocol.Exclusion e : exclusions) {
            if (e.compound().equals("all")) {
                whole.add(e.injection());
            } else {
                single.add(List.of(e.injection(), e.compound()));
            }
        }
        if (exclusions.isEmpty()) {
            return Optional.empty();
        }
        final Frame.Column injections = frame.labels(Columns.INJECTION);
        final Frame.Column compounds = frame.labels(Columns.COMPOUND);
        return Optional.of(
                row ->
                        !whole.contains(injections.at(row))
                                && (single.isEmpty()
                                        || !single.contains(
                                                List.of(injections.at(row), compounds.at(row)))));
    }
}
