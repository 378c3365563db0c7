package splitledger.planning;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;
import splitledger.study.Tree;
import splitledger.virtual.Design;
import splitledger.virtual.DesignReader;

/** A kind of laboratory whose studies are simulated. */
public enum Scenario {
    GOOD("good", "a laboratory in good order"),
    NOISY("noisy", "four times the scatter everywhere"),
    FEW_REPLICATES("few-replicates", "two preparations a level, three days, two blanks"),
    HETEROSCEDASTIC("heteroscedastic", "constant and proportional scatter over three decades"),
    UNBALANCED("unbalanced", "preparations and injections are missing at random"),
    CROSSED("crossed", "days, analysts and instruments crossed, each with its own effect"),
    CENSORED("censored", "the integrator's threshold hides small peaks"),
    WRONG_CONVENTION("wrong-convention", "the table holds vent to column, the protocol says total"),
    RECOVERY(
            "recovery",
            "spikes on three days, and solutions injected both split and on the column"),
    HOT_INLET("hot-inlet", "a labile compound at six inlet temperatures, and a ladder"),
    TWO_OCCASIONS("two-occasions", "the same ladder before and after a new liner");

    private final String id;
    private final String words;

    Scenario(String id, String words) {
        this.id = id;
        this.words = words;
    }

    /** The name in files. */
    public String id() {
        return id;
    }

    /** What is the matter, in words. */
    public String words() {
        return words;
    }

    /** The scenario of a name. */
    public static Scenario of(String id) {
        for (Scenario scenario : values()) {
            if (scenario.id.equals(id)) {
                return scenario;
            }
        }
        throw new IllegalArgumentException("scenario = " + id + ", is none of ours");
    }

    /**
     * Its design: that of the laboratory in good order with what its own file says instead.
     *
     * @throws IllegalStateException if the program was built without it
     */
    public Design design() {
        try {
            final Tree.Mapping good = tree(GOOD.id);
            final Tree.Mapping own = this == GOOD ? good : good.with(tree(id));
            return DesignReader.read(fileOf(id), own);
        } catch (ProblemException e) {
            throw new IllegalStateException("the design " + fileOf(id) + " is wrong", e);
        }
    }

    private static Tree.Mapping tree(String id) throws ProblemException {
        final String name = fileOf(id);
        try (InputStream in = Scenario.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + name + " is missing");
            }
            return YamlReader.read(name, in.readAllBytes());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String fileOf(String id) {
        return id + ".yaml";
    }
}
