package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HexFormat;
import org.junit.jupiter.api.Test;

class FingerprintTests {

    /** NIST, examples with intermediate values for FIPS 180-4: the message "abc"; and the empty message. */
    @Test
    void isTheSha256OfTheStandardsExamples() {
        assertThat(Fingerprint.hex("abc"))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assertThat(Fingerprint.hex("")).isEqualTo("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    }

    /** GNU coreutils: {@code printf 'ü' | sha256sum} in a UTF-8 locale. */
    @Test
    void countsTextAsUtf8() {
        assertThat(Fingerprint.hex("\u00fc"))
                .isEqualTo("607474ca475a9724d7360aba71a56d5df77e61350e3f724cfa1f46e857e2d85f");
    }

    @Test
    void hasTheSameBytesAsItsFigures() {
        assertThat(HexFormat.of().formatHex(Fingerprint.bytes("abc"))).isEqualTo(Fingerprint.hex("abc"));
    }
}
