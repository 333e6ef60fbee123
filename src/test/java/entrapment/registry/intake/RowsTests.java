package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import entrapment.registry.intake.CsvColumn.Kind;
import entrapment.registry.intake.Rows.Row;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RowsTests {

    private static final List<CsvColumn> COLUMNS = List.of(
            new CsvColumn("key", "/key", Kind.TEXT),
            new CsvColumn("size", "/device/size", Kind.NUMBER),
            new CsvColumn("marks", "/device/marks", Kind.SET),
            new CsvColumn("attempt1Technique", "/attempts/0/technique", Kind.TEXT),
            new CsvColumn("attempt1Minutes", "/attempts/0/minutes", Kind.NUMBER),
            new CsvColumn("attempt2Technique", "/attempts/1/technique", Kind.TEXT),
            new CsvColumn("attempt3Technique", "/attempts/2/technique", Kind.TEXT));

    @Test
    void makesOfACsvRowTheTreeOfItsJson() {
        assertThat(csv("""
                        key,size,marks,attempt1Technique,attempt1Minutes,attempt2Technique
                        K-1,1.25,cut;removed,pull,3,snare
                        """))
                .containsExactly("2 {\"key\":\"K-1\",\"device\":{\"size\":1.25,\"marks\":[\"cut\",\"removed\"]},"
                        + "\"attempts\":[{\"technique\":\"pull\",\"minutes\":3},{\"technique\":\"snare\"}]}");
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n"})
    void readsEitherLineEndWithOrWithoutOneAtTheEnd(String end) {
        List<String> rows = List.of("2 {\"key\":\"A\"}", "3 {\"key\":\"B\"}");

        assertThat(csv(String.join(end, "key", "A", "B"))).isEqualTo(rows);
        assertThat(csv(String.join(end, "key", "A", "B", ""))).isEqualTo(rows);
    }

    @Test
    void toleratesAByteOrderMark() {
        assertThat(csv("\uFEFFkey,size\nA,2\n")).containsExactly("2 {\"key\":\"A\",\"device\":{\"size\":2}}");
    }

    @Test
    void toleratesAByteOrderMarkBeforeAQuotedHeader() {
        assertThat(csv("\uFEFF\"key\",\"size\"\nA,2\n")).containsExactly("2 {\"key\":\"A\",\"device\":{\"size\":2}}");
    }

    @Test
    void refusesALineWhoseNumberIsBeyondAllBoundsAndGoesOn() {
        assertThat(ndjson("{\"a\": 1e99999999999}\n{}\n")).containsExactly("1 !  unreadable-line", "2 {}");
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n"})
    void numbersTheRowsAfterAQuotedLineBreakByTheirOwnLines(String end) {
        assertThat(csv(String.join(end, "key,size", "\"one", "two", "three\",2", "B,3", "\"C\",4")))
                .containsExactly(
                        "2 {\"key\":\"one" + end.replace("\r", "\\r").replace("\n", "\\n") + "two"
                                + end.replace("\r", "\\r").replace("\n", "\\n")
                                + "three\",\"device\":{\"size\":2}}",
                        "5 {\"key\":\"B\",\"device\":{\"size\":3}}",
                        "6 {\"key\":\"C\",\"device\":{\"size\":4}}");
    }

    @Test
    void passesOverEmptyLinesButCountsThem() {
        assertThat(csv("\nkey,size\n\nA,2\n\n\nB,3\n\n"))
                .containsExactly(
                        "4 {\"key\":\"A\",\"device\":{\"size\":2}}", "7 {\"key\":\"B\",\"device\":{\"size\":3}}");
    }

    @Test
    void readsQuotedCommasAndDoubledQuotesAndStripsBlanks() {
        assertThat(csv("key, size \n\"a, \"\"b\"\"\", 2 \n  ,\n"))
                .containsExactly("2 {\"key\":\"a, \\\"b\\\"\",\"device\":{\"size\":2}}", "3 {}");
    }

    @ParameterizedTest
    @CsvSource({
        "1.25, 1.25",
        "-3, -3",
        "0.20, 0.20",
        "12345678901234567890, 12345678901234567890",
    })
    void readsANumberInPlainFigures(String cell, String number) {
        assertThat(csv("size\n" + cell + "\n")).containsExactly("2 {\"device\":{\"size\":" + number + "}}");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e9", "1E+99", "+3", ".5", "5.", "1 25", "0x10", "NaN", "Infinity", "1.2.3", "١"})
    void leavesWhatIsNoPlainNumberAsTextToBeRefused(String cell) {
        assertThat(csv("size\n" + cell + "\n")).containsExactly("2 {\"device\":{\"size\":\"" + cell + "\"}}");
    }

    @Test
    void keepsAnEmptyElementOfASetToBeRefused() {
        assertThat(csv("key,marks\nA, cut ; ;removed\nB,\n"))
                .containsExactly(
                        "2 {\"key\":\"A\",\"device\":{\"marks\":[\"cut\",\"\",\"removed\"]}}", "3 {\"key\":\"B\"}");
    }

    @Test
    void leavesAGapInTheAttemptsEmptySoThatItIsRefusedThere() {
        assertThat(csv("attempt1Technique,attempt2Technique,attempt3Technique\n,,snare\npull,,\n"))
                .containsExactly(
                        "2 {\"attempts\":[{},{},{\"technique\":\"snare\"}]}",
                        "3 {\"attempts\":[{\"technique\":\"pull\"}]}");
    }

    @Test
    void refusesARowOfAnotherLengthAndGoesOn() {
        assertThat(csv("key,size\nA\nB,2,3\nC,4\n\"a,2\nD,5"))
                .containsExactly(
                        "2 !  row-shape",
                        "3 !  row-shape",
                        "4 {\"key\":\"C\",\"device\":{\"size\":4}}",
                        "5 !  row-shape");
    }

    @Test
    void refusesEveryUnknownAndRepeatedColumnByItsPlace() {
        Refusal refusal = refusedCsv("key,John Smith,size,key,colour\nA,,,,\n");

        assertThat(refusal.problem()).isEqualTo(Problem.REFUSED);
        assertThat(FieldErrors.in(refusal.errors()))
                .containsExactly(
                        "/columns/1 unknown-column", "/columns/3 repeated-column", "/columns/4 unknown-column");
        assertThat(refusal.errors().toString()).doesNotContain("Smith", "colour");
        assertThat(refusal.errors().get(0).detail())
                .isEqualTo("column 2 is unknown; columns may be key, size, marks, attempt1Technique, attempt1Minutes,"
                        + " attempt2Technique, attempt3Technique");
    }

    @ParameterizedTest
    @ValueSource(strings = {"key,size", "key,size\n", "key,size\r\n\r\n"})
    void readsNothingFromAHeaderAlone(String body) {
        assertThat(csv(body)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n", "\r\n\r\n"})
    void cannotReadAnEmptyCsv(String body) {
        Refusal refusal = refusedCsv(body);

        assertThat(refusal.problem()).isEqualTo(Problem.UNREADABLE_BODY);
        assertThat(refusal).hasMessage("The body is empty; CSV with a header row was expected.");
    }

    @Test
    void cannotReadCsvThatIsNotUtf8() {
        byte[] latin = "key\nA\nM\u00fcller\n".getBytes(StandardCharsets.ISO_8859_1);

        Refusal refusal = catchThrowableOfType(
                Refusal.class, () -> Rows.csv(new ByteArrayInputStream(latin), COLUMNS, row -> {}));

        assertThat(refusal.problem()).isEqualTo(Problem.UNREADABLE_BODY);
        assertThat(refusal).hasMessage("The body is not well-formed CSV in UTF-8.");
    }

    @Test
    void cannotReadCsvWithTextBehindAClosingQuote() {
        assertThat(refusedCsv("key,size\n\"A\"B,2\n").problem()).isEqualTo(Problem.UNREADABLE_BODY);
    }

    @Test
    void saysThatACsvIsTooLargeNotThatItIsUnreadable() {
        InputStream body = Bodies.limited(bytes("key,size\nA,1\nB,2\n"), 12);

        assertThat(catchThrowableOfType(Refusal.class, () -> Rows.csv(body, COLUMNS, row -> {}))
                        .problem())
                .isEqualTo(Problem.TOO_LARGE);
    }

    @Test
    void stopsWhereTheReaderOfTheRowsRefuses() {
        AtomicInteger seen = new AtomicInteger();

        Refusal refusal = catchThrowableOfType(
                Refusal.class,
                () -> Rows.csv(bytes("key\nA\nB\nC\n"), COLUMNS, row -> {
                    if (seen.incrementAndGet() == 2) {
                        throw Problem.TOO_LARGE.refusal("enough");
                    }
                }));

        assertThat(refusal.problem()).isEqualTo(Problem.TOO_LARGE);
        assertThat(seen).hasValue(2);
    }

    @Test
    void handsOverRowsWhileTheBodyIsStillArriving() {
        AtomicInteger seen = new AtomicInteger();
        InputStream body = Bodies.limited(bytes("{}\n".repeat(100_000)), 250_000);

        Refusal refusal = catchThrowableOfType(Refusal.class, () -> Rows.ndjson(body, row -> seen.incrementAndGet()));

        assertThat(refusal.problem()).isEqualTo(Problem.TOO_LARGE);
        assertThat(seen).hasValueGreaterThan(50_000);
    }

    @Test
    void readsOneJsonValueALineAndCountsEmptyLines() {
        assertThat(ndjson("{\"a\": 1}\n\n  \t\r\n{\"a\": 2}\r\n[3]\n"))
                .containsExactly("1 {\"a\":1}", "4 {\"a\":2}", "5 [3]");
    }

    @Test
    void readsALastLineWithoutALineEnd() {
        assertThat(ndjson("{\"a\":1}\n{\"a\":2}")).containsExactly("1 {\"a\":1}", "2 {\"a\":2}");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n \n"})
    void refusesAnEmptyNdjsonWhichIsMoreLikelyAFailedExport(String body) {
        assertThatThrownBy(() -> ndjson(body))
                .isInstanceOfSatisfying(
                        Refusal.class, refusal -> assertThat(refusal.problem()).isEqualTo(Problem.UNREADABLE_BODY));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"a\": 1",
                "{\"a\": 1} {\"a\": 2}",
                "{\"a\": 1, \"a\": 2}",
                "{a: 1}",
                "Smith",
                "\"Smith",
                "[1,]"
            })
    void refusesABrokenLineWithoutRepeatingItAndGoesOn(String line) {
        assertThat(rows(line + "\n{\"b\":1}\n"))
                .containsExactly(
                        new Row(
                                1,
                                new Reading.Refused<>(List.of(new FieldError(
                                        "", "unreadable-line", "the line is not one well-formed JSON value")))),
                        rows("\n{\"b\":1}").get(0));
    }

    @Test
    void refusesALineThatIsNotUtf8AndGoesOn() {
        List<String> told = new ArrayList<>();

        Rows.ndjson(
                new ByteArrayInputStream("\"M\u00fcller\"\n{}\n".getBytes(StandardCharsets.ISO_8859_1)),
                row -> told.add(told(row)));

        assertThat(told).containsExactly("1 !  unreadable-line", "2 {}");
    }

    @Test
    void doesNotTakeANulByteForTheEnd() {
        assertThat(ndjson("\u0000\n{}\n\u0000{}\n{}"))
                .containsExactly("1 !  unreadable-line", "2 {}", "3 !  unreadable-line", "4 {}");
    }

    @Test
    void readsALineOf65536BytesAndNoLonger() {
        String longest = "{}" + " ".repeat(65_534);

        assertThat(ndjson(longest + "\n" + longest + "\n{}\n")).containsExactly("1 {}", "2 {}", "3 {}");
        Refusal refusal = catchThrowableOfType(Refusal.class, () -> ndjson("{}\n" + longest + " \n{}\n"));
        assertThat(refusal.problem()).isEqualTo(Problem.TOO_LARGE);
        assertThat(refusal).hasMessage("Line 2 is longer than 65536 bytes.");
    }

    private static Refusal refusedCsv(String body) {
        return catchThrowableOfType(Refusal.class, () -> csv(body));
    }

    private static List<String> csv(String body) {
        List<String> rows = new ArrayList<>();
        Rows.csv(bytes(body), COLUMNS, row -> rows.add(told(row)));
        return rows;
    }

    private static List<Row> rows(String body) {
        List<Row> rows = new ArrayList<>();
        Rows.ndjson(bytes(body), rows::add);
        return rows;
    }

    private static List<String> ndjson(String body) {
        return rows(body).stream().map(RowsTests::told).toList();
    }

    /** The line's number, then the tree, or an exclamation mark and what is wrong. */
    private static String told(Row row) {
        return row.line() + " "
                + (row.tree() instanceof Reading.Valid<?> valid
                        ? String.valueOf(valid.value())
                        : "! " + String.join(", ", FieldErrors.in(row.tree())));
    }

    private static InputStream bytes(String body) {
        return new ByteArrayInputStream(body.getBytes(StandardCharsets.UTF_8));
    }
}
