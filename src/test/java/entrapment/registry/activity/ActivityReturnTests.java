package entrapment.registry.activity;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;

class ActivityReturnTests {

    private static final Period QUARTER = new Period(2026, 2);

    private static final List<UseCount> ROWS = Stream.of(
                    "{'deviceClass': 'balloon', 'uses': 903}",
                    "{'deviceClass': 'balloon', 'vessel': 'lad', 'uses': 40}",
                    "{'deviceClass': 'rotational-burr', 'deviceSizeMm': 1.25, 'vessel': 'lad', 'uses': 14}",
                    "{'deviceClass': 'rotational-burr', 'deviceSizeMm': 1.5, 'vessel': 'lad', 'uses': 9}",
                    "{'deviceClass': 'rotational-burr', 'deviceSizeMm': 1.50, 'vessel': 'lad', 'uses': 2}",
                    "{'deviceClass': 'balloon', 'vessel': 'unknown', 'guideFrench': '', 'uses': 7}",
                    "{'deviceClass': 'filter', 'uses': 0}")
            .map(ActivityReturnTests::count)
            .toList();

    @Test
    void addsUpRowsOfTheSamePattern() {
        ActivityReturn sent = ActivityReturn.of(QUARTER, ROWS);

        assertThat(sent.counts())
                .containsExactlyInAnyOrder(
                        ROWS.get(0).withUses(910),
                        ROWS.get(1),
                        ROWS.get(2),
                        ROWS.get(3).withUses(11),
                        ROWS.get(6));
        assertThat(sent.uses()).isEqualTo(975);
    }

    @Test
    void isTheSameReturnInWhateverOrderItsRowsCome() {
        ActivityReturn sent = ActivityReturn.of(QUARTER, ROWS);
        Random random = new Random(20310401);
        for (int round = 0; round < 200; round++) {
            List<UseCount> shuffled = new ArrayList<>(ROWS);
            Collections.shuffle(shuffled, random);

            assertThat(ActivityReturn.of(QUARTER, shuffled)).isEqualTo(sent).hasToString(sent.toString());
        }
    }

    @Test
    void isTheSameReturnHoweverItsRowsAreSplit() {
        List<UseCount> split = new ArrayList<>();
        ROWS.forEach(
                row -> split.addAll(List.of(row.withUses(row.uses() / 3), row.withUses(row.uses() - row.uses() / 3))));

        assertThat(ActivityReturn.of(QUARTER, split)).isEqualTo(ActivityReturn.of(QUARTER, ROWS));
    }

    @Test
    void isAnotherReturnWhereOneCountDiffers() {
        List<UseCount> other = new ArrayList<>(ROWS);
        other.set(1, ROWS.get(1).withUses(41));

        assertThat(ActivityReturn.of(QUARTER, other)).isNotEqualTo(ActivityReturn.of(QUARTER, ROWS));
    }

    @Test
    void keepsAPatternWithoutUsesAndAReturnWithoutPatterns() {
        assertThat(ActivityReturn.of(QUARTER, List.of(ROWS.get(6))).counts()).containsExactly(ROWS.get(6));
        assertThat(ActivityReturn.of(QUARTER, List.of()))
                .isEqualTo(new ActivityReturn(QUARTER, List.of()))
                .returns(0L, ActivityReturn::uses);
    }

    private static UseCount count(String json) {
        return Fields.read(JsonMapper.shared().readTree(json.replace('\'', '"')), UseCount::read)
                .orRefuse();
    }
}
