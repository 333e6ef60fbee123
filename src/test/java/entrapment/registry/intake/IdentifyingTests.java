package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
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
                "case-31-001",
                "ABC12345",
                "QK7-A4TZ",
                "QX7-4TZ",
                "a1b2c3-d4",
                "1a2b3c-4d5e6f",
                "9f86-d081-884c",
                "lab-2-bed-14",
                "case-2026-27-b",
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
            strings = {
                "123456",
                "MRN1234567",
                "a000000b",
                "0171-555-0123",
                "555-0123-456",
                "44-207-9460",
                "555-0123",
                "12-34-56",
                "123-456",
                "MRN123-456",
                "123-456A",
                "M12-34-56A",
                "12345-678",
                "1-2-3-4-5-6",
                "12--34--56",
                "2031-0001",
                "case-2031-0001"
            })
    void refusesAKeyInTheShapeOfARecordOrTelephoneNumber(String key) {
        assertThat(checked(key)).containsExactly("/caseKey key-identifying");
    }

    /** The shapes: US SSN 3-2-4, UK NHS 3-3-4 and NINO, US Medicare (invented, of the published format), a card of 16. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "123-45-6789",
                "943-476-5919",
                "9434765919",
                "QQ123456C",
                "QQ-12-34-56-C",
                "AB1234567",
                "1EG4-TE5-MK73",
                "1eg4te5mk73",
                "4111-1111-1111-1111",
                "5102222223333-6"
            })
    void refusesAKeyInTheShapeOfANationalOrInsuranceNumber(String key) {
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
                "555 0123",
                "12 34 56 78",
                "12,34,56,78",
                "12_34_56",
                "12/34/56/78",
                "4111 1111 1111 1111",
                "943 476 5919",
                "QQ 12 34 56 C",
                "patient 1EG4-TE5-MK73",
                "www.example.org",
                "example.org",
                "see lab.example.com/rota",
                "ftp://files",
                "john (at) example",
                "host 10.0.0.7"
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
                "ratio 3.2.1",
                "coordinator 2026/27",
                "analyst, 2026-2027",
                "labs 1, 2, 3, 4, 5 and 6",
                "labs 1, 2, 3, 4, 5, 6",
                "St. Com. of the Shore",
                "Dr. Ch. Invented's room",
                "½ of the beds"
            })
    void passesOverTextThatIdentifiesNobody(String text) {
        assertThat(Identifying.looksLike(text)).isFalse();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\u0661\u0662\u0663\u0664\u0665\u0666",
                "\u06F1\u06F9\u06F6\u06F1-\u06F0\u06F3-\u06F1\u06F2",
                "\u0967\u0968\u0969\u096A\u096B\u096C",
                "\uFF11\uFF12\uFF13\uFF14\uFF15\uFF16",
                "\uFF11\uFF12\uFF0D\uFF10\uFF13\uFF0D\uFF16\uFF11",
                "\uD835\uDFCF\uD835\uDFD0\uD835\uDFD1\uD835\uDFD2\uD835\uDFD3\uD835\uDFD4",
                "\u2460\u2461\u2462\u2463\u2464\u2465",
                "12\u201103\u201161",
                "12\u201303\u201361",
                "12\u221203\u221261",
                "12\u221203\u22121961",
                "12\uFF0E03\uFF0E1961",
                "12\u00B703\u00B71961",
                "12\u204403\u20441961",
                "12\uFF0F03\uFF0F61",
                "12\u00A003\u00A01961",
                "12\u200903\u20091961",
                "12\u200B34\u200B56",
                "12\u00AD34\u00AD56",
                "1\u03362\u03363\u03364\u03365\u03366",
                "12\u260534\u260556",
                "12 \uFF2Darch 1961",
                "john\uFF20example",
                "john\uFE6Bexample",
                "http\uFF1A//example",
                "\uFF0B4420"
            })
    void seesThroughFiguresOfOtherScriptsAndLookAlikeSeparators(String text) {
        assertThat(Identifying.looksLike(text)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\u5317\u90E8\u5B9E\u9A8C\u5BA4",
                "Laboratoire de l\u2019\u00C9t\u00E9",
                "Labor \u2014 N\u00F6rd",
                "\u0661\u0662"
            })
    void passesOverNamesInOtherScripts(String text) {
        assertThat(Identifying.looksLike(text)).isFalse();
        assertThat(label(text).orRefuse()).isEqualTo(text);
    }

    /** A text of which each character would be tried as a beginning would take minutes. */
    @ParameterizedTest
    @ValueSource(strings = {"a", "-", "mar", "1a", " ", "a.", "1-a", "12,", "12 a", "2026-27 a "})
    void readsATextOfAMillionCharactersOnce(String piece) {
        assertThat(Identifying.looksLike(piece.repeat(1_000_000 / piece.length())))
                .isEqualTo(piece.equals("12,"));
    }

    @Test
    void checksAKeyThatCasesAreLookedForBy() {
        assertThat(asked("QX7-4TZ")).isEmpty();
        assertThat(asked("12-34-56")).containsExactly("/procedureKey key-identifying");
        assertThat(asked("short")).containsExactly("/procedureKey key-format");
    }

    private static List<String> asked(String key) {
        return FieldErrors.in(Parameters.read(Map.of("procedureKey", List.of(key)), parameters -> {
            Identifying.checkKey(parameters, "procedureKey", key);
            return parameters.one("procedureKey").isPresent();
        }));
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
        assertThat(FieldErrors.in(label("two\u2028lines"))).containsExactly("/name text-format");
        assertThat(FieldErrors.in(label("two\u2029lines"))).containsExactly("/name text-format");
        assertThat(FieldErrors.in(label("a\u0000b"))).containsExactly("/name text-format");
    }

    private static Reading<String> label(String text) {
        return Fields.read(
                JsonNodeFactory.instance.objectNode().put("name", text),
                fields -> Identifying.label(fields, "name", 20));
    }
}
