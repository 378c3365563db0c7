package splitledger.characteristic.split;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Quantiles;
import splitledger.statistics.RatioOffset;
import splitledger.study.Choice;

/**
 * In words, what a departure from the set ratio is consistent with. A departure is named only if it
 * would arise by chance in fewer than one clean study of two hundred ({@link #LEVEL}); rules and
 * level are our own, their rates of right and wrong words are measured by simulation.
 */
final class SplitDiagnosis {
    /** Probability of each single departure by chance below which it is named. */
    static final double LEVEL = 0.005;

    /** Largest uncertainty of the offset with which a convention is named. */
    private static final double SHARP = 0.25;

    /** Departures smaller than this are taken to be rounding. */
    private static final double ROUNDING = 1e-9;

    private static final double SAME_MASS = 2;
    private static final String OWN_RULE =
            "rule of this program; of 1000 simulated studies of the bench protocol 2 % gave wrong words where nothing was"
                    + " wrong, 95 to 100 % the right ones where something was";

    /** What a departure looks like. */
    enum Kind {
        CLEAN("No departure from the split ratio is seen"),
        CONVENTION(
                "The responses are consistent with a split ratio of the other convention (vent to column against total to"
                        + " column)"),
        OFFSET("The responses depart at low ratios as if a flow were left out of the ratio"),
        POWER(
                "The response follows a power of the split ratio other than 1, for all compounds alike"),
        BOILING_POINT(
                "The exponent changes with the boiling point: discrimination that changes with the ratio"),
        LARGEST_AREAS(
                "Compounds with the largest areas fall behind: consistent with a saturating detector or overload"),
        ONE_COMPOUND("One compound follows the ratio differently from the others"),
        OPEN("What this design cannot separate");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** The sentence that heads it. */
        String words() {
            return words;
        }
    }

    private final SplitSetUps setUps;
    private final SplitFindings pooled;
    private final SplitTogether together;
    private final List<String> stable;

    SplitDiagnosis(
            SplitSetUps setUps, SplitFindings pooled, SplitTogether together, List<String> stable) {
        this.setUps = setUps;
        this.pooled = pooled;
        this.together = together;
        this.stable = List.copyOf(stable);
    }

    /** What is seen, first; then what stays open. Nothing without a fitted exponent. */
    List<Choice> choices() {
        if (!(pooled.line() instanceof Computed<GeneralLeastSquares> line)) {
            return List.of();
        }
        final List<Choice> all = new ArrayList<>();
        common(line.value(), all);
        between(all);
        if (all.isEmpty()) {
            all.add(
                    choice(
                            Kind.CLEAN,
                            "",
                            "exponent "
                                    + told(line.value())
                                    + "; a departure smaller than its interval would not have been seen"));
        }
        all.add(choice(Kind.OPEN, "", open()));
        return all;
    }

    private void common(GeneralLeastSquares line, List<Choice> all) {
        final Optional<RatioOffset> offset =
                together.offsetFit().fold(Optional::of, n -> Optional.<RatioOffset>empty());
        final boolean power = p(line.coefficients().get(0) - 1, line) < LEVEL;
        final boolean bend = offset.map(this::isBend).orElse(false);
        if (!power && !bend) {
            return;
        }
        final double other = setUps.conventionOffset() == 0 ? 1 : -1;
        final boolean convention =
                offset.filter(o -> o.standardUncertainty() <= SHARP)
                        .filter(o -> o.lower() - ROUNDING <= other && other <= o.upper() + ROUNDING)
                        .filter(o -> o.lower() > 0 || o.upper() < 0)
                        .isPresent();
        final boolean bendFits =
                offset.map(o -> o.residualSquares() <= line.residualSquares()).orElse(false);
        if (convention) {
            all.add(choice(Kind.CONVENTION, "", convention(offset.get(), bendFits)));
        }
        if (!bendFits) {
            all.add(choice(Kind.POWER, "", power(line, offset, convention)));
        } else if (!convention) {
            all.add(
                    choice(
                            Kind.OFFSET,
                            "",
                            offsetTold(offset.get())
                                    + ", which is neither convention. A leak, a restricted or blocked split vent, the septum"
                                    + " purge counted in, a wrong column flow, and vapour that does not mix at low flow look the"
                                    + " same. Next: leak check, measure vent and column flow at the lowest and the highest"
                                    + " ratio, change the vent filter"));
        }
    }

    private String power(
            GeneralLeastSquares line, Optional<RatioOffset> offset, boolean convention) {
        return "exponent "
                + told(line)
                + (convention
                        ? "; the other convention describes the responses nearly as well, so that this design does not"
                                + " settle which it is"
                        : "; a constant left out of the ratio describes the responses less well"
                                + offset.map(o -> " (" + offsetTold(o) + ")").orElse(""))
                + ". Next: measure vent and column flow at every setting, repeat with less mass on the column, and with"
                + " another liner packing";
    }

    private boolean isBend(RatioOffset o) {
        if (Math.abs(o.value()) < ROUNDING) {
            return false;
        }
        final double f =
                (pooled.fit().squaresAt(0) - o.residualSquares())
                        / (o.residualSquares() / o.degreesOfFreedom());
        return Quantiles.fTail(f, 1, o.degreesOfFreedom()) < LEVEL;
    }

    private String convention(RatioOffset offset, boolean fits) {
        return offsetTold(offset)
                + (fits ? "" : "; a power of the ratio describes the responses a little better")
                + ". A leak, a restricted split vent, the septum purge counted in, or a wrong column flow looks the same."
                + " Next: look up which ratio the data system prints, and measure vent and column flow at the lowest ratio";
    }

