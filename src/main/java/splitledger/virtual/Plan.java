package splitledger.virtual;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;

/** What a design says of the bench: days, batches of injections, incidents. */
public final class Plan {
    private Plan() {}

    /**
     * A working day; sessions follow each other, the order within a session is drawn.
     *
     * @param label as in the run list
     * @param start of the first injection
     */
    public record Day(String label, LocalDate date, LocalTime start, List<List<Batch>> sessions) {
        public Day {
            sessions = sessions.stream().map(List::copyOf).toList();
        }
    }

    /**
     * Injections of one kind: every analyst prepares every level or oil so many times.
     *
     * @param experiment series in the run list
     * @param flask label of one flask, or beginning of the labels of several
     * @param numbered whether flasks are numbered on, through the whole design
     * @param analysts who prepares and injects
     * @param levels what is added; empty if nothing
     * @param oils what is weighed; empty if nothing
     * @param preparations independent preparations of each
     * @param injections of each preparation at each setting
     * @param splits ratios, each a set-up of its own; empty: the working ratio of the day
     * @param temperatures of the inlet, degC; empty: the working temperature
     * @param occasion empty if none
     * @param instruments each of which gets every solution; empty: the only one, without a label
     * @param onColumn whether injected cold onto the column, past needle, liner and split
     */
    public record Batch(
            String experiment,
            String flask,
            boolean numbered,
            List<String> analysts,
            List<String> levels,
            List<String> oils,
            int preparations,
            int injections,
            List<Double> splits,
            List<Double> temperatures,
            String occasion,
            List<String> instruments,
            boolean onColumn) {
        public Batch {
            instruments = List.copyOf(instruments);
            analysts = List.copyOf(analysts);
            levels = List.copyOf(levels);
            oils = List.copyOf(oils);
            splits = List.copyOf(splits);
            temperatures = List.copyOf(temperatures);
        }
    }

    /**
     * One injection out of a vial that was not closed: solvent evaporates and everything left is
     * more concentrated, but the volatile compounds evaporate with it.
     *
     * @param flask its label
     * @param injection which injection of that flask, from 1
     * @param solventLost share of the solvent
     * @param compoundLost share lost of a compound that boils at {@code at}
     * @param at degC
     * @param fall degC over which the lost share falls by the factor e
     */
    public record Incident(
            String flask,
            int injection,
            Parameter solventLost,
            Parameter compoundLost,
            Parameter at,
            Parameter fall) {}
}
