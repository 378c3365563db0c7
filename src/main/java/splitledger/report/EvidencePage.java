package splitledger.report;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import splitledger.base.Numbers;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol;
import splitledger.study.Standards;
import splitledger.study.Study;

/** What the evaluation rests on, as the page shows it. */
final class EvidencePage {
    private EvidencePage() {}

    static Page.Evidence of(Study study, String programVersion, long seed) {
        final Protocol protocol = study.protocol();
        return new Page.Evidence(
                study.inputs().stream()
                        .map(
                                i ->
                                        new Page.InputView(
                                                Wording.plain(i.role()), i.written(), i.digest()))
                        .toList(),
                protocol.exclusions().stream()
                        .map(
                                e ->
                                        new Page.Left(
                                                e.injection(),
                                                "all".equals(e.compound())
                                                        ? "all compounds"
                                                        : e.compound(),
                                                e.reason(),
                                                e.who()))
                        .toList(),
                study.standards().map(EvidencePage::materials).orElse(List.of()),
                protocol.events().stream().map(e -> new Page.Fact(e.date(), e.what())).toList(),
                rows(study.table()),
                "splitledger " + programVersion + ", seed of the simulations " + seed);
    }

    /** What was weighed and which pieces measured, each with its certificate or other source. */
    private static List<Page.Material> materials(Standards standards) {
        final Set<Page.Material> materials = new LinkedHashSet<>();
        for (Standards.Solution solution : standards.solutions().values()) {
            if (solution instanceof Standards.Weighed weighed) {
                weighed.weighings()
                        .forEach((compound, w) -> materials.add(of(weighed, compound, w)));
            } else if (solution instanceof Standards.Diluted diluted) {
                diluted.portions().forEach(portion -> materials.add(of(portion.with())));
            }
            materials.add(of(solution.into()));
        }
        return List.copyOf(materials);
    }

    private static Page.Material of(
            Standards.Weighed solution, String compound, Standards.Weighing w) {
        return new Page.Material(
                compound + " in " + solution.name(),
                withSpread(w.mass(), w.massError())
                        + " mg, purity "
                        + withSpread(w.purity(), w.purityError()),
                source(w.source()));
    }

    private static Page.Material of(Standards.Vessel vessel) {
        return new Page.Material(
                named(vessel),
                withSpread(vessel.volume(), vessel.tolerance()) + " mL",
                source(vessel.source()));
    }

    /** A piece without a name of its own goes by its kind and the solution it was used for. */
    private static String named(Standards.Vessel vessel) {
        final int slash = vessel.piece().indexOf('/');
        if (slash > 0) {
            return vessel.kind() + ", for " + vessel.piece().substring(0, slash);
        }
        return vessel.piece().equals(vessel.kind())
                ? vessel.kind()
                : vessel.piece() + " (" + vessel.kind() + ")";
    }

    private static String withSpread(double value, Standards.Spread spread) {
        return Numbers.text(value)
                + (spread.standardUncertainty() == 0
                        ? ""
                        : " (u "
                                + Rounded.alone(spread.standardUncertainty(), 2).valueText()
                                + ")");
    }

    private static String source(String stated) {
        return stated.isBlank() ? "not stated" : stated;
    }

    private static String rows(InjectionTable table) {
        final long injections =
                table.labels("injection")
                        .map(l -> l.labels().stream().distinct().count())
                        .orElse(0L);
        return table.size() == 0
                ? "No table of injections was read."
                : table.size()
                        + " peaks of "
                        + injections
                        + " injections were read, rows left out on purpose not among them.";
    }
}
