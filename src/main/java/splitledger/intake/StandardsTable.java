package splitledger.intake;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.propagation.Uncertain;
import splitledger.study.Doubles;
import splitledger.study.InjectionTable;
import splitledger.study.Protocol;
import splitledger.study.Rows;
import splitledger.study.StandardAmounts;
import splitledger.study.Standards;
import splitledger.study.Trail;
import splitledger.study.Where;

/**
 * Gives the calibrants of a table the amounts that follow from how they were made. Where the table
 * states amounts too, both must agree within twice the standard uncertainty of the calculated one
 * and half a unit of the last digit that the table gives, but no more than 1 % for the latter.
 */
final class StandardsTable {
    private static final String AMOUNT = "amount";

    /** Amounts of a table are not taken to be rounded more coarsely than to 1 %. */
    private static final double ROUNDED = 0.01;

    private final Standards standards;
    private final Protocol protocol;
    private final Reading reading;
    private final Set<String> told = new LinkedHashSet<>();

    StandardsTable(Standards standards, Protocol protocol, Reading reading) {
        this.standards = standards;
        this.protocol = protocol;
        this.reading = reading;
    }

    /** The table with those amounts; problems where they cannot be told, or contradict. */
    InjectionTable applied(InjectionTable table) {
        final String unit = protocol.conventions().amountUnit();
        if (!StandardAmounts.knownUnits().contains(unit)) {
            reading.problem(
                    standards.place(),
                    "amounts in '" + unit + "'",
                    "a mass concentration, such as mg/L",
                    "state it: conventions: {amount-unit: mg/L}; known are "
                            + String.join(", ", StandardAmounts.knownUnits()));
            return table;
        }
        final Optional<Rows> calibrants =
                Optional.ofNullable(protocol.characteristics().get("calibration"))
                        .map(c -> table.rows(Where.of(c.mapping("where"))));
        if (calibrants.isEmpty()) {
            reading.choice(
                    "How the calibrants were made is not used",
                    "the protocol asks for no calibration",
                    "as stated in the protocol");
            return table;
        }
        return filled(table, calibrants.get(), StandardAmounts.of(standards, unit));
    }

    private InjectionTable filled(InjectionTable table, Rows rows, StandardAmounts amounts) {
        final double[] column =
                IntStream.range(0, table.size())
                        .mapToDouble(r -> table.number(AMOUNT, r))
                        .toArray();
        final int[] known =
                rows.stream()
                        .filter(
                                row ->
                                        standards
                                                .solution(table, row)
                                                .flatMap(
                                                        s -> amounts.amount(s, table.compound(row)))
                                                .isPresent())
                        .toArray();
        if (known.length == 0) {
            final Set<String> labels = new LinkedHashSet<>();
            rows.stream().forEach(row -> labels.add(table.label("level", row)));
            reading.problem(
                    standards.place(),
                    "no solution that a calibrant names as its level, or weighs its compound",
                    "solutions named as the levels of the tables: "
                            + Reading.listed(labels.stream().sorted().toList()),
                    Nearest.hint(
                            labels.stream().findFirst().orElse(""),
                            standards.solutions().keySet()));
            return table;
        }
        for (int row : known) {
            final String solution = standards.solution(table, row).orElse("");
            amounts.amount(solution, table.compound(row))
                    .ifPresent(
                            amount -> {
                                compare(table, row, solution, amount);
                                column[row] = amount.value();
                            });
        }
        tellOthers(table, rows, known);
        return table.withNumbers(AMOUNT, Doubles.of(column));
    }

    private void compare(InjectionTable table, int row, String solution, Uncertain amount) {
        final double stated = table.number(AMOUNT, row);
        if (Double.isNaN(stated)) {
            return;
        }
        final double lastDigit =
                BigDecimal.ONE
                        .movePointLeft(new BigDecimal(Numbers.text(stated)).scale())
                        .doubleValue();
        final double rounding = Math.min(lastDigit / 2, ROUNDED * Math.abs(stated));
        final double limit = 2 * amount.standardUncertainty() + rounding;
        final String what = table.compound(row) + " in " + solution;
        if (Math.abs(stated - amount.value()) > limit && told.add(what + stated)) {
            reading.problem(
                    table.place(row)
                            .problem(
                                    Numbers.text(stated) + " " + amount.unit() + " of " + what,
                                    Trail.digits(amount.value())
                                            + " +- "
                                            + Trail.digits(limit)
                                            + " "
                                            + amount.unit()
                                            + ", as it was made by the protocol's standards",
                                    "an answer to: which is right? Mend the table or standards; or take"
                                            + " the column of amounts out, or the block standards"));
        }
    }

    private void tellOthers(InjectionTable table, Rows rows, int[] known) {
        final Set<String> others = new LinkedHashSet<>();
        final Set<Integer> calculated = new LinkedHashSet<>();
        Arrays.stream(known).forEach(calculated::add);
        rows.stream()
                .filter(row -> !calculated.contains(row) && table.number(AMOUNT, row) > 0)
                .forEach(
                        row -> {
                            final String level = table.label("level", row);
                            others.add(
                                    table.compound(row) + (level.isEmpty() ? "" : " in " + level));
                        });
        if (!others.isEmpty()) {
            reading.choice(
                    "Amounts of the tables stay where the standards do not tell them: "
                            + Reading.listed(others.stream().sorted().toList()),
                    "no solution of this name holds the compound",
                    "as stated in the tables");
        }
    }
}
