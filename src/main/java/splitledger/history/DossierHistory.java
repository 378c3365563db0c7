package splitledger.history;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.dossier.DossierContents;
import splitledger.dossier.DossiersBelow;
import splitledger.study.Protocol;
import splitledger.study.Study;

/** The past of instruments out of all dossiers below a folder, archives of dossiers too. */
public final class DossierHistory implements HistorySource {
    private static final String MANIFEST = "manifest.json";

    private final DossiersBelow dossiers;
    private final List<History.Dated> studies = new ArrayList<>();
    private final List<DatedValue> values = new ArrayList<>();
    private final Set<History.Work> works = new LinkedHashSet<>();
    private final List<History.LeftOut> leftOut = new ArrayList<>();
    private final Map<String, String> seen = new LinkedHashMap<>();

    /** Of all dossiers below a folder. */
    public DossierHistory(DossiersBelow dossiers) {
        this.dossiers = dossiers;
    }

    @Override
    public History read() throws ProblemException, IOException {
        for (String name : dossiers.names()) {
            try {
                take(name, dossiers.contents(name));
            } catch (ProblemException e) {
                leave(name, e.problems().get(0), e.problems().size());
            }
        }
        if (studies.isEmpty()) {
            throw new ProblemException(nothing());
        }
        return new History(studies, values, List.copyOf(works), leftOut);
    }

    private List<Problem> nothing() {
        final List<Problem> problems = new ArrayList<>();
        problems.add(
                new Problem(
                        dossiers.folder(),
                        0,
                        "",
                        leftOut.isEmpty() ? "no dossier" : "no dossier that can be used",
                        "dossiers of studies with instrument id and time",
                        "name the folder below which 'splitledger evaluate --out' has written"));
        leftOut.forEach(
                l -> problems.add(new Problem(l.what(), 0, "", l.why(), "a dossier to use", "")));
        return problems;
    }

    private void leave(String name, Problem first, int problems) {
        final boolean comparison = first.found().matches("\\d+ protocols");
        final String where =
                first.file().equals(name) || first.file().startsWith(name + "/" + MANIFEST)
                        ? ""
                        : first.file().replace(name + "/", "") + ": ";
        leftOut.add(
                new History.LeftOut(
                        name,
                        comparison
                                ? "holds " + first.found() + ", not one study"
                                : where
                                        + "found "
                                        + first.found()
                                        + ", expected "
                                        + first.expected()
                                        + (problems > 1 ? ", and " + (problems - 1) + " more" : ""),
                        !comparison));
    }

    private void take(String name, DossierContents contents) {
        final Study study = contents.study();
        final String id = study.protocol().instrument().getOrDefault("id", "").strip();
        final String twin = seen.getOrDefault(contents.studyDigest(), "");
        final Optional<StudyTime> time = StudyTime.of(study);
        if (!twin.isEmpty()) {
            leftOut.add(new History.LeftOut(name, "the same study as " + twin, false));
        } else if (id.isEmpty()) {
            leftOut.add(new History.LeftOut(name, "its protocol states no instrument id", false));
        } else if (time.isEmpty()) {
            leftOut.add(
                    new History.LeftOut(
                            name,
                            "it tells no time: no column 'acquired', no date in the protocol",
                            false));
        } else {
            seen.put(contents.studyDigest(), name);
            add(name, id, time.get(), contents);
        }
    }

    private void add(String name, String id, StudyTime time, DossierContents contents) {
        studies.add(new History.Dated(name, id, time.text(), time.from()));
        values.addAll(ResultRows.of(contents.results(), id, time.text(), name));
        StandardAreas.of(contents.study())
                .ifPresent(
                        a ->
                                values.addAll(
                                        ResultRows.areas(
                                                a, contents.study(), id, time.text(), name)));
        for (Protocol.Event event : contents.study().protocol().events()) {
            if (StudyTime.days(event.date()).isPresent()) {
                works.add(new History.Work(id, event.date(), event.what()));
            } else {
                leftOut.add(
                        new History.LeftOut(
                                name,
                                "work on the "
                                        + event.what()
                                        + ": its date '"
                                        + event.date()
                                        + "' is no ISO 8601 date",
                                false));
            }
        }
    }
}