    /** Four significant digits. */
    private static String shown(double value) {
        return Numbers.text(new BigDecimal(value).round(new MathContext(4)).doubleValue());
    }

    private String offsetTold(RatioOffset o) {
        final double add = setUps.conventionOffset();
        return "offset "
                + shown(o.value() + add)
                + " ("
                + shown(o.lower() + add)
                + " to "
                + shown(o.upper() + add)
                + "; 0 is total to column, 1 vent to column)";
    }

    private static String told(GeneralLeastSquares line) {
        return shown(line.coefficients().get(0))
                + " (u "
                + shown(line.uncertainty(1))
                + ", "
                + shown(line.degreesOfFreedom())
                + " degrees of freedom)";
    }

    /** What sets compounds apart: boiling point, size of the area, or one of them alone. */
    private void between(List<Choice> all) {
        final Optional<GeneralLeastSquares> boiling =
                together.slopeFit().fold(Optional::of, n -> Optional.<GeneralLeastSquares>empty());
        final double[] areas =
                stable.stream().mapToDouble(c -> FastMath.exp(setUps.largest(c))).toArray();
        final Optional<GeneralLeastSquares> area =
                together.contrast(stable, areas)
                        .fold(Optional::of, n -> Optional.<GeneralLeastSquares>empty());
        final boolean byBoiling = boiling.map(f -> p(first(f), f) < LEVEL).orElse(false);
        final boolean byArea =
                area.map(f -> first(f) < 0 && p(first(f), f) < LEVEL).orElse(false)
                        && !setUps.byAmount();
        final boolean areaFirst = byArea && (!byBoiling || tOf(area.get()) > tOf(boiling.get()));
        if (byBoiling && !areaFirst) {
            all.add(
                    choice(
                            Kind.BOILING_POINT,
                            "",
                            "slope of the exponent "
                                    + told(boiling.get())
                                    + " per 100 degC"
                                    + (byArea
                                            ? "; the same compounds have the larger areas, so that a saturating detector is not"
                                                    + " excluded"
                                            : "")
                                    + ". Next: higher inlet temperature or a packed liner at the lowest ratio, and compare with a"
                                    + " cold on-column injection"));
        } else if (areaFirst) {
            all.add(
                    choice(
                            Kind.LARGEST_AREAS,
                            "",
                            "the exponent falls with the area at the lowest ratio"
                                    + (byBoiling
                                            ? "; it changes with the boiling point too, less clearly"
                                            : "")
                                    + ". Next: repeat the lowest ratio with a solution diluted tenfold"));
        } else {
            alone(all);
        }
    }

    private void alone(List<Choice> all) {
        if (stable.size() < 3) {
            return;
        }
        for (String compound : stable) {
            final double[] apart = new double[stable.size()];
            apart[stable.indexOf(compound)] = 1;
            final Optional<GeneralLeastSquares> fit =
                    together.contrast(stable, apart)
                            .fold(Optional::of, n -> Optional.<GeneralLeastSquares>empty());
            if (fit.isPresent() && p(first(fit.get()), fit.get()) < LEVEL / stable.size()) {
                all.add(
                        choice(
                                Kind.ONE_COMPOUND,
                                compound,
                                "its exponent differs from the mean of the others by "
                                        + told(fit.get())
                                        + ": decomposition or adsorption in the inlet (both depend on the time in the liner), or"
                                        + " an overlapped peak. Next: vary the inlet temperature, look at the peak at the"
                                        + " highest ratio; name it under labile if it decomposes"));
            }
        }
    }

    private static double first(GeneralLeastSquares fit) {
        return fit.coefficients().get(0);
    }

    private static double tOf(GeneralLeastSquares fit) {
        return Math.abs(first(fit)) / fit.uncertainty(1);
    }

    /** Two-sided p of a difference; a fit without any scatter shows whatever is not rounding. */
    private static double p(double difference, GeneralLeastSquares fit) {
        final double u = fit.uncertainty(1);
        if (Math.abs(difference) < ROUNDING) {
            return 1;
        }
        return u > 0
                ? Quantiles.tTwoSidedTail(Math.abs(difference) / u, fit.degreesOfFreedom())
                : 0;
    }

    private String open() {
        final List<String> parts = new ArrayList<>();
        if (sameMass()) {
            parts.add(
                    "the mass on the column was nearly the same at all ratios, so that the detector is not what changes");
        } else if (setUps.several()) {
            parts.add(
                    "several solutions were injected, which count equally here: whether the detector is linear shows in"
                            + " their exponents apart, one evaluation each");
        } else {
            parts.add(
                    "with one solution the mass on the column changes with the ratio: a split and a detector that are not"
                            + " linear look the same. Keep the mass constant, or inject two concentrations at every ratio");
        }
        parts.add(
                "wrong convention, leak, purge and flow errors all act as a number added to the ratio");
        if (setUps.settings().stream().anyMatch(s -> setUps.at(s).size() == 1)) {
            parts.add(
                    "not every setting was set up twice: there a bend is told from the scatter of setting less surely");
        }
        return String.join("; ", parts);
    }

    private boolean sameMass() {
        if (!setUps.byAmount()) {
            return false;
        }
        final double[] mass =
                setUps.setUps().stream()
                        .mapToDouble(s -> s.meanAmount() / s.ratio())
                        .sorted()
                        .toArray();
        return mass.length > 0 && mass[mass.length - 1] <= SAME_MASS * mass[0];
    }

    private static Choice choice(Kind kind, String compound, String why) {
        return new Choice(SplitLinearity.ID, compound, kind.words(), why, OWN_RULE);
    }
}
