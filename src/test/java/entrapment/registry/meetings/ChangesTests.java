package entrapment.registry.meetings;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Limits;
import entrapment.registry.vocabulary.Filters;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class ChangesTests {

    private static final Changes.Reasons NOTHING = new Changes.Reasons(0, 0, 0, 0, 0);

    private static Answer answer(List<List<@Nullable Object>> rows) {
        return new Answer(
                "incidence",
                "How often?",
                "",
                List.of(new Exhibit(
                        "By class",
                        "",
                        null,
                        List.of(
                                Column.of("Class", Column.Kind.TEXT),
                                Column.of("Cases", Column.Kind.COUNT),
                                Column.of("Rate", Column.Kind.PER_THOUSAND),
                                Column.of("95 % CI", Column.Kind.PER_THOUSAND),
                                Column.of("Remark", Column.Kind.TEXT)),
                        rows)),
                List.of(),
                List.of(),
                new Answer.Basis("", "", 1, null, Filters.NONE, 0.95));
    }

    private static List<@Nullable Object> row(String name, @Nullable Long cases, @Nullable Double rate) {
        return Arrays.asList(name, cases, rate, new Limits(rate, rate), "words");
    }

    private static Changes changes(Answer before, Answer after) {
        return Changes.of(new DataCut(3, null), new DataCut(9, null), NOTHING, List.of(before), List.of(after));
    }

    @Test
    void namesEveryCellThatReadsOtherwiseAndNoOther() {
        Changes changes = changes(
                answer(List.of(row("balloon", 2L, 0.002), row("stent", 5L, null), row("burr", 1L, 0.1))),
                answer(List.of(row("balloon", 3L, 0.002), row("burr", 1L, 0.1), row("filter", null, 0.5))));

        assertThat(changes.figures())
                .extracting(each -> each.row() + " " + each.column() + " " + each.before() + " " + each.after())
                .containsExactly(
                        "balloon Cases 2 3",
                        "stent Cases 5 null",
                        "stent Rate (per 1,000) – null",
                        "stent 95 % CI (per 1,000) – null",
                        "filter Cases null –",
                        "filter Rate (per 1,000) null 500.0",
                        "filter 95 % CI (per 1,000) null 500.0 to 500.0");
        assertThat(changes.sentence())
                .isEqualTo("Between revision 3 and revision 9: nothing of this meeting's periods was sent; 7 figures"
                        + " changed.");
    }

    @Test
    void tellsRowsOfTheSameNameApart() {
        Changes changes = changes(
                answer(List.of(row("cell", 1L, null), row("cell", 2L, null))),
                answer(List.of(row("cell", 1L, null), row("cell", 4L, null))));

        assertThat(changes.figures()).hasSize(1);
        assertThat(changes.figures().get(0).row()).isEqualTo("cell (2)");
    }
}
