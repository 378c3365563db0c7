package splitledger.study;

import java.util.List;

/**
 * What a characteristic is: generates its part of the protocol schema, its lines of {@code
 * quantities.csv} and its help.
 *
 * @param id in the protocol and in files
 * @param title short, for headings
 * @param question it answers
 * @param options it takes
 * @param quantities it may give
 * @param needs ids of characteristics whose findings it uses
 */
public record Card(
        String id,
        String title,
        String question,
        List<Option> options,
        List<Quantity> quantities,
        List<String> needs) {
    public Card {
        options = List.copyOf(options);
        quantities = List.copyOf(quantities);
        needs = List.copyOf(needs);
    }

    /**
     * One option in the protocol.
     *
     * @param name its key
     * @param form what may stand there
     * @param allowed the words of a {@link Form#WORD}; empty: any
     * @param required whether it must be there
     * @param meaning in words, with what happens without it
     */
    public record Option(
            String name, Form form, List<String> allowed, boolean required, String meaning) {
        public Option {
            allowed = List.copyOf(allowed);
        }
    }

    /** What may stand at an option. */
    public enum Form {
        /** Conditions on columns. */
        WHERE,
        /** One of some words. */
        WORD,
        /** Any text. */
        TEXT,
        /** A text or a list of texts. */
        TEXTS,
        /** A number. */
        NUMBER,
        /** Names, each with another name. */
        NAMES,
        /** A number, or names each with a number. */
        NUMBERS,
        /** A text, a list of texts, or names each with such. */
        GROUPS
    }

    /** Kinds of quantity. */
    public enum Kind {
        ESTIMATE("estimate"),
        BOUND("bound"),
        STATISTIC("statistic");

        private final String code;

        Kind(String code) {
            this.code = code;
        }

        /** The name in files. */
        public String code() {
            return code;
        }
    }

    /**
     * One quantity it may give.
     *
     * @param name in files
     * @param kind estimate, bound or statistic
     * @param unit in words: {@code response}, {@code amount}, {@code %}, {@code 1}, ...
     * @param conditions names of conditions it may carry
     * @param meaning in words
     */
    public record Quantity(
            String name, Kind kind, String unit, List<String> conditions, String meaning) {
        public Quantity {
            conditions = List.copyOf(conditions);
        }
    }
}
