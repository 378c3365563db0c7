package splitledger.spark;

import java.io.IOException;
import java.util.Optional;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.dossier.DossierWriter;
import splitledger.dossier.DossierWriter.Standing;
import splitledger.dossier.Dossiers;
import splitledger.dossier.ProgramVersion;
import splitledger.dossier.Shelf;
import splitledger.study.Evaluation;

/**
 * A folder of dossiers on any file system that Hadoop knows. A dossier is written aside and moved;
 * its manifest is written last, so that even where a move is a copy, what is not whole is no
 * dossier.
 *
 * <p>Work on a study may be done twice, if the machine that did it was lost. What stands under a
 * name that was free when the run began is from such an earlier attempt, and is replaced by the
 * same bytes.
 */
final class HadoopDossiers implements Dossiers {
    private final FileSystem files;
    private final Path root;
    private final ProgramVersion version;
    private final Rules rules;
    private final String aside;

    /**
     * What may be done.
     *
     * @param replace whether a dossier that is there may be replaced
     * @param pdf whether the report is set on paper too
     * @param wasThere whether something stood under the name when the run began
     */
    record Rules(boolean replace, boolean pdf, boolean wasThere) {}

    /**
     * A folder.
     *
     * @param aside name of the folder, unique to this attempt, that a dossier is written into first
     */
    HadoopDossiers(FileSystem files, Path root, ProgramVersion version, Rules rules, String aside) {
        this.files = files;
        this.root = files.makeQualified(root);
        this.version = version;
        this.rules = rules;
        this.aside = aside;
    }

    @Override
    public void check(String name) throws ProblemException, IOException {
        final Path target = new Path(root, name);
        if (rules.wasThere()) {
            DossierWriter.check(target.toString(), standing(target), rules.replace());
        }
    }

    private Standing standing(Path target) throws IOException {
        if (!files.exists(target)) {
            return Standing.FREE;
        }
        final FileStatus[] inside = files.listStatus(target);
        if (files.getFileStatus(target).isFile()) {
            return Standing.FILE;
        }
        if (inside.length == 0) {
            return Standing.FREE;
        }
        final boolean dossier = files.exists(new Path(target, DossierWriter.MANIFEST));
        return dossier ? Standing.DOSSIER : Standing.OTHER;
    }

    @Override
    public String write(Evaluation evaluation, Vault inputs, String name) throws IOException {
        final Path made = new Path(root, aside);
        try {
            final String digest =
                    new DossierWriter(version)
                            .withPdf(rules.pdf())
                            .fill(evaluation, inputs, new HadoopVault(files, made));
            moveInto(files, made, new Path(root, name));
            return digest;
        } finally {
            files.delete(made, true);
        }
    }

    /**
     * Puts what was made aside into its place, instead of what may be there.
     *
     * @throws IOException if it cannot be moved; then what was there is there again
     */
    static void moveInto(FileSystem files, Path made, Path target) throws IOException {
        final Path old = new Path(target.getParent(), made.getName() + "-old");
        final boolean replaced = files.exists(target);
        if (replaced && !files.rename(target, old)) {
            throw new IOException("'" + target + "' cannot be replaced");
        }
        final boolean moved = files.rename(made, target);
        if (!moved && replaced && !files.exists(target)) {
            files.rename(old, target);
        }
        // where two attempts end at once, the later is moved into the folder of the earlier
        files.delete(new Path(target, made.getName()), true);
        files.delete(old, true);
        if (!moved) {
            throw new IOException("'" + target + "' cannot be moved into place");
        }
    }

    @Override
    public Optional<Shelf.Kept> kept(Vault inputs, String protocol, String name)
            throws IOException {
        final Path target = new Path(root, name);
        return rules.wasThere() && standing(target) == Standing.DOSSIER
                ? Shelf.kept(version, new HadoopVault(files, target), inputs, protocol)
                : Optional.empty();
    }
}
