package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Example digests of FIPS 180-2, appendix B (SHA-256), from memory; the empty text beside them. */
class DigestsTest {
    static Stream<Arguments> published() {
        return Stream.of(
                Arguments.of(
                        "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
                Arguments.of(
                        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"),
                Arguments.of(
                        "a".repeat(1_000_000),
                        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"),
                Arguments.of(
                        "", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"));
    }

    @ParameterizedTest
    @MethodSource("published")
    void agreesWithThePublishedDigests(String text, String digest) throws IOException {
        final byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);

        assertThat(Digests.sha256(bytes)).isEqualTo(digest);
        assertThat(Digests.sha256(new ByteArrayInputStream(bytes))).isEqualTo(digest);
    }
}
