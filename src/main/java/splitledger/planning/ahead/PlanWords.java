package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.CsvText;
import splitledger.base.Numbers;
import splitledger.evaluation.Minima;
import splitledger.statistics.Allocation;

/** A plan in rows and words: what it has, what is expected, and why. */
final class PlanWords {
    private static final double PERCENT = 100;
    private static final double LOW = 0.1;
    private static final double HIGH = 0.9;

    private final StudyPlan plan;
    private final PlanFile file;
    private final StudyDesign design;
    private final List<Row> rows = new ArrayList<>();

    PlanWords(StudyPlan plan) {
        this.plan = plan;
        this.file = plan.file();
        this.design = plan.design();
        design();
        expected();
        prior();
    }

    /**
     * A row of the plan.
     *
     * @param part design, expected or prior
     * @param lower of the interval that holds 8 of 10 studies; NaN without one
     * @param why in words
     */
    record Row(
            String part,
            String quantity,
            double value,
            String unit,
            double lower,
            double upper,
            String why) {}

    List<Row> rows(String part) {
        return rows.stream().filter(r -> r.part().equals(part)).toList();
    }

    private void design() {
        if (design.days() > 0) {
            count(
                    "days",
                    design.days(),
                    "of the precision study; fewer than "
                            + Minima.GROUPS
                            + " tell little about the scatter between days");
            count("preparations-a-day", design.preparations(), allocation());
            count(
                    "injections-a-preparation",
                    design.injections(),
                    "of calibrants, too; with one the scatter of injections is not told from that"
                            + " of preparations");
            count(
                    "preparations-a-result",
                    design.ofResult(),
                    "a reported result is their mean, all on one day");
        }
        if (design.levels() > 0) {
            count("levels", design.levels(), levels());
            count(
                    "preparations-a-level",
                    design.calibrants(),
                    "each made from the start: repeated injections of one flask cannot show whether"
                            + " a line fits");
        }
        if (design.blanks() > 0) {
            count("blanks", design.blanks(), "at least " + Minima.BLANKS + ", over all days");
            count(
                    "spiked-preparations",
                    design.spiked(),
                    "of twice the wanted limit, on "
                            + Minima.SPIKED_DAYS
                            + " days (40 CFR 136 Appendix B)");
        }
        if (design.checks() > 0) {
            count(
                    "injections-an-occasion",
                    design.checks(),
                    "of the check before and after maintenance, fixed beforehand: adding injections"
                            + " until it is decided makes a false 'restored' more likely");
        }
        for (Experiment e : design.experiments()) {
            e.settings().forEach(x -> add("design", x.quantity(), x.value(), x.unit(), x.why()));
        }
        final Bench bench = Bench.of(design, file).orElseThrow();
        count(
                "injections",
                bench.injections(),
                "washes and checks of the run order counted, at most");
        count(
                "days-at-the-bench",
                bench.studyDays(),
                "of at most "
                        + file.setting().day().most()
                        + " injections: "
                        + file.setting().day().basis());
        add(
                "design",
                "effort",
                design.cost(file).orElseThrow(),
                file.costs().unit(),
                "costs: " + file.costs().basis());
    }

    private String levels() {
        final StudyDesign fewest = StudyDesign.fewest();
        final String least = "at least " + Minima.LEVELS + " (ICH Q2(R2), from memory)";
        if (design.days() == 0) {
            return design.placement().words() + "; " + least;
        }
        final StudyDesign even =
                new StudyDesign(
                        0,
                        0,
                        design.injections(),
                        fewest.levels(),
                        fewest.placement(),
                        fewest.calibrants(),
                        0,
                        0,
                        0,
                        1,
                        List.of());
        return design.placement().words()
                + ": of so many solutions the placement that leaves least at the result, "
                + digits(PERCENT * FastMath.sqrt(Prediction.calibration(design, file)))
                + " % standard uncertainty ("
                + digits(PERCENT * FastMath.sqrt(Prediction.calibration(even, file)))
                + " % with the fewest at equal distances); "
                + least;
    }

