package entrapment.registry.exports;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvWriterTests {

    @Test
    void endsEveryRowWithCarriageReturnAndLineFeed() {
        assertThat(CsvWriter.write(table(row("a", 1L), row("b", 2L)), false)).isEqualTo("name,value\r\na,1\r\nb,2\r\n");
    }

    @Test
    void writesAHeaderEvenWithoutRows() {
        assertThat(CsvWriter.write(table(), false)).isEqualTo("name,value\r\n");
    }

    @Test
    void leavesACellEmptyWhereThereIsNoFigure() {
        assertThat(CsvWriter.write(table(row("a", null)), false)).endsWith("\r\na,\r\n");
    }

    @Test
    void quotesCommasQuotesAndLineBreaks() {
        assertThat(CsvWriter.write(table(row("one, two", "say \"no\""), row("a\nb", "c\r\nd")), false))
                .isEqualTo("name,value\r\n\"one, two\",\"say \"\"no\"\"\"\r\n\"a\nb\",\"c\r\nd\"\r\n");
    }

    @ParameterizedTest
    @ValueSource(strings = {"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", "-"})
    void putsAnApostropheBeforeTextThatASpreadsheetWouldRun(String text) {
        assertThat(cells(CsvWriter.write(table(row(text, 0L)), false))).containsExactly("'" + text, "0");
    }

    @ParameterizedTest
    @ValueSource(strings = {"a=1", "1-2", "none", "40-44", "'quoted", " ", "2-or-more"})
    void leavesOtherTextAsItIs(String text) {
        assertThat(cells(CsvWriter.write(table(row(text, "")), false))).containsExactly(text, "");
    }

    @Test
    void leavesANumberThatStartsWithAMinusANumber() {
        assertThat(CsvWriter.write(table(row(-3L, -2.5), row(-1, Double.NEGATIVE_INFINITY)), false))
                .isEqualTo("name,value\r\n-3,-2.5\r\n-1,-Inf\r\n");
    }

    @Test
    void writesADecimalNumberToTenFiguresAndAWholeOneInFull() {
        assertThat(CsvWriter.write(table(row(2.0 / 3, 12_345_678_901_234L)), false))
                .endsWith("\r\n0.6666666667,12345678901234\r\n");
    }

    @Test
    void writesCommentsFirstAndOnlyIfAskedFor() {
        Table table = new Table(List.of(" one", "two", "three\nfour"), List.of("name"), List.of(row("a").cells()));

        assertThat(CsvWriter.write(table, true)).isEqualTo("# one\r\n#two\r\n#three\r\n#four\r\nname\r\na\r\n");
        assertThat(CsvWriter.write(table, false)).isEqualTo("name\r\na\r\n");
    }

    @Test
    void doesNotLetACellLookLikeAComment() {
        assertThat(CsvWriter.write(table(row("#a", "#b")), false)).startsWith("name,value\r\n\"#a\",");
    }

    @Test
    void refusesARowOfAnotherWidthThanTheHeader() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> table(row("a", 1L), row("b")))
                .withMessage("a row must have 2 cells, got 1");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> table(row("a", 1L, 2L)))
                .withMessage("a row must have 2 cells, got 3");
    }

    @Test
    void aTableDoesNotChangeWithTheListsItWasMadeFrom() {
        List<String> columns = new ArrayList<>(List.of("name"));
        List<List<@Nullable Object>> rows = new ArrayList<>();
        rows.add(row("a").cells());
        Table table = new Table(List.of(), columns, rows);

        columns.add("more");
        rows.clear();

        assertThat(CsvWriter.write(table, false)).isEqualTo("name\r\na\r\n");
    }

    private record Row(List<@Nullable Object> cells) {}

    private static Row row(@Nullable Object... cells) {
        return new Row(Arrays.asList(cells));
    }

    private static Table table(Row... rows) {
        return new Table(
                List.of(),
                List.of("name", "value"),
                Stream.of(rows).map(Row::cells).toList());
    }

    /** The cells of the only row, read back by a reader of CSV. */
    private static List<String> cells(String csv) {
        List<CsvRecord> rows = CsvReader.builder().ofCsvRecord(csv).stream().toList();
        assertThat(rows).hasSize(2);
        return rows.get(1).getFields();
    }
}
