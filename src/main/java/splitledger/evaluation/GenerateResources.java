package splitledger.evaluation;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import splitledger.base.CsvText;
import splitledger.base.FolderVault;
import splitledger.base.Vault;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.study.Card;

/**
 * Writes what the cards generate: the protocol's schema (the frame with one block a characteristic)
 * and {@code quantities.csv}. Run by the build after compiling; a test holds resources and cards
 * equal.
 */
public final class GenerateResources {
    /** Resource of the frame, read. */
    static final String FRAME = "/splitledger/intake/protocol-frame.schema.json";

    /** Resource of the schema, written. */
    static final String SCHEMA = "splitledger/protocol.schema.json";

    /** Name of the schema beside the protocols, for editors. */
    static final String PUBLISHED = "protocol.schema.json";

    /** Resource of the quantities, written. */
    static final String QUANTITIES = "splitledger/quantities.csv";

    private GenerateResources() {}

    /**
     * Writes the resources.
     *
     * @param arguments the folder of compiled classes; then, if wanted, the folder in which the
     *     schema is published for editors
     * @throws IOException if the frame cannot be read or the folder not written
     */
    public static void main(String[] arguments) throws IOException {
        final Vault out = FolderVault.of(arguments[0]);
        out.write(SCHEMA, schema());
        out.write(QUANTITIES, quantities());
        if (arguments.length > 1) {
            publish(FolderVault.of(arguments[1]));
        }
    }

    /** Keeps the published copy as it is if nothing changed, so that a build leaves no trace. */
    private static void publish(Vault folder) throws IOException {
        final byte[] schema = schema();
        if (!folder.exists(PUBLISHED) || !Arrays.equals(folder.read(PUBLISHED), schema)) {
            folder.write(PUBLISHED, schema);
        }
    }

    /** Every card, the budget's last. */
    static List<Card> cards() {
        final List<Card> cards =
                new ArrayList<>(Catalogue.all().stream().map(Characteristic::card).toList());
        cards.add(Budgets.card());
        return cards;
    }

    /** The protocol's schema. */
    static byte[] schema() throws IOException {
        final ObjectMapper mapper = new ObjectMapper();
        try (InputStream in = GenerateResources.class.getResourceAsStream(FRAME)) {
            if (in == null) {
                throw new IOException("the resource " + FRAME + " is missing");
            }
            final ObjectNode root = (ObjectNode) mapper.readTree(in);
            final ObjectNode blocks =
                    (ObjectNode) root.at("/properties/characteristics/properties");
            for (Characteristic c : Catalogue.all()) {
                blocks.set(c.card().id(), block(mapper, c.card()));
            }
            final ObjectNode quantity =
                    (ObjectNode) root.at("/$defs/criterion/properties/quantity");
            final ArrayNode names = quantity.putArray("enum");
            new TreeSet<>(
                            cards().stream()
                                    .flatMap(c -> c.quantities().stream())
                                    .map(Card.Quantity::name)
                                    .toList())
                    .forEach(names::add);
            final String text = mapper.writerWithDefaultPrettyPrinter().writeValueAsString(root);
            return (text.replace("\r\n", "\n") + "\n").getBytes(StandardCharsets.UTF_8);
        }
    }

    /** The quantities: characteristic, quantity, kind, unit, conditions, meaning. */
    static byte[] quantities() {
        final CsvText csv =
                new CsvText(
                        List.of(
                                "characteristic",
                                "quantity",
                                "kind",
                                "unit",
                                "conditions",
                                "meaning"));
        for (Card card : cards()) {
            for (Card.Quantity q : card.quantities()) {
                csv.cell(card.id()).cell(q.name()).cell(q.kind().code()).cell(q.unit());
                csv.cell(String.join(";", q.conditions())).cell(q.meaning()).endRow();
            }
        }
        return csv.bytes();
    }

    private static ObjectNode block(ObjectMapper mapper, Card card) {
        final ObjectNode block = mapper.createObjectNode();
        block.put("type", "object").put("title", card.title()).put("description", card.question());
        block.put("additionalProperties", false);
        final ObjectNode properties = block.putObject("properties");
        final ArrayNode required = mapper.createArrayNode();
        for (Card.Option option : card.options()) {
            final ObjectNode one = properties.putObject(option.name());
            one.put("title", title(option.name())).put("description", option.meaning());
            form(one, option);
            if (option.required()) {
                required.add(option.name());
            }
        }
        if (!required.isEmpty()) {
            block.set("required", required);
        }
        return block;
    }

    /** The name of an option as a heading: {@code mean-of} becomes {@code Mean of}. */
    private static String title(String name) {
        final String words = name.replace('-', ' ').replace('_', ' ');
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    private static void form(ObjectNode one, Card.Option option) {
        switch (option.form()) {
            case WHERE -> one.put("$ref", "#/$defs/where");
            case NUMBER -> one.put("type", "number");
            case TEXT -> one.put("type", "string");
            case NAMES ->
                    one.put("type", "object")
                            .putObject("additionalProperties")
                            .put("type", "string");
            case TEXTS -> {
                texts(one.putArray("oneOf"));
            }
            case NUMBERS -> {
                final ArrayNode choices = one.putArray("oneOf");
                choices.addObject().put("type", "number");
                choices.addObject()
                        .put("type", "object")
                        .putObject("additionalProperties")
                        .put("type", "number");
            }
            case GROUPS -> {
                final ArrayNode choices = one.putArray("oneOf");
                texts(choices);
                texts(
                        choices.addObject()
                                .put("type", "object")
                                .putObject("additionalProperties")
                                .putArray("oneOf"));
            }
            case WORD -> {
                final ArrayNode words = one.putArray("enum");
                option.allowed().forEach(words::add);
            }
        }
    }

    /** A text or a list of texts. */
    private static void texts(ArrayNode choices) {
        choices.addObject().put("type", "string");
        choices.addObject().put("type", "array").putObject("items").put("type", "string");
    }
}
