package splitledger.characteristic.losses;

import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.study.Compounds.Compound;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.InjectionTable;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * A parent and a stable compound of the same injections, whose log responses are subtracted.
 *
 * @param study all that goes in
 * @param parent what may decompose
 * @param stable what it is compared with
 */
record StablePair(Study study, Compound parent, Compound stable) {
    /** Log ratio of the two responses in each injection; NaN where something is missing. */
    double[] logs(LossRows.Group g) {
        return g.shots().stream()
                .mapToDouble(s -> response(s.row(), parent) - response(other(s.row()), stable))
                .toArray();
    }

    private int other(int row) {
        final InjectionTable table = study.table();
        for (int r = 0; r < table.size(); r++) {
            if (table.sameLabel("injection", row, r) && table.compound(r).equals(stable.name())) {
                return r;
            }
        }
        return -1;
    }

    private double response(int row, Compound compound) {
        final InjectionTable table = study.table();
        if (row < 0 || table.state(row) != State.MEASURED || !(table.area(row) > 0)) {
            return Double.NaN;
        }
        return FastMath.log(
                table.area(row)
                        / (amount(row)
                                * compound.carbonNumber().orElseThrow()
                                / compound.molarMass().orElseThrow()));
    }

    private double amount(int row) {
        final double stated = study.table().number("amount", row);
        if (!Double.isNaN(stated)) {
            return stated > 0 ? stated : Double.NaN;
        }
        return study.compounds()
                .internalStandard()
                .filter(i -> i.compound().equals(study.table().compound(row)))
                .map(InternalStandard::amount)
                .filter(OptionalDouble::isPresent)
                .map(OptionalDouble::getAsDouble)
                .orElse(Double.NaN);
    }
}
