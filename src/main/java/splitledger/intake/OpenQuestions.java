package splitledger.intake;

import java.util.regex.Pattern;
import splitledger.study.Tree;

/**
 * Questions that a drafted protocol leaves: a value that begins with the word ASK. What only the
 * laboratory can know is never guessed, so a protocol is not evaluated before each has its answer.
 */
final class OpenQuestions {
    private static final Pattern ASK =
            Pattern.compile("ASK(?![\\p{L}\\p{Nd}_-]).*", Pattern.DOTALL);

    private OpenQuestions() {}

    /** Whether a part of the protocol is a question. */
    static boolean isOne(Tree tree) {
        return tree instanceof Tree.Scalar scalar && ASK.matcher(scalar.text().strip()).matches();
    }

    /** Makes a problem of every question, in the order of the file. */
    static void tell(Tree tree, Reading reading) {
        if (tree instanceof Tree.Mapping mapping) {
            mapping.entries().values().forEach(t -> tell(t, reading));
        } else if (tree instanceof Tree.Sequence sequence) {
            sequence.items().forEach(t -> tell(t, reading));
        } else if (isOne(tree)) {
            final String question =
                    ((Tree.Scalar) tree).text().strip().substring("ASK".length()).strip();
            reading.problem(
                    tree.place(),
                    question.isEmpty() ? "an open question" : "an open question: " + question,
                    "your answer",
                    "write it in place of the text that begins with ASK; the lines above it in the"
                            + " protocol say more");
        }
    }
}
