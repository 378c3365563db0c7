package splitledger.qualification;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;
import splitledger.qualification.Qualification.Outcome;

/** The outcomes of a qualification as a page in Markdown: how many digits each case reaches. */
public final class AccuracyTable {
    private static final String LEAD =
            """
            # Accuracy

            Every case of `splitledger qualify`: what was computed, what is published or was worked by hand, and in how many
            decimal digits both agree (minus the decimal logarithm of the relative difference, of the absolute one where 0 is
            expected; at most 16). Where a source prints three digits, no more than about three can agree: the digits say as
            much about the source as about the program. Cases with Monte Carlo carry the error of their trials.

            This page is made by `./mvnw -Paccuracy -DskipTests verify`; a test holds it equal to what the program computes.

            """;

    private AccuracyTable() {}

    /**
     * The page.
     *
     * @param outcomes in order of the cases
     * @return Markdown: a table with the fewest digits of each study, then one of all cases
     */
    public static String markdown(List<Outcome> outcomes) {
        final StringBuilder page = new StringBuilder(LEAD);
        page.append(
                QualificationRecord.passed(outcomes)
                        + " of "
                        + outcomes.size()
                        + " cases pass.\n\n");
        page.append("## Studies\n\n");
        row(page, "study", "source", "cases", "fewest digits", "most digits");
        row(page, "---", "---", "--:", "--:", "--:");
        studies(outcomes).forEach((study, cases) -> study(page, study, cases));
        page.append("\n## Cases\n\n");
        row(page, "case", "quantity", "expected", "computed", "digits", "source");
        row(page, "---", "---", "--:", "--:", "--:", "---");
        for (Outcome o : outcomes) {
            row(
                    page,
                    o.known().id(),
                    o.known().what(),
                    o.known().expected(),
                    o.computed(),
                    o.digits().isPresent() ? QualificationRecord.digits(o) : "in words",
                    o.known().source());
        }
        return page.toString();
    }

    private static Map<String, List<Outcome>> studies(List<Outcome> outcomes) {
        final Map<String, List<Outcome>> studies = new LinkedHashMap<>();
        for (Outcome o : outcomes) {
            studies.computeIfAbsent(o.known().study(), s -> new ArrayList<>()).add(o);
        }
        return studies;
    }

    private static void study(StringBuilder page, String study, List<Outcome> cases) {
        final var digits =
                cases.stream().flatMapToDouble(o -> o.digits().stream()).summaryStatistics();
        final boolean words = digits.getCount() == 0;
        final long sources = cases.stream().map(o -> o.known().source()).distinct().count();
        row(
                page,
                study,
                cases.get(0).known().source() + (sources > 1 ? ", and others" : ""),
                Integer.toString(cases.size()),
                words ? "in words" : Numbers.text(digits.getMin()),
                words ? "in words" : Numbers.text(digits.getMax()));
    }

    private static void row(StringBuilder page, String... cells) {
        for (String cell : cells) {
            page.append("| ").append(cell.replace("|", "\\|").replace("\n", " ")).append(' ');
        }
        page.append("|\n");
    }
}
