package splitledger.characteristic.recovery;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import splitledger.characteristic.Earlier;
import splitledger.characteristic.Responses;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Choice;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * What all ways to a recovery need for one compound.
 *
 * @param responses what a response is
 * @param options block of the protocol
 * @param earlier what other characteristics gave
 */
record RecoveryContext(
        Study study, String compound, Responses responses, Tree.Mapping options, Earlier earlier) {

    /** The calibration line, if there is one. */
    Optional<UncertainLine> line() {
        return Optional.ofNullable(earlier.lines().get(compound));
    }

    /** What a way gives that reads amounts off the calibration; without one the reason. */
    RecoveryResult offTheLine(RecoveryKind kind, Function<UncertainLine, RecoveryResult> way) {
        return line().map(way)
                .orElseGet(
                        () ->
                                RecoveryResult.not(
                                        kind,
                                        compound,
                                        Reason.NO_CALIBRATION,
                                        "no calibration to read amounts off",
                                        List.of()));
    }

    /**
     * The preparations of some rows.
     *
     * @param amount column of what is there or was added; empty if there is none
     * @param uncertainty column of its standard uncertainty; empty if there is none
     */
    RecoveryPreparation.Found preparations(Rows rows, String amount, String uncertainty) {
        return RecoveryPreparation.of(
                study,
                responses,
                rows,
                compound,
                new RecoveryPreparation.Columns(amount, uncertainty, text("per")));
    }

    /** The rows that an option asks for; empty without the option. */
    Optional<Rows> rows(String option) {
        return options.get(option).isPresent()
                ? Optional.of(study.table().rows(Where.of(options.mapping(option))))
                : Optional.empty();
    }

    /** An option's text; empty without it. */
    String text(String option) {
        return options.text(option).orElse("");
    }

    /** Name of the column of amounts added. */
    String added() {
        return options.text("added").orElse("amount");
    }

    /**
     * The amount that a preparation's mean response belongs to, with what it shares with all others
     * read off the same line: intercept and slope. How preparations scatter is not in it, as that
     * is seen in the recoveries themselves.
     */
    Outcome<Uncertain> found(UncertainLine line, RecoveryPreparation preparation) {
        final double response = preparation.response().mean();
        final double amount = line.read(response);
        return Double.isFinite(amount)
                ? Outcome.of(line.amount(Uncertain.exact(response, line.responseUnit()), amount))
                : Outcome.not(
                        Reason.NO_FINITE_VALUE,
                        "the calibration gives no amount for preparation " + preparation.label());
    }

    /** Something that was decided. */
    Choice choice(String what, String why, String source) {
        return new Choice(Recovery.ID, compound, what, why, source);
    }
}
