package splitledger.report;

import splitledger.study.InjectionTable;
import splitledger.study.Protocol;
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
                protocol.events().stream().map(e -> new Page.Fact(e.date(), e.what())).toList(),
                rows(study.table()),
                "splitledger " + programVersion + ", seed of the simulations " + seed);
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
