package splitledger.virtual;

import java.nio.charset.StandardCharsets;
import splitledger.base.ProblemException;

/**
 * A design of a few injections in which nothing scatters, so that what an effect does can be seen
 * in the areas to the last printed digit; tests add the effect they are about.
 */
final class SmallDesign {
    private static final String TEXT =
            """
            splitledger-design: 1
            title: A small experiment
            seed: 1
            inlet:
              injected-volume: {value: 1, unit: uL, basis: invented}
              stroke-scatter: {value: 0, unit: "%", basis: invented}
              split-ratio: {value: 50, unit: "1", basis: invented}
              split-setting-scatter: {value: 0, unit: "%", basis: invented}
              temperature: {value: 220, unit: degC, basis: invented}
              column-flow: {value: 1.5, unit: mL/min, basis: invented}
              liner-volume: {value: 1, unit: mL, basis: invented}
              pressure: {value: 200, unit: kPa, basis: invented}
              run-time: {value: 20, unit: min, basis: invented}
            detector:
              response: {value: 15, unit: pA*s/ng, basis: invented}
              response-deviation: {value: 0, unit: "%", basis: invented}
              day-gain: {value: 0, unit: "%", basis: invented}
            integration:
              constant: {value: 0, unit: pA*s, basis: invented}
              proportional: {value: 0, unit: "%", basis: invented}
              threshold: {value: 0, unit: pA*s, basis: invented}
              significant-digits: 15
            preparation:
              dilution: {value: 0, unit: "%", basis: invented}
              internal-standard-addition: {value: 0, unit: "%", basis: invented}
              balance: {value: 0, unit: mg, basis: invented}
              flask-volume: {value: 0, unit: mL, basis: invented}
              volume: {value: 10, unit: mL, basis: invented}
              portion: {from: 50, to: 50, unit: mg, basis: invented}
              between-days: {value: 0, unit: "%", basis: invented}
              between-analysts: {value: 0, unit: "%", basis: invented}
            internal-standard:
              compound: n-C14
              amount: {value: 50, unit: mg/L, basis: invented}
            targets: [light, heavy]
            forced-integration: [light, heavy, n-C14]
            compounds:
              light: {boiling-point: 150, effective-carbon-number: 9, molar-mass: 130}
              heavy: {boiling-point: 350, effective-carbon-number: 18, molar-mass: 300}
              n-C14: {boiling-point: 253.6, effective-carbon-number: 14, molar-mass: 198.394}
              n-C20: {boiling-point: 343.8, effective-carbon-number: 20, molar-mass: 282.556}
              n-C40: {boiling-point: 525, effective-carbon-number: 40, molar-mass: 563.096}
              piece: {boiling-point: 120, effective-carbon-number: 5, molar-mass: 80}
            levels:
              L1: {light: 10, heavy: 20}
              L2: {light: 100, heavy: 200}
              ladder: {n-C20: 50, n-C40: 50}
            oils:
              oil: {light: 10, heavy: 20}
            days:
              - day: D1
                date: 2026-02-16
                start: "08:00"
                sessions:
                  - - {experiment: calibration, flasks: K, analysts: A, levels: [L1, L2],
                       preparations: 2}
                  - - {experiment: blank, flasks: B, analysts: A}
                  - - {experiment: split, flask: CHECK, analysts: A, levels: L2,
                       splits: [5, 10, 20, 50, 100], injections: 2}
                  - - {experiment: ladder, flask: LADDER, analysts: A, levels: ladder}
              - day: D2
                date: 2026-02-17
                start: "08:00"
                sessions:
                  - - {experiment: repeatability, flasks: P, analysts: A, oils: oil,
                       preparations: 3, injections: 2}
                  - - {experiment: sample, flasks: S, analysts: A, oils: oil, injections: 2}
            """;

    private String text = TEXT;

    /** Puts another value at a parameter that is there. */
    SmallDesign value(String parameter, double value) {
        return instead(
                parameter + ": \\{value: [-0-9.e]+,", parameter + ": {value: " + value + ",");
    }

    /** Adds a parameter to a part. */
    SmallDesign more(String part, String parameter, double value, String unit) {
        return instead(
                "(?m)^" + part + ":\n",
                part
                        + ":\n  "
                        + parameter
                        + ": {value: "
                        + value
                        + ", unit: \""
                        + unit
                        + "\", basis: invented}\n");
    }

    /** Adds parts. */
    SmallDesign with(String parts) {
        text = text + parts;
        return this;
    }

    /** Puts a text in place of a pattern, which must be there. */
    SmallDesign instead(String pattern, String by) {
        final String changed = text.replaceFirst(pattern, by);
        if (changed.equals(text)) {
            throw new IllegalArgumentException("pattern = " + pattern + ", is not in the design");
        }
        text = changed;
        return this;
    }

    Design read() throws ProblemException {
        return DesignReader.read("design.yaml", text.getBytes(StandardCharsets.UTF_8));
    }
}
