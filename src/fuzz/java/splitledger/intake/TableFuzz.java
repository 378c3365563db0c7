package splitledger.intake;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;

/**
 * Any bytes as a table or, where the first byte is odd, as a protocol: they are read, or refused
 * with problems. Whatever else is thrown is a fault.
 */
public final class TableFuzz {
    private static final String PROTOCOL =
            """
            splitledger: 1
            tables:
              - {file: t.csv, zero-means: measured, unmatched: ignore, joins-on: injection}
              - {file: areas.csv, zero-means: not-detected, states: {saturated: SAT}, threshold: 1}
            compounds: {targets: [a]}
            """;
    private static final String AREAS = "injection,compound,area\n1,a,2.5\n";

    private TableFuzz() {}

    /** Called by the fuzzer. */
    public static void fuzzerTestOneInput(byte[] bytes) throws IOException {
        if (bytes.length == 0) {
            return;
        }
        final byte[] rest = Arrays.copyOfRange(bytes, 1, bytes.length);
        final Map<String, byte[]> files = new TreeMap<>();
        files.put("protocol.yaml", PROTOCOL.getBytes(StandardCharsets.UTF_8));
        files.put("areas.csv", AREAS.getBytes(StandardCharsets.UTF_8));
        files.put("t.csv", "injection,series\n1,s\n".getBytes(StandardCharsets.UTF_8));
        switch (bytes[0] & 3) {
            case 0 -> files.put("areas.csv", rest);
            case 1 -> files.put("protocol.yaml", rest);
            case 2 -> files.put("t.csv", rest);
            default -> files.put("areas.csv", concat("injection;compound;area\n1;a;", rest));
        }
        try {
            StudyReader.read(new MemoryVault(files), "protocol.yaml");
        } catch (ProblemException e) {
            if (e.problems().isEmpty() || String.valueOf(e.getMessage()).indexOf(0x1b) >= 0) {
                throw new IllegalStateException("a refusal without words, or with what acts", e);
            }
        }
    }

    private static byte[] concat(String start, byte[] rest) {
        final byte[] first = start.getBytes(StandardCharsets.UTF_8);
        final byte[] all = Arrays.copyOf(first, first.length + rest.length);
        System.arraycopy(rest, 0, all, first.length, rest.length);
        return all;
    }
}
