package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Period;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.json.JsonMapper;

/** RFC 9110, section 13.1.1. */
class IfMatchTests {

    @ParameterizedTest
    @CsvSource(
            quoteCharacter = '\'',
            value = {
                "'\"3\"', true",
                "'\"2\"', false",
                "'\"33\"', false",
                "*, true",
                "3, false",
                "'W/\"3\"', false",
                "'\"1\", \"3\"', true",
                "'\"1\",\"2\"', false",
                "'  \"3\"  ', true",
                "'\"1\",*', true",
                "'', false"
            })
    void allowsTheStoredVersionAlone(String header, boolean allowed) {
        IfMatch ifMatch = IfMatch.of(header);

        assertThat(ifMatch.given()).isTrue();
        assertThat(ifMatch.allows(stored(3))).isEqualTo(allowed);
    }

    @Test
    void allowsNothingWithoutAHeader() {
        assertThat(IfMatch.of(null).given()).isFalse();
        assertThat(IfMatch.of(null).allows(stored(3))).isFalse();
    }

    private static StoredCase stored(int version) {
        EntrapmentCase content = Fields.read(
                        JsonMapper.shared().readTree(CaseSamples.aCase().json()),
                        fields -> EntrapmentCase.read(fields, new Period(2026, 3)))
                .orRefuse();
        return new StoredCase("test-centre", "QK7-A4TZ", version, 17, null, content);
    }
}
