package entrapment.registry.vocabulary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import entrapment.registry.vocabulary.Period.Resolution;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;

class PeriodTests {

    @ParameterizedTest
    @ValueSource(strings = {"1990-Q1", "2031-Q2", "2031-Q3", "2100-Q4", "1990", "2031", "2100"})
    void writesBackWhatItRead(String text) {
        assertThat(Period.parse(text)).map(Period::toString).contains(text);
    }

    @Test
    void readsYearAndQuarter() {
        assertThat(Period.parse("2031-Q2")).contains(new Period(2031, 2));
        assertThat(Period.parse("2031")).contains(new Period(2031, 0));
        assertThat(new Period(2031, 2).resolution()).isEqualTo(Resolution.QUARTER);
        assertThat(new Period(2031, 0).resolution()).isEqualTo(Resolution.YEAR);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "2031-Q0",
                "2031-Q5",
                "2031-q2",
                "31-Q2",
                "2031Q2",
                "2031-Q",
                "2031-Q22",
                "2031-02",
                " 2031-Q2",
                "2031-Q2 ",
                "2031-Q2\n",
                "-2031-Q2",
                "02031-Q2",
                "1989-Q4",
                "1989",
                "2101",
                "31",
                "2031-",
                "2031 ",
                "20310",
                "٢٠٣١",
                "2101-Q1",
                "٢٠٣١-Q2"
            })
    void refusesEveryOtherText(String text) {
        assertThat(Period.parse(text)).isEmpty();
    }

    @Test
    void sortsByYearThenQuarter() {
        assertThat(new Period(2030, 4)).isLessThan(new Period(2031, 1));
        assertThat(new Period(2031, 1)).isLessThan(new Period(2031, 2));
        assertThat(new Period(2031, 2)).isEqualByComparingTo(new Period(2031, 2));
        assertThat(new Period(2030, 0)).isLessThan(new Period(2031, 0));
    }

    @Test
    void movesOnWithinAYearAndOverItsEnd() {
        assertThat(new Period(2031, 3).next()).isEqualTo(new Period(2031, 4));
        assertThat(new Period(2031, 4).next()).isEqualTo(new Period(2032, 1));
        assertThat(new Period(2100, 4).next()).isEqualTo(new Period(2101, 1));
        assertThat(new Period(2031, 0).next()).isEqualTo(new Period(2032, 0));
    }

    @Test
    void beginsWithItsFirstDay() {
        assertThat(new Period(2031, 0).begins()).isEqualTo(2031);
        assertThat(new Period(2031, 1).begins()).isEqualTo(2031);
        assertThat(new Period(2031, 4).begins()).isEqualTo(2031.75);
    }

    @ParameterizedTest
    @CsvSource({
        "2031-01-01, 2031-Q1", "2031-03-31, 2031-Q1", "2031-04-01, 2031-Q2", "2031-06-30, 2031-Q2",
        "2031-07-01, 2031-Q3", "2031-09-30, 2031-Q3", "2031-10-01, 2031-Q4", "2031-12-31, 2031-Q4"
    })
    void findsTheQuarterAndTheYearOfADay(LocalDate day, String period) {
        assertThat(Period.of(day, Resolution.QUARTER)).hasToString(period);
        assertThat(Period.of(day, Resolution.YEAR)).hasToString("2031");
    }

    @Test
    void cannotBeBuiltOutsideTheCalendar() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Period(2031, 5))
                .withMessage("quarter must be in [0, 4], got 5");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Period(2031, -1))
                .withMessage("quarter must be in [0, 4], got -1");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Period(31, 2))
                .withMessage("year must have four digits, got 31");
    }

    @Test
    void isATextInJson() {
        assertThat(JsonMapper.shared().writeValueAsString(new Period(2031, 2))).isEqualTo("\"2031-Q2\"");
        assertThat(JsonMapper.shared().writeValueAsString(new Period(2031, 0))).isEqualTo("\"2031\"");
    }
}