    private String allocation() {
        final PlanFile.Costs c = file.costs();
        final Allocation a =
                new Allocation(
                        file.prior().day().value(),
                        file.prior().preparation().value(),
                        file.prior().injection().value(),
                        c.day(),
                        c.preparation(),
                        c.injection());
        final double best = a.preparationsADay();
        return "two or more, so that days are told from preparations"
                + (Double.isInfinite(best)
                        ? ""
                        : "; for a mean of all days the closed form would ask for "
                                + digits(best)
                                + " a day and "
                                + digits(a.injectionsAPreparation())
                                + " injections each ("
                                + Allocation.SOURCE.work()
                                + ", "
                                + Allocation.SOURCE.place()
                                + ")");
    }

    private void expected() {
        file.wanted()
                .uncertainty()
                .ifPresent(
                        wanted -> {
                            final Prediction p = Prediction.of(design, file);
                            rows.add(
                                    new Row(
                                            "expected",
                                            "relative-expanded-uncertainty",
                                            PERCENT * p.expanded(),
                                            "%",
                                            PERCENT * plan.quantile(LOW),
                                            PERCENT * plan.quantile(HIGH),
                                            "wanted "
                                                    + digits(PERCENT * wanted)
                                                    + " %; k = "
                                                    + digits(p.factor())
                                                    + " with "
                                                    + digits(p.degreesOfFreedom())
                                                    + " degrees of freedom; the interval holds 8 of"
                                                    + " 10 studies"));
                            add(
                                    "expected",
                                    "share-of-studies",
                                    PERCENT * plan.promised(),
                                    "%",
                                    "find no more than the wanted uncertainty, of "
                                            + Planner.STUDIES
                                            + " drawn; at least "
                                            + digits(PERCENT * file.wanted().chance())
                                            + " % wanted; "
                                            + digits(PERCENT * p.chanceBelow(wanted))
                                            + " % by the closed form");
                            if (doubtful()) {
                                add(
                                        "expected",
                                        "share-of-studies-prior-doubted",
                                        PERCENT * plan.doubted(),
                                        "%",
                                        "the same if the scatter is no better known than the"
                                                + " degrees of freedom below say");
                            }
                            add(
                                    "expected",
                                    "share-of-precision",
                                    PERCENT * p.precisionShare(),
                                    "%",
                                    "of the variance of a result");
                            add(
                                    "expected",
                                    "share-of-calibration",
                                    PERCENT * p.calibrationShare(),
                                    "%",
                                    "of the variance of a result");
                        });
        if (design.blanks() > 0) {
            rows.add(
                    new Row(
                            "expected",
                            "detection-limit",
                            plan.limit(),
                            "mg/L",
                            plan.limit(LOW),
                            plan.limit(HIGH),
                            "wanted "
                                    + digits(file.wanted().limit().orElseThrow())
                                    + " mg/L, found by "
                                    + digits(PERCENT * plan.chanceOfLimit())
                                    + " % of studies; from the scatter of the blanks, both risks"
                                    + " 0.05"));
            if (file.amounts().lowest() > Minima.SPAN * plan.limit()) {
                add(
                        "expected",
                        "lowest-level-over-limit",
                        file.amounts().lowest() / plan.limit(),
                        "1",
                        "more than ten: a detection limit from the calibration would be"
                                + " extrapolated; add a lower level");
            }
        }
        design.experiments().forEach(this::experiment);
        if (design.checks() > 0) {
            add(
                    "expected",
                    "power-of-the-check",
                    PERCENT * plan.power(),
                    "%",
                    "of checks show a response that did not change to be within "
                            + digits(PERCENT * file.wanted().margin().orElseThrow())
                            + " %; at least");
        }
    }

