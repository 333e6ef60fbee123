package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class BodiesTests {

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "\r\n\t "})
    void cannotReadAnEmptyBody(String body) {
        assertThat(refusal(body)).hasMessage("The body is empty; JSON was expected.");
        assertThat(refusal(body).problem()).isEqualTo(Problem.UNREADABLE_BODY);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"name\": \"Zq Marker\"",
                "{\"name\": \"Zq Marker\"} {}",
                "{\"name\": \"Zq Marker\"}}",
                "{\"Marker\": 1, \"Marker\": 1}",
                "{\"a\": {\"Marker\": 1, \"b\": 2, \"Marker\": 3}}",
                "{name: \"Zq Marker\"}",
                "{'name': 'Zq Marker'}",
                "{\"name\": Marker}",
                "// Marker\n{}",
                "{\"name\": \"Zq\nMarker\"}",
                "[1, 2,]",
                "NaN",
                "0123",
                "{\"a\": 1e99999999999}"
            })
    void cannotReadBrokenJsonAndRepeatsNoneOfIt(String body) {
        Refusal refusal = refusal(body);

        assertThat(refusal.problem()).isEqualTo(Problem.UNREADABLE_BODY);
        assertThat(refusal.getMessage())
                .matches("The body is not well-formed JSON( at line [0-9]+, column [0-9]+)?\\.")
                .doesNotContain("Marker");
    }

    @Test
    void namesThePlaceWhereTheJsonBreaks() {
        assertThat(refusal("{\n  \"a\": x\n}")).hasMessageContaining("at line 2, column 8");
    }

    @Test
    void cannotReadBytesThatAreNotUtf8() {
        byte[] latin = "{\"name\": \"M\u00fcller\"}".getBytes(StandardCharsets.ISO_8859_1);

        assertThat(catchThrowableOfType(Refusal.class, () -> Bodies.json(latin)).problem())
                .isEqualTo(Problem.UNREADABLE_BODY);
    }

    @ParameterizedTest
    @CsvSource({"[, ], 20, true", "[, ], 21, false", "[, ], 5000, false"})
    void readsNestingToADepthOf20(String open, String close, int depth, boolean read) {
        String body = open.repeat(depth) + close.repeat(depth);

        assertThat(read(body)).isEqualTo(read);
    }

    @ParameterizedTest
    @CsvSource({"10000, true", "10001, false"})
    void readsTextOfUpTo10000Characters(int length, boolean read) {
        assertThat(read("{\"a\": \"" + "x".repeat(length) + "\"}")).isEqualTo(read);
    }

    @ParameterizedTest
    @CsvSource({"200, true", "201, false"})
    void readsNamesOfUpTo200Characters(int length, boolean read) {
        assertThat(read("{\"" + "x".repeat(length) + "\": 1}")).isEqualTo(read);
    }

    @ParameterizedTest
    @CsvSource({"100, true", "101, false"})
    void readsNumbersOfUpTo100Figures(int length, boolean read) {
        assertThat(read("[" + "7".repeat(length) + "]")).isEqualTo(read);
    }

    @Test
    void keepsEveryDecimalOfANumber() {
        assertThat(Bodies.json(bytes("0.1234567890123456789012345")).decimalValue())
                .isEqualTo("0.1234567890123456789012345");
    }

    @Test
    void readsABodyOfTheGreatestSizeAndNotOneByteMore() throws IOException {
        assertThat(Bodies.json(Bodies.limited(stream("{\"a\":1}"), 7)).toString())
                .isEqualTo("{\"a\":1}");
        assertThat(catchThrowableOfType(Refusal.class, () -> Bodies.json(Bodies.limited(stream("{\"a\":1} "), 7)))
                        .problem())
                .isEqualTo(Problem.TOO_LARGE);
    }

    @Test
    void countsBytesReadOneByOneAsWell() throws IOException {
        InputStream body = Bodies.limited(stream("a\u0000c"), 2);

        assertThat(body.read()).isEqualTo('a');
        assertThat(body.read()).isZero();
        Refusal refusal = catchThrowableOfType(Refusal.class, body::read);
        assertThat(refusal.problem()).isEqualTo(Problem.TOO_LARGE);
        assertThat(refusal).hasMessage("The body may have at most 2 bytes.");
    }

    @Test
    void cannotReadABodyThatBreaksOff() throws IOException {
        InputStream broken = InputStream.nullInputStream();
        broken.close();

        for (Refusal refusal : List.of(
                catchThrowableOfType(Refusal.class, () -> Bodies.json(Bodies.limited(broken, 9))),
                catchThrowableOfType(Refusal.class, () -> Rows.ndjson(Bodies.limited(broken, 9), row -> {})),
                catchThrowableOfType(Refusal.class, () -> Rows.csv(Bodies.limited(broken, 9), List.of(), row -> {})))) {
            assertThat(refusal.problem()).isEqualTo(Problem.UNREADABLE_BODY);
            assertThat(refusal).hasMessage("The body broke off before its end.");
        }
    }

    @Test
    void doesNotCountTheEndOfTheBody() throws IOException {
        InputStream body = Bodies.limited(stream("ab"), 2);

        assertThat(body.readAllBytes()).hasSize(2);
        assertThat(body.read()).isEqualTo(-1);
        assertThat(body.read(new byte[8])).isEqualTo(-1);
    }

    /** Whether the body can be read; from a stream and from its bytes alike. */
    private static boolean read(String body) {
        Refusal refusal = catchThrowableOfType(Refusal.class, () -> Bodies.json(bytes(body)));
        Refusal streamed = catchThrowableOfType(Refusal.class, () -> Bodies.json(stream(body)));
        assertThat(streamed == null).isEqualTo(refusal == null);
        return refusal == null;
    }

    private static Refusal refusal(String body) {
        Refusal streamed = catchThrowableOfType(Refusal.class, () -> Bodies.json(stream(body)));
        assertThat(streamed).as("from a stream").isNotNull();
        return catchThrowableOfType(Refusal.class, () -> Bodies.json(bytes(body)));
    }

    private static byte[] bytes(String body) {
        return body.getBytes(StandardCharsets.UTF_8);
    }

    private static InputStream stream(String body) {
        return new ByteArrayInputStream(bytes(body));
    }
}
