package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import splitledger.base.ProblemException;
import splitledger.study.InjectionTable;

/** Tables that are built and then written in many ways, or broken. */
class BrokenTablesProperties {
    private static final List<String> COMPOUNDS = List.of("limonene", "linalool");

    /**
     * How a table is written.
     *
     * @param delimiter between cells
     * @param decimal mark
     * @param end of lines
     * @param charset encoding
     * @param preamble lines above the header
     * @param extra empty cells behind each row
     */
    record Manner(
            char delimiter, char decimal, String end, String charset, int preamble, int extra) {}

    @Property(tries = 200)
    @Label("however a table is written, the same numbers are read")
    void mannerDoesNotMatter(@ForAll("areas") List<Double> areas, @ForAll("manners") Manner manner)
            throws ProblemException, IOException {
        final InjectionTable table =
                StudyReader.read(
                                files(written(areas, manner)).vault(),
                                StudyFiles.PROTOCOL,
                                StudyFiles.exampleSchema())
                        .table();

        for (int i = 0; i < areas.size(); i++) {
            assertThat(table.area(i)).as("%s in %s", areas.get(i), manner).isEqualTo(areas.get(i));
        }
    }

    @Property(tries = 300)
    @Label("a table with bytes changed, lost or added is read or refused with messages, no more")
    void brokenBytesEndInWords(
            @ForAll("areas") List<Double> areas,
            @ForAll("manners") Manner manner,
            @ForAll Random random)
            throws IOException {
        final byte[] broken = broken(written(areas, manner), random);
        try {
            StudyReader.read(
                    files(broken).vault(), StudyFiles.PROTOCOL, StudyFiles.exampleSchema());
        } catch (ProblemException e) {
            assertThat(e.problems()).isNotEmpty();
            assertThat(e.getMessage()).doesNotContain("\u0000", "\u001b").contains("expected");
        }
    }

    private static byte[] broken(byte[] bytes, Random random) {
        final List<Byte> all = new ArrayList<>();
        for (byte b : bytes) {
            all.add(b);
        }
        final int faults = 1 + random.nextInt(4);
        for (int i = 0; i < faults && !all.isEmpty(); i++) {
            final int at = random.nextInt(all.size());
            final byte any =
                    "\",;\n\r\t.0-\u0000\u001bE"
                            .getBytes(StandardCharsets.US_ASCII)[random.nextInt(12)];
            switch (random.nextInt(4)) {
                case 0 -> all.set(at, any);
                case 1 -> all.add(at, any);
                case 2 -> all.remove(at);
                default -> all.set(at, (byte) random.nextInt(256));
            }
        }
        final byte[] broken = new byte[all.size()];
        for (int i = 0; i < broken.length; i++) {
            broken[i] = all.get(i);
        }
        return broken;
    }

    private static StudyFiles files(byte[] areas) {
        return StudyFiles.protocol(
                        """
                        splitledger: 1
                        tables: [{file: areas.csv, form: wide, zero-means: measured}]
                        compounds: {targets: [limonene, linalool]}
                        """)
                .with("studies/oil/areas.csv", areas);
    }

    private static byte[] written(List<Double> areas, Manner m) {
        final StringBuilder text = new StringBuilder();
        for (int i = 0; i < m.preamble(); i++) {
            text.append("Sequence ").append(i).append(m.end());
        }
        final String extra = String.valueOf(m.delimiter()).repeat(m.extra());
        text.append("injection" + m.delimiter() + String.join("" + m.delimiter(), COMPOUNDS));
        text.append(m.delimiter()).append("Präp").append(extra).append(m.end());
        for (int i = 0; i < areas.size(); i += COMPOUNDS.size()) {
            text.append('A').append(i);
            for (int k = 0; k < COMPOUNDS.size(); k++) {
                text.append(m.delimiter()).append(number(areas.get(i + k), m));
            }
            text.append(m.delimiter()).append("Ä").append(extra).append(m.end());
        }
        return text.toString().getBytes(Charset.forName(m.charset()));
    }

    private static String number(double area, Manner m) {
        final String plain = new java.math.BigDecimal(Double.toString(area)).toPlainString();
        final String marked = plain.replace('.', m.decimal());
        return m.decimal() == m.delimiter() ? '"' + marked + '"' : marked;
    }

    @Provide
    Arbitrary<Manner> manners() {
        return Combinators.combine(
                        Arbitraries.of(',', ';', '\t', '|'),
                        Arbitraries.of('.', ','),
                        Arbitraries.of("\n", "\r\n", "\r"),
                        Arbitraries.of("UTF-8", "UTF-16LE", "UTF-16BE", "windows-1252"),
                        Arbitraries.integers().between(0, 5),
                        Arbitraries.integers().between(0, 3))
                .as(Manner::new);
    }

    /** With two decimals, so that the mark of each number can be told; one such number is there. */
    @Provide
    Arbitrary<List<Double>> areas() {
        return Arbitraries.longs()
                .between(-1_000_000, 900_000_000)
                .map(n -> (n * 10 + 5) / 100.0 + 0.0)
                .list()
                .ofMinSize(1)
                .ofMaxSize(10)
                .map(
                        list -> {
                            final List<Double> even = new ArrayList<>(list);
                            even.addAll(list);
                            even.set(0, 1234.25);
                            return even;
                        });
    }
}
