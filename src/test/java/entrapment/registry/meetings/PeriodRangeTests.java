package entrapment.registry.meetings;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PeriodRangeTests {

    @ParameterizedTest
    @CsvSource({
        "2026-Q1, 2026-Q1, 1, 2025-Q4, 2025-Q4",
        "2026-Q1, 2026-Q2, 2, 2025-Q3, 2025-Q4",
        "2025-Q3, 2026-Q2, 4, 2024-Q3, 2025-Q2",
        "2024, 2026, 3, 2021, 2023"
    })
    void isPrecededByAsManyPeriods(String from, String to, int length, String beforeFrom, String beforeTo) {
        PeriodRange span = PeriodRange.of(from, to);

        assertThat(span.length()).isEqualTo(length);
        assertThat(span.before()).isEqualTo(PeriodRange.of(beforeFrom, beforeTo));
    }
}
