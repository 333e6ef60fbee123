package entrapment.registry.exports.slides;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class SlideCsvTests {

    @Test
    void aPointIsARowOfExactNumbers() {
        NamedCsvRecord row = rows(DeckSamples.incidence()).get(0);

        assertThat(row.getHeader())
                .containsExactly(
                        "slide",
                        "slideTitle",
                        "item",
                        "series",
                        "events",
                        "of",
                        "estimate",
                        "lower",
                        "upper",
                        "unit",
                        "sentence",
                        "note",
                        "method",
                        "dataCut");
        assertThat(row.getFields())
                .containsExactly(
                        "1",
                        "How often does each kind of device become entrapped?",
                        "Guidewire, polymer-jacketed, hydrophilic tip",
                        "",
                        "12",
                        "4031",
                        "0.002976928802",
                        "0",
                        "0.004924272454",
                        "proportion",
                        "In words: Guidewire, polymer-jacketed, hydrophilic tip.",
                        "3 returns are missing for 2031-Q2. Retrospective registry data: associations in recorded cases,"
                                + " not proof of cause.",
                        "Wilson score interval (Wilson 1927)",
                        "data cut: revision 812, 2031-07-01");
    }

    /** What a slide has no room for is here. */
    @Test
    void listsEveryPoint() {
        assertThat(rows(DeckSamples.techniques())).hasSize(20);
        assertThat(rows(DeckSamples.many(Figure.Kind.FOREST, 200))).hasSize(200);
        assertThat(rows(DeckSamples.series()))
                .extracting(row -> row.getField("item") + "/" + row.getField("series"))
                .startsWith("Centre A/calcified lesions", "Centre A/other lesions");
    }

    @Test
    void anOpenEndIsInfiniteAndAnUnknownOneEmpty() {
        List<NamedCsvRecord> rows = rows(DeckSamples.forest());

        assertThat(rows.get(9).getField("upper")).isEqualTo("Inf");
        assertThat(rows.get(9).getField("unit")).isEqualTo("ratio");
        assertThat(rows.get(10).getField("estimate")).isEmpty();
        assertThat(rows.get(10).getField("events")).isEqualTo("3");
    }

    @Test
    void anOrderOfTechniquesIsARowWithItsCases() {
        NamedCsvRecord row = rows(DeckSamples.flow()).get(1);

        assertThat(row.getField("item")).isEqualTo("Twin-wire twist → Microcatheter exchange");
        assertThat(row.getField("series")).isEqualTo("part left in the vessel");
        assertThat(row.getField("events")).isEqualTo("38");
    }

    @Test
    void aTableWithoutAFigureIsARowForEachOfItsRows() {
        Exhibit exhibit = Objects.requireNonNull(DeckSamples.tableOnly().exhibit());
        List<NamedCsvRecord> rows = rows(DeckSamples.tableOnly());

        assertThat(rows).hasSize(exhibit.rows().size());
        assertThat(rows.get(0).getField("item")).isEqualTo("Gentle traction");
        assertThat(rows.get(0).getField("sentence"))
                .isEqualTo("Events: 54; Uses: 90; Estimate (%): 60.0; 95 % interval (%): 50.5 to 69.5; Remark: more");
    }

    @Test
    void aLineOfTextIsARowAndASlideWithNothingIsOneWithItsSentence() {
        assertThat(rows(DeckSamples.text(14)))
                .extracting(row -> row.getField("sentence"))
                .containsExactlyElementsOf(DeckSamples.text(14).lines());
        assertThat(rows(DeckSamples.empty(Figure.Kind.FUNNEL)))
                .extracting(row -> row.getField("sentence"))
                .containsExactly("No uses were returned for this period.");
    }

    @Test
    void theCautionStandsBesideTheTable() {
        assertThat(SlideCsv.of(DeckSamples.deck(false)).comments())
                .contains(
                        " caution: Retrospective registry data; small numbers mislead; not advice during a procedure.");
    }

    private static List<NamedCsvRecord> rows(Slide slide) {
        String csv = CsvWriter.write(SlideCsv.of(DeckSamples.deck(false, slide)), false);
        return CsvReader.builder().ofNamedCsvRecord(csv).stream().toList();
    }
}
