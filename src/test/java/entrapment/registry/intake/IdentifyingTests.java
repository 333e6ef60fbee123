package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.JsonNodeFactory;

/** Which shapes may say who somebody is: common practice, no single source. */
class IdentifyingTests {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "QRM-P6G9G4",
                "case-2031-0001",
                "ABC12345",
                "QK7-A4TZ",
                "12345-A-67890",
                "2031-Q2-17",
                "A1B2C3D4E5F6",
                "abcdef",
                "------",
                "case-99-100",
                "K-00012-x"
            })
    void acceptsAnOpaqueKey(String key) {
        assertThat(checked(key)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "1961-03-12",
                "1961-3-12",
                "12-03-1961",
                "3-12-1961",
                "12-03-61",
                "61-03-12",
                "K-1961-03-12-a",
                "19610312",
                "610312",
                "12-Mar-1961",
                "12mar61",
                "1-march-1961",
                "x-12-DEC-61",
                "Mar-12-1961",
                "1961-Mar-12",
                "1961mar12"
            })
    void refusesAKeyInTheShapeOfADate(String key) {
        assertThat(checked(key)).containsExactly("/caseKey key-identifying");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"123456", "MRN1234567", "a000000b", "0171-555-0123", "555-0123-456", "44-207-9460", "123-45-6789"
            })
    void refusesAKeyInTheShapeOfARecordOrTelephoneNumber(String key) {
        assertThat(checked(key)).containsExactly("/caseKey key-identifying");
    }

    @ParameterizedTest
    @CsvSource({"12345, true", "123456, false"})
    void drawsTheLineAtSixFiguresInARow(String figures, boolean accepted) {
        assertThat(checked("case-" + figures + "-x").isEmpty()).isEqualTo(accepted);
        assertThat(Identifying.looksLike(figures)).isEqualTo(!accepted);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "abcde",
                "abcdefghijabcdefghijabcdefghijabcdefghijk",
                "Smith, John",
                "case_0001",
                "case.0001",
                "j@example",
                "Müller1",
                "case-1\n",
                "case/0001"
            })
    void refusesAKeyOfAnotherFormat(String key) {
        assertThat(checked(key)).containsExactly("/caseKey key-format");
    }

    @Test
    void acceptsKeysOf6To40Characters() {
        assertThat(checked("abcdef")).isEmpty();
        assertThat(checked("abcdefghij".repeat(4))).isEmpty();
    }

    private static List<String> checked(String key) {
        return FieldErrors.in(Fields.read(JsonNodeFactory.instance.objectNode(), fields -> {
            Identifying.checkKey(fields, "caseKey", key);
            return fields.has("caseKey");
        }));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "born 12.03.1961",
                "12/3/61",
                "1961/03/12",
                "12 March 1961",
                "on 3 Jan 31",
                "call 0171 555 0123",
                "555.0123.456",
                "+44 20 7946 0000",
                "+4420",
                "john@example.org",
                "http://example.org",
                "see HTTPS://example.org",
                "record 1234567",
                "Mar 12, 1961",
                "March 12th 1961",
                "12th of March 1961",
                "12. 3. 1961",
                "(555) 123-4567",
                "www.example.org"
            })
    void seesDatesNumbersAndAddressesInText(String text) {
        assertThat(Identifying.looksLike(text)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "St Invented's Hospital, cath lab 2",
                "1.25 mm burr",
                "7 Fr guide, 3.5 x 28",
                "45-64 beds",
                "room 12345",
                "2031-Q2",
                "quarter 2 of 2031",
                "13/14 labs",
                "ratio 3.2.1"
            })
    void passesOverTextThatIdentifiesNobody(String text) {
        assertThat(Identifying.looksLike(text)).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "North lab, ''",
        "'', /name missing",
        "'   ', /name text-format",
        "123456789012345678901, /name text-format",
        "lab of 12.03.1961, /name text-identifying",
        "j@example.org, /name text-identifying"
    })
    void readsALabelThatIdentifiesNobody(String text, String error) {
        assertThat(String.join(", ", FieldErrors.in(label(text)))).isEqualTo(error);
    }

    @Test
    void readsALabelOfOneLineAndOfTheGreatestLength() {
        assertThat(label("abcdefghijklmnopqrst").orRefuse()).isEqualTo("abcdefghijklmnopqrst");
        assertThat(FieldErrors.in(label("abcdefghijklmnopqrstu"))).containsExactly("/name text-format");
        assertThat(FieldErrors.in(label("two\nlines"))).containsExactly("/name text-format");
        assertThat(FieldErrors.in(label("a\u0000b"))).containsExactly("/name text-format");
    }

    private static Reading<String> label(String text) {
        return Fields.read(
                JsonNodeFactory.instance.objectNode().put("name", text),
                fields -> Identifying.label(fields, "name", 20));
    }
}
