package splitledger.virtual;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.Set;
import org.apache.commons.math3.util.FastMath;
import splitledger.study.Key;

/**
 * True transfer of the ladder's members and of the targets, relative to the reference member:
 * needle and inlet together, response factors and weighing errors of members not in it. A key
 * without occasion is that of the first one.
 */
final class DiscriminationTruth {
    private static final String OF = "discrimination";
    private static final double HUNDRED = 100;

    private final TruthSheet sheet;
    private final Design design;
    private final Set<String> occasions = new LinkedHashSet<>();
    private final Set<String> members = new LinkedHashSet<>();

    DiscriminationTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
        for (Plan.Batch batch : design.batches("ladder")) {
            if (!batch.onColumn()) {
                occasions.add(batch.occasion());
                for (String level : batch.levels()) {
                    members.addAll(
                            sheet.peaks().map(sheet.solutions().intended(level, "", 0)).keySet());
                }
            }
        }
    }

    void add() {
        final String reference = design.reference().orElse("");
        if (!members.contains(reference)) {
            return;
        }
        final String first = occasions.iterator().next();
        final Set<String> keyed = new LinkedHashSet<>(occasions);
        keyed.add("");
        for (String occasion : keyed) {
            final String acting = occasion.isEmpty() ? first : occasion;
            for (String member : members) {
                if (!member.equals(reference)) {
                    relative("relative-response", member, reference, occasion, acting);
                }
            }
            relative("heavy-to-light-ratio", heaviest(), reference, occasion, acting);
            slope(occasion, acting);
            for (String target : design.targets()) {
                relative("discrimination-factor", target, reference, occasion, acting);
            }
        }
        changes(first);
        for (String target : design.targets()) {
            deficit(target);
        }
    }

    private String heaviest() {
        return members.stream()
                .max(Comparator.comparingDouble(c -> design.compound(c).boilingPoint()))
                .orElse("");
    }

    private void relative(
            String quantity, String compound, String reference, String occasion, String acting) {
        Key key = Key.of(OF, compound, quantity, "").with("reference", reference);
        if (!occasion.isEmpty()) {
            key = key.with("occasion", occasion);
        }
        sheet.add(key, transferred(compound, acting) / transferred(reference, acting), "1");
    }

    /** Slope of the least-squares line through the logarithms of all members, % per 100 degC. */
    private void slope(String occasion, String acting) {
        double centre = 0;
        for (String member : members) {
            centre += design.compound(member).boilingPoint() / members.size();
        }
        double squares = 0;
        double products = 0;
        for (String member : members) {
            final double x = (design.compound(member).boilingPoint() - centre) / HUNDRED;
            squares += x * x;
            products += x * FastMath.log(transferred(member, acting));
        }
        final Key key = Key.of(OF, "", "discrimination-per-100C", "");
        sheet.add(
                occasion.isEmpty() ? key : key.with("occasion", occasion),
                TruthSheet.PERCENT * FastMath.expm1(products / squares),
                "%");
    }

    private double transferred(String compound, String occasion) {
        return sheet.physics().transferred(sheet.peaks().of(compound), occasion);
    }

    /** Response on the last occasion over that on the first. */
    private void changes(String first) {
        String last = first;
        for (String occasion : occasions) {
            last = occasion;
        }
        if (!last.equals(first)) {
            for (String member : members) {
                sheet.add(
                        Key.of("maintenance", member, "response-change", ""),
                        transferred(member, last) / transferred(member, first),
                        "1");
            }
        }
    }

    /** What is missing against the curve of the ladder: what decomposes at work. */
    private void deficit(String target) {
        double lost = 0;
        for (LinerLoss loss : sheet.physics().losses()) {
            if (loss.loss().parent().equals(target)) {
                lost = loss.decomposed(sheet.workingRatio(), design.inlet().temperature().value());
            } else if (loss.loss().products().containsKey(target)) {
                return;
            }
        }
        sheet.add(
                Key.of("losses", target, "unexplained-deficit", ""),
                TruthSheet.PERCENT * lost,
                "%");
    }
}
