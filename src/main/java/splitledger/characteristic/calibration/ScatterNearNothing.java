package splitledger.characteristic.calibration;

import java.util.Arrays;
import splitledger.characteristic.Digits;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.ScatterLaw;
import splitledger.statistics.ScatterLaw.Form;

/** Whether a calibration shows how responses scatter where there is next to nothing. */
public final class ScatterNearNothing {
    private static final int LEVELS_BELOW = 2;

    private ScatterNearNothing() {}

    /** In words, why the constant part is not seen. */
    public static String tooHigh(ScatterLine line) {
        return "two levels must give responses below "
                + (line.fit().law().constant() > 0 && line.fit().law().proportional() > 0
                        ? Digits.three(
                                        Math.sqrt(
                                                line.fit().law().constant()
                                                        / line.fit().law().proportional()))
                                + ("1".equals(line.responseUnit()) ? "" : " " + line.responseUnit())
                                + ", where the constant part of the scatter is the larger one"
                        : "what the proportional part of the scatter alone explains")
                + ": calibrate lower, or inject 10 blanks";
    }

    /**
     * Whether two levels have a mean response below s0/s1, where the constant part is the larger
     * one; always where the scatter is the same everywhere.
     */
    public static boolean carriesConstant(ScatterLine line) {
        final ScatterLaw law = line.fit().law();
        if (law.form() != Form.BOTH) {
            return law.form() == Form.CONSTANT;
        }
        final double turn = Math.sqrt(law.constant() / law.proportional());
        return Arrays.stream(line.fit().amounts())
                        .distinct()
                        .filter(x -> Math.abs(line.mean(x)) < turn)
                        .count()
                >= LEVELS_BELOW;
    }
}
