package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.characteristic.Responses;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * How injections, preparations and results of different days, analysts or instruments agree: the
 * variance that each of them brings, and what follows for results under the same and under changing
 * conditions.
 */
public final class Repeatability implements Characteristic {
    static final String ID = "repeatability";
    private static final Card CARD = RepeatabilityCard.CARD;

    /**
     * Whether a finding is the second estimate of what another one gives: that by restricted
     * likelihood beside the one by moments, which budgets take. A requirement that names no method
     * is not about it.
     */
    public static boolean isBeside(Key key) {
        return key.characteristic().equals(ID) && key.method().equals(PrecisionFindings.REML);
    }

    @Override
    public Card card() {
        return CARD;
    }

    /** What one compound gives. */
    private record Part(
            List<Finding> findings,
            List<Choice> choices,
            List<Flag> flags,
            List<Figure> figures,
            Optional<PrecisionLayouts.Layout> layout) {}

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows rows = study.table().rows(Where.of(options.mapping("where")));
        final Responses responses = Responses.per(study, options.text("per").orElse(""));
        final List<String> factors =
                options.texts("factors").stream().filter(f -> !f.equals("preparation")).toList();
        final PrecisionLayouts layouts =
                new PrecisionLayouts(
                        study.table(),
                        factors,
                        options.mapping("nested-in"),
                        options.number("mean-of"));
        final Map<String, Integer> places = places(study.table());
        final Setting setting =
                new Setting(
                        study,
                        byCompound(study.table(), rows),
                        byCompound(study.table(), study.table().all()),
                        responses,
                        layouts,
                        places,
                        extent,
                        study.withExcluded().map(all -> new WithExcluded(all, options, factors)),
                        new StudiedAmount(study, earlier.lines()),
                        options.text("level").orElse(""),
                        new PrecisionAcceptance(options));
        final List<Part> parts =
                study.compounds().targets().parallelStream().map(c -> of(setting, c)).toList();
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        final List<PrecisionLayouts.Layout> patterns = new ArrayList<>();
        for (Part part : parts) {
            findings.addAll(part.findings());
            figures.addAll(part.figures());
            choices.addAll(part.choices());
            flags.addAll(part.flags());
            part.layout().filter(l -> !patterns.contains(l)).ifPresent(patterns::add);
        }
        final List<Finding> shared =
                SharedFindings.of(study, rows, layouts.within(setting.level()), places);
        findings.addAll(shared);
        if (extent.figures()) {
            patterns.stream().findFirst().map(StructureFigure::of).ifPresent(figures::add);
            ScatterFigures.shared(shared).ifPresent(figures::add);
        }
        patterns.stream().findFirst().flatMap(PrecisionWords::preparations).ifPresent(choices::add);
        final Question question =
                new Question(
                        ID,
                        CARD.title(),
                        CARD.question(),
                        PrecisionWords.injected(study, rows, factors),
                        PrecisionWords.how(responses, patterns));
        return new Contribution(question, findings, figures, choices, flags, new TreeMap<>());
    }

    /** What all compounds are looked at with. */
    private record Setting(
            Study study,
            Map<String, Rows> rows,
            Map<String, Rows> everything,
            Responses responses,
            PrecisionLayouts layouts,
            Map<String, Integer> places,
            Extent extent,
            Optional<WithExcluded> withExcluded,
            StudiedAmount studied,
            String level,
            PrecisionAcceptance acceptance) {}

    /** Rows of each compound. */
    private static Map<String, Rows> byCompound(InjectionTable table, Rows rows) {
        final Map<String, Rows> found = new LinkedHashMap<>();
        Screening.grouped(rows.stream().boxed().toList(), table::compound)
                .forEach(
                        (c, own) -> found.put(c, Rows.of(own.stream().mapToInt(r -> r).toArray())));
        return found;
    }

    /** Places of the injections in the order of the table. */
    private static Map<String, Integer> places(InjectionTable table) {
        final Map<String, Integer> places = new LinkedHashMap<>();
        for (int row = 0; row < table.size(); row++) {
            places.putIfAbsent(table.injection(row), places.size());
        }
        return places;
    }

    private static Part of(Setting s, String compound) {
        final Responses.Picked picked =
                s.responses().pick(s.rows().getOrDefault(compound, Rows.NONE), compound, true);
        if (picked.used().isEmpty()) {
            return new Part(
                    Stream.concat(
                                    PrecisionFindings.none(compound, s.responses().unit()).stream(),
                                    Stream.of(s.studied().of(compound, picked.rows())))
                            .toList(),
                    List.of(),
                    picked.leftOut(),
                    List.of(),
                    Optional.empty());
        }
        final List<PrecisionLevels.Level> levels =
                PrecisionLevels.among(s.study().table(), s.level(), picked);
        final Part part =
                levels.isEmpty()
                        ? alone(s, compound, picked, Optional.empty())
                        : ofLevels(s, compound, picked, levels);
        final List<Finding> findings = new ArrayList<>(part.findings());
        final Rows everywhere = s.everything().getOrDefault(compound, Rows.NONE);
        findings.add(
                SeriesFindings.carryOver(
                        s.study().table(),
                        compound,
                        everywhere,
                        s.responses().pick(everywhere, compound, true),
                        s.places(),
                        s.study().protocol().conventions().coverage()));
        final List<Flag> flags =
                Stream.concat(picked.leftOut().stream(), part.flags().stream()).toList();
        return new Part(findings, part.choices(), flags, part.figures(), part.layout());
    }

    /** Each level alone, then how scatter grows from one to the next. */
    private static Part ofLevels(
            Setting s,
            String compound,
            Responses.Picked picked,
            List<PrecisionLevels.Level> levels) {
        final Map<PrecisionLevels.Level, List<Finding>> found = new LinkedHashMap<>();
        final List<Finding> findings = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        Optional<PrecisionLayouts.Layout> layout = Optional.empty();
        for (PrecisionLevels.Level level : levels) {
            final Part part =
                    alone(s, compound, level.of(s.study().table(), picked), Optional.of(level));
            found.put(level, part.findings());
            part.findings().forEach(f -> findings.add(PrecisionLevels.at(level, f)));
            part.choices().forEach(c -> choices.add(PrecisionLevels.at(level, c)));
            flags.addAll(part.flags());
            layout = layout.or(part::layout);
        }
        final PrecisionFindings.Found growth =
                PrecisionLevels.growth(compound, found, picked.rows(), s.responses().unit());
        findings.addAll(growth.findings());
        choices.addAll(growth.choices());
        final List<Figure> figures = new ArrayList<>();
        if (s.extent().figures()) {
            figures.add(RunOrderFigure.of(s.study(), picked, compound, s.responses()));
        }
        return new Part(findings, choices, flags, figures, layout);
    }

    /** Rows of one level. */
    private static Part alone(
            Setting s,
            String compound,
            Responses.Picked picked,
            Optional<PrecisionLevels.Level> level) {
        final double coverage = s.study().protocol().conventions().coverage();
        final PrecisionLayouts.Layout layout = s.layouts().of(picked.used());
        final String unit = s.responses().unit();
        final double[] y = picked.used().stream().mapToDouble(Responses.Response::value).toArray();
        final PrecisionFindings.Found found =
                PrecisionFindings.of(compound, picked.rows(), y, unit, coverage, layout);
        final List<ScreenedRows.Item> items = items(s, picked);
        final ScreenedRows screened = ScreenedRows.of(items);
        final List<Finding> findings =
                new ArrayList<>(
                        s.withExcluded()
                                .map(w -> w.beside(compound, y.length, found.findings(), level))
                                .orElse(found.findings()));
        findings.addAll(
                SeriesFindings.of(compound, picked.rows(), items, screened, unit, coverage));
        findings.addAll(s.acceptance().of(compound, picked, found.findings()));
        findings.add(s.studied().of(compound, picked.rows()));
        return new Part(
                findings,
                found.choices(),
                Stream.concat(
                                Screening.of(s.study().table(), compound, screened).stream(),
                                found.flags().stream())
                        .toList(),
                s.extent().figures() && level.isEmpty()
                        ? figures(s, picked, compound, items, screened, findings)
                        : List.of(),
                Optional.of(layout));
    }

    private static List<ScreenedRows.Item> items(Setting s, Responses.Picked picked) {
        return picked.used().stream()
                .map(
                        r ->
                                new ScreenedRows.Item(
                                        "injection " + r.injection(),
                                        r.preparation(),
                                        s.layouts().conditions(r.row()),
                                        r.row(),
                                        s.places().getOrDefault(r.injection(), 0),
                                        r.value()))
                .toList();
    }

    private static List<Figure> figures(
            Setting s,
            Responses.Picked picked,
            String compound,
            List<ScreenedRows.Item> items,
            ScreenedRows screened,
            List<Finding> findings) {
        final List<Figure> figures = new ArrayList<>();
        figures.add(RunOrderFigure.of(s.study(), picked, compound, s.responses()));
        figures.add(ScatterFigures.dots(compound, items, screened));
        ScatterFigures.shares(compound, findings).ifPresent(figures::add);
        ScatterFigures.mandel(compound, screened).ifPresent(figures::add);
        return figures;
    }
}
