package splitledger.intake;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import splitledger.base.Vault;
import splitledger.study.Place;

/** Names as the protocol writes them, relative to its own folder, made names of the vault. */
final class InputFolder {
    private final Vault vault;
    private final String folder;
    private final Reading reading;

    /**
     * The folder of a protocol.
     *
     * @param protocolName name of the protocol in the vault
     */
    InputFolder(Vault vault, String protocolName, Reading reading) {
        this.vault = vault;
        folder = protocolName.substring(0, protocolName.lastIndexOf('/') + 1);
        this.reading = reading;
    }

    /**
     * The vault's name of a file that is there.
     *
     * @param place of the key that names it
     * @param written the name as written
     * @return its name; empty, with a problem, if it is missing or leads outside
     */
    Optional<String> find(Place place, String written) {
        if (written.indexOf('\\') >= 0) {
            reading.problem(
                    place,
                    "'" + written + "'",
                    "a name with / between folders",
                    "write '" + written.replace('\\', '/') + "'");
            return Optional.empty();
        }
        if (written.startsWith("/") || written.matches("[A-Za-z]:.*")) {
            reading.problem(
                    place,
                    "'" + written + "'",
                    "a name relative to the protocol",
                    "put the file beside the protocol and name it from there");
            return Optional.empty();
        }
        final Optional<String> name = normalised(folder + written);
        if (name.isEmpty()) {
            reading.problem(
                    place,
                    "'" + written + "', which leads outside the folder that may be read",
                    "a file below that folder",
                    "start the program in a folder that holds both, or put the file beside the"
                            + " protocol");
            return Optional.empty();
        }
        if (!vault.exists(name.get())) {
            reading.problem(
                    place,
                    "'" + written + "', which is not there",
                    "a file that can be read",
                    "names are relative to the folder of the protocol: check name and folder");
            return Optional.empty();
        }
        return name;
    }

    /** Opens a name that was found. */
    InputStream open(String name) throws IOException {
        return vault.open(name);
    }

    /** The name without {@code .} and {@code ..}; empty if it climbs out. */
    private static Optional<String> normalised(String name) {
        final Deque<String> parts = new ArrayDeque<>();
        for (String part : name.split("/", -1)) {
            if (part.equals("..")) {
                if (parts.isEmpty()) {
                    return Optional.empty();
                }
                parts.removeLast();
            } else if (!part.isEmpty() && !part.equals(".")) {
                parts.addLast(part);
            }
        }
        return Optional.of(String.join("/", parts));
    }
}