    private void experiment(Experiment e) {
        final double scale = e.unit().equals("%") ? PERCENT : 1;
        final Expected x = e.expected();
        rows.add(
                new Row(
                        "expected",
                        "half-width-of-" + e.figure(),
                        scale * x.half(),
                        e.unit(),
                        scale * x.half(LOW),
                        scale * x.half(HIGH),
                        "of the interval for 0.95; wanted "
                                + digits(scale * e.wanted())
                                + ", found by "
                                + digits(PERCENT * e.chance())
                                + " % of studies, "
                                + digits(x.degreesOfFreedom())
                                + " degrees of freedom; closed form"));
    }

    /** Whether any scatter was estimated rather than stated. */
    private boolean doubtful() {
        final PlanFile.Prior p = file.prior();
        return java.util.stream.Stream.of(p.injection(), p.preparation(), p.day())
                .anyMatch(k -> Double.isFinite(k.degreesOfFreedom()));
    }

    private void prior() {
        prior("injection", file.prior().injection());
        prior("preparation", file.prior().preparation());
        prior("day", file.prior().day());
        prior("occasion", file.prior().occasion());
        prior("other", file.prior().other());
        for (Experiment e : design.experiments()) {
            if (e instanceof SplitExperiment) {
                prior("set-up", file.range().setting());
                if (file.standard().isPresent()) {
                    prior("area", file.range().area());
                }
            } else if (e instanceof LadderExperiment) {
                prior("member", file.range().member());
            } else if (e instanceof HeatExperiment) {
                file.labile().ifPresent(this::labile);
            }
        }
        file.prior()
                .blank()
                .ifPresent(b -> add("prior", "sd-of-blanks", b.value(), "mg/L", b.basis()));
    }

    private void labile(PlanFile.Labile labile) {
        add(
                "prior",
                "breakdown",
                PERCENT * labile.breakdown().value(),
                "%",
                "at the working temperature; " + labile.breakdown().basis());
        add(
                "prior",
                "activation-energy",
                labile.energy().value(),
                "kJ/mol",
                labile.energy().basis());
    }

    private void prior(String what, PlanFile.Known known) {
        final String freedom =
                Double.isInfinite(known.degreesOfFreedom())
                        ? ""
                        : ", " + digits(known.degreesOfFreedom()) + " degrees of freedom";
        add("prior", "rsd-" + what, PERCENT * known.value(), "%", known.basis() + freedom);
    }

    private void count(String quantity, int value, String why) {
        add("design", quantity, value, "1", why);
    }

    private void add(String part, String quantity, double value, String unit, String why) {
        rows.add(new Row(part, quantity, value, unit, Double.NaN, Double.NaN, why));
    }

    byte[] csv() {
        final CsvText csv = new CsvText(List.of(PlanFiles.HEADER.split(",")));
        for (Row r : rows) {
            csv.cell(r.part()).cell(r.quantity()).cell(r.value()).cell(r.unit());
            if (Double.isNaN(r.lower())) {
                csv.empty().empty();
            } else {
                csv.cell(r.lower()).cell(r.upper());
            }
            csv.cell(r.why()).endRow();
        }
        return csv.bytes();
    }

    /** For the terminal. */
    List<String> lines() {
        final List<String> lines = new ArrayList<>();
        for (Row r : rows) {
            final String interval =
                    Double.isNaN(r.lower())
                            ? ""
                            : " (" + digits(r.lower()) + " to " + digits(r.upper()) + ")";
            final String unit = r.unit().equals("1") ? "" : " " + r.unit();
            lines.add(
                    "  "
                            + r.part()
                            + ": "
                            + r.quantity()
                            + " "
                            + digits(r.value())
                            + unit
                            + interval
                            + "; "
                            + r.why());
        }
        return lines;
    }

    /** Three significant digits; whole numbers as they are. */
    static String digits(double value) {
        if (value == 0 || value == Math.rint(value) || !Double.isFinite(value)) {
            return Numbers.text(value);
        }
        final int places = 2 - (int) Math.floor(FastMath.log10(Math.abs(value)));
        return new java.math.BigDecimal(value)
                .setScale(Math.max(0, places), java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }
}
