package splitledger.planning.ahead;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import splitledger.evaluation.Minima;

/**
 * Members of a ladder from n-C8 to n-C40. Mass and response of a member are wrong for all its
 * injections alike, so that a member scatters by sigma^2 = member^2 + injection^2 / m about the
 * curve, and the ratio of two of them by sqrt(2) sigma; sigma is found from all members, along a
 * straight line with members - 2 degrees of freedom.
 */
record LadderExperiment(PlanFile file, int members, int injections) implements Experiment {
    private static final int[] SIZES = {Minima.MEMBERS, 8, 10, 12, 14, 17, 21};
    private static final int LOWEST = 8;
    private static final int HIGHEST = 40;
    private static final int REFERENCE = 20;
    private static final int LEAST_INJECTIONS = 3;
    private static final int MOST_INJECTIONS = 6;
    private static final String ALKANE = "n-C";
    private static final double AMOUNT = 50;
    private static final int HINGE = 10;
    private static final int BENT = 14;

    /** The cheapest that gives what is wanted; empty if none within reach does. */
    static Optional<Experiment> of(PlanFile file) {
        for (int m = LEAST_INJECTIONS; m <= MOST_INJECTIONS; m++) {
            for (int n : SIZES) {
                final Experiment e = new LadderExperiment(file, n, m);
                if (e.chance() >= file.wanted().chance()) {
                    return Optional.of(e);
                }
            }
        }
        return Optional.empty();
    }

    /** Members of the packed table at nearly equal steps, the reference among them. */
    @Override
    public List<String> ladder() {
        final List<Integer> known =
                boiling().keySet().stream()
                        .filter(name -> name.startsWith(ALKANE))
                        .filter(
                                name ->
                                        file.standard()
                                                .filter(x -> x.compound().equals(name))
                                                .isEmpty())
                        .map(name -> Integer.parseInt(name.substring(ALKANE.length())))
                        .toList();
        final NavigableSet<Integer> chosen = new TreeSet<>(List.of(LOWEST, REFERENCE, HIGHEST));
        for (int i = 1; i < members - 1 && chosen.size() < members; i++) {
            final double aim = LOWEST + (double) (HIGHEST - LOWEST) * i / (members - 1);
            if (Math.abs(aim - REFERENCE) < (HIGHEST - LOWEST) / (2.0 * members - 2)) {
                continue;
            }
            known.stream()
                    .filter(n -> !chosen.contains(n))
                    .min(Comparator.comparingDouble(n -> Math.abs(n - aim)))
                    .ifPresent(chosen::add);
        }
        known.stream()
                .filter(n -> !chosen.contains(n))
                .limit(members - chosen.size())
                .forEach(chosen::add);
        return chosen.stream().map(n -> ALKANE + n).toList();
    }

    @Override
    public Expected expected() {
        final double sigma =
                Math.sqrt(
                        Experiment.square(file.range().member().value())
                                + Experiment.square(file.prior().injection().value()) / injections);
        return new Expected(Math.sqrt(2) * sigma, members - 2.0);
    }

    /** Boiling points of the table of alkanes that is packed with the program, degC. */
    private static Map<String, Double> boiling() {
        final Map<String, Double> all = new LinkedHashMap<>();
        table().lines()
                .skip(1)
                .map(line -> line.split(",", -1))
                .forEach(c -> all.put(c[0], Double.parseDouble(c[1])));
        return all;
    }

    /** The packed table: name, boiling point, effective carbon number, molar mass, sources. */
    static String table() {
        try (InputStream in = LadderExperiment.class.getResourceAsStream("compounds.csv")) {
            if (in == null) {
                throw new IllegalStateException("the table of compounds is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public List<List<Part>> days() {
        return List.of(List.of(Part.of("ladder", "LADDER", "ladder", injections)));
    }

    @Override
    public Map<String, Map<String, Double>> levels() {
        final Map<String, Double> each = new LinkedHashMap<>();
        ladder().forEach(name -> each.put(name, AMOUNT));
        final Map<String, Map<String, Double>> all = new LinkedHashMap<>();
        all.put("ladder", each);
        return all;
    }

    @Override
    public String block() {
        return "  discrimination: {where: {series: ladder}, reference: n-C20, expected:"
                + " carbon-number}\n";
    }

    @Override
    public int solutions() {
        return 1;
    }

    @Override
    public String figure() {
        return "heavy-to-light-ratio";
    }

    @Override
    public String compound() {
        return ALKANE + HIGHEST;
    }

    @Override
    public double wanted() {
        return file.wanted().heavy().orElseThrow();
    }

    @Override
    public String unit() {
        return "%";
    }

    @Override
    public List<Setting> settings() {
        return List.of(
                new Setting(
                        "ladder-members",
                        members,
                        "1",
                        String.join(", ", ladder())
                                + "; at least "
                                + Minima.MEMBERS
                                + "; fewer than "
                                + HINGE
                                + " cannot show where a loss begins, fewer than "
                                + BENT
                                + " not how it bends"),
                new Setting(
                        "ladder-injections",
                        injections,
                        "1",
                        "more of them do not shrink what is wrong with mass or response of a"
                                + " member"));
    }
}
