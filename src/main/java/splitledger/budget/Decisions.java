package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import splitledger.study.Choice;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.NotCorrected;
import splitledger.study.Study;

/** What is decided about the budgets of a compound, in words. */
final class Decisions {
    private final Study study;
    private final Measurand measurand;
    private final Inputs inputs;
    private final ComponentMap map;
    private final EquationUnits.Checked units;
    private final boolean usesFound;

    Decisions(
            Study study,
            Measurand measurand,
            Inputs inputs,
            ComponentMap map,
            EquationUnits.Checked units,
            boolean usesFound) {
        this.study = study;
        this.measurand = measurand;
        this.inputs = inputs;
        this.map = map;
        this.units = units;
        this.usesFound = usesFound;
    }

    List<Choice> of(String compound) {
        final List<Choice> choices = new ArrayList<>();
        units.choices().forEach(c -> choices.add(choice(compound, c.what(), c.why(), c.source())));
        if (usesFound) {
            choices.addAll(map.choices(compound));
        }
        inputs.refused()
                .forEach(
                        (symbol, why) ->
                                choices.add(
                                        choice(
                                                compound,
                                                symbol + " is set to 1 without uncertainty",
                                                why,
                                                "a factor enters as sample over calibrant; where both are alike it cancels")));
        measurand
                .inputs()
                .forEach(
                        (symbol, input) -> {
                            if (input instanceof NotCorrected
                                    || (RecoveryInput.is(input) && inputs.neither())) {
                                choices.add(
                                        choice(
                                                compound,
                                                symbol + " is set to 1 without uncertainty",
                                                "the protocol says that results are not corrected for it; whatever bias it"
                                                        + " stands for is not in the uncertainty",
                                                "stated in the protocol"));
                            }
                        });
        study.compounds()
                .internalStandard()
                .filter(s -> usesFound && s.standardUncertainty() > 0)
                .ifPresent(
                        s ->
                                choices.add(
                                        choice(
                                                compound,
                                                "The uncertainty of the internal standard's amount does not enter",
                                                "calibrants and samples hold the same amount of the same solution, so that"
                                                        + " its error cancels",
                                                "common practice, no source")));
        return choices;
    }

    private static Choice choice(String compound, String what, String why, String source) {
        return new Choice(Budgets.ID, compound, what, why, source);
    }
}
