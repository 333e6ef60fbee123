package entrapment.registry.reports;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What people read in the place of codes. */
class WordsTests {

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            deviceClass: fewer than two levels in use. | Device: fewer than two levels in use.
            deviceClass rotational-burr: left out. | Device rotational atherectomy burr: left out.
            totalOcclusion yes: the ratio may differ. | Chronic total occlusion: the ratio may differ.
            calcification severe: a stratum was left out. | Calcification severe: a stratum was left out.
            perforation-iii: unknown in 1 of 3 cases. | Perforation type III: unknown in 1 of 3 cases.
            trend: Scores are few. (OUT_OF_REACH) | Trend: Scores are few.
            2029-Q1: left out, because 5 in 4 contradict each other. | 2029-Q1: left out, because 5 in 4 contradict each other.
            A case and its return may differ: read with care. | A case and its return may differ: read with care.
            """)
    void readsANoteWithoutCodes(String note, String read) {
        assertThat(Words.read(note)).isEqualTo(read);
    }
}
