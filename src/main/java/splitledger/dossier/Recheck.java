package splitledger.dossier;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.base.CodePoints;
import splitledger.base.MemoryVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.report.ReportWriter;
import splitledger.study.Evaluation;

/**
 * Checks a dossier years later: whether its files are what the manifest says, and whether the
 * copies of its inputs still give its results.
 *
 * @param writtenBy program that wrote the dossier
 * @param sameProgram whether this is that program, so that every byte must agree
 * @param digests files compared with the manifest
 * @param changed those that differ
 * @param recomputed names of the files that were made anew; empty if the inputs are not what they
 *     were
 * @param compared numbers and words compared, where bytes are not asked for
 * @param differences between the dossier and what was made anew
 * @param reworded texts that read otherwise in the other version; no difference of a result
 */
public record Recheck(
        ProgramVersion writtenBy,
        boolean sameProgram,
        int digests,
        List<Problem> changed,
        List<String> recomputed,
        int compared,
        List<Difference> differences,
        int reworded) {
    private static final String RESULTS = "results.csv";

    public Recheck {
        changed = List.copyOf(changed);
        recomputed = List.copyOf(recomputed);
        differences = List.copyOf(differences);
    }

    /**
     * One place where dossier and recomputation differ.
     *
     * @param place file, row and column, in words
     * @param dossier what stands in the dossier
     * @param anew what came out now
     */
    public record Difference(String place, String dossier, String anew) {}

    /** Evaluates the copies of a dossier's inputs again. */
    @FunctionalInterface
    public interface Again {
        /**
         * The evaluation anew.
         *
         * @param inputs the copies
         * @param protocols names of the protocols in there: one, or the two of a comparison
         * @param resultsCsv what {@code results.csv} of the dossier holds
         * @throws ProblemException if this program cannot evaluate them
         */
        Evaluation evaluate(Vault inputs, List<String> protocols, byte[] resultsCsv)
                throws ProblemException, IOException;
    }

    /** Whether everything agrees. */
    public boolean agrees() {
        return changed.isEmpty() && differences.isEmpty() && !recomputed.isEmpty();
    }

    /**
     * Checks.
     *
     * @param place the dossier's folder or archive
     * @param version this program
     * @param digits significant digits to which numbers of another version must agree
     * @param again how its inputs are evaluated
     * @throws ProblemException if there is no dossier, or its untouched inputs cannot be evaluated
     *     by this program
     */
    public static Recheck of(Path place, ProgramVersion version, int digits, Again again)
            throws ProblemException, IOException {
        try (OpenDossier dossier = OpenDossier.of(place)) {
            return of(dossier, place.toString(), version, digits, again);
        }
    }

    private static Recheck of(
            OpenDossier open, String place, ProgramVersion version, int digits, Again again)
            throws ProblemException, IOException {
        final Vault dossier = open.files();
        final Stated stated = open.stated();
        final List<Problem> inputs = stated.changedInputs(place, dossier);
        final List<Problem> changed = new ArrayList<>(inputs);
        changed.addAll(stated.changedOutputs(place, dossier));
        final boolean same = stated.version().equals(version);
        if (!inputs.isEmpty()) {
            return new Recheck(
                    stated.version(), same, stated.files(), changed, List.of(), 0, List.of(), 0);
        }
        final MemoryVault anew = new MemoryVault(new TreeMap<>());
        final byte[] results = dossier.exists(RESULTS) ? dossier.read(RESULTS) : new byte[0];
        ReportWriter.tables(
                again.evaluate(open.inputs(), stated.protocols(), results),
                anew,
                version.program());
        final Comparing comparing = new Comparing(digits);
        final SortedSet<String> names = new TreeSet<>(CodePoints.ORDER);
        names.addAll(stated.results().keySet());
        names.addAll(anew.files().keySet());
        for (String name : names) {
            compare(name, dossier, anew.files(), same, comparing);
        }
        return new Recheck(
                stated.version(),
                same,
                stated.files(),
                changed,
                List.copyOf(names),
                comparing.compared(),
                comparing.differences(),
                comparing.reworded());
    }

    private static void compare(
            String name, Vault dossier, Map<String, byte[]> anew, boolean same, Comparing comparing)
            throws IOException {
        final byte[] made = anew.getOrDefault(name, new byte[0]);
        final byte[] stood = dossier.exists(name) ? dossier.read(name) : new byte[0];
        if (Arrays.equals(stood, made)) {
            return;
        }
        if (stood.length == 0 || made.length == 0) {
            comparing.differs(
                    name,
                    stood.length == 0 ? "no such file" : "a file",
                    made.length == 0 ? "no such file" : "a file");
            return;
        }
        final Comparing own = same ? new Comparing(Comparing.EVERY_DIGIT) : comparing;
        final String before = new String(stood, StandardCharsets.UTF_8);
        final String after = new String(made, StandardCharsets.UTF_8);
        if (name.endsWith(".csv")) {
            own.csv(name, before, after);
        } else {
            own.json(name, before, after);
        }
        if (same) {
            own.differences().forEach(d -> comparing.differs(d.place(), d.dossier(), d.anew()));
            if (own.differences().isEmpty()) {
                comparing.differs(name, "other bytes", "the same numbers; texts or layout differ");
            }
        }
    }
}
