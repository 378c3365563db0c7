package splitledger.virtual;

/**
 * Relative standard deviations of a response, by cause, to first order. With an internal standard,
 * volume, split and gain cancel, discrimination moves both peaks together and integration each
 * alone; without one everything stays.
 */
final class Scatter {
    private final TruthSheet sheet;
    private final Design design;

    Scatter(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
    }

    /** Between injections, in proportion to the response. */
    double proportional(int peak) {
        final double integration = design.integration().proportional().fraction();
        return sheet.hasStandard()
                ? TruthSheet.root(
                        sheet.physics().scatter(peak)
                                - sheet.physics().scatter(sheet.peaks().of(design.standardName())),
                        integration,
                        integration)
                : alone(peak);
    }

    /** The same of the area of a peak. */
    double alone(int peak) {
        return TruthSheet.root(
                design.inlet().strokeScatter().fraction(),
                sheet.physics().scatter(peak),
                design.integration().proportional().fraction());
    }

    /**
     * Between injections in all.
     *
     * @param areas pA*s at the composition
     */
    double injection(int peak, double[] areas) {
        final double constant = design.integration().constant().value();
        return TruthSheet.root(
                proportional(peak),
                constant / areas[peak],
                sheet.hasStandard() ? constant / sheet.standard(areas) : 0);
    }

    /** Between injections of the area of a peak. */
    double injectionOfArea(int peak, double[] areas) {
        return TruthSheet.root(alone(peak), design.integration().constant().value() / areas[peak]);
    }

    /** Between solutions that are made by dilution. */
    double dilution() {
        return TruthSheet.root(
                design.preparation().dilution().fraction(),
                sheet.hasStandard() ? design.preparation().standardAddition().fraction() : 0);
    }

    /** Between days, as far as the detector and the setting of the split go. */
    double gain() {
        return sheet.hasStandard()
                ? 0
                : TruthSheet.root(
                        design.detector().dayGain().fraction(),
                        design.inlet().splitSettingScatter().fraction());
    }

    /** Whether all injections of a preparation come from the same population. */
    boolean isSteady() {
        final Design.Detector d = design.detector();
        return d.driftAgainstStandard().value() == 0
                && (sheet.hasStandard() || d.drift().value() == 0);
    }
}
