package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

class EntryTests {

    @Test
    void readsArraysInArraysInOrder() {
        Reading<?> reading = read(
                "{'cells': [[1, null], [3]]}",
                fields -> fields.list(
                        "cells", 2, row -> row.list(2, cell -> cell.isNull() ? "hidden" : "" + cell.whole(0, 9))));

        assertThat(reading).isEqualTo(new Reading.Valid<>(List.of(List.of("1", "hidden"), List.of("3"))));
    }

    @Test
    void pointsAtEachEntryThatCannotBeRead() {
        assertThat(errors(
                        "{'cells': [[1, 1.5, -1, 10, '1', 1e400], 7, [1, 1, 1, 1, 1, 1, 1]]}",
                        fields -> fields.list("cells", 3, row -> row.list(6, cell -> cell.whole(0, 9)))))
                .containsExactly(
                        "/cells/0/1 wrong-type",
                        "/cells/0/2 out-of-range",
                        "/cells/0/3 out-of-range",
                        "/cells/0/4 wrong-type",
                        "/cells/0/5 out-of-range",
                        "/cells/1 wrong-type",
                        "/cells/2 too-many");
        assertThat(errors("{'p': [0, 1, 0.5, true]}", fields -> fields.list("p", 9, entry -> entry.probability())))
                .containsExactly("/p/0 out-of-range", "/p/1 out-of-range", "/p/3 wrong-type");
        assertThat(errors("{'y': [0, -2, null]}", fields -> fields.list("y", 9, entry -> entry.real(-1, 1))))
                .containsExactly("/y/1 out-of-range", "/y/2 wrong-type");
        assertThat(errors("{'names': ['a', '', 3]}", fields -> fields.list("names", 9, Entry::text)))
                .containsExactly("/names/1 wrong-type", "/names/2 wrong-type");
    }

    @Test
    void namesTheFieldAndThePlaceInIt() {
        Reading<?> reading = read(
                "{'cells': [[-1]]}", fields -> fields.list("cells", 1, row -> row.list(1, cell -> cell.whole(0, 9))));

        assertThat(reading)
                .isEqualTo(new Reading.Refused<>(
                        List.of(new FieldError("/cells/0/0", "out-of-range", "cells/0/0 must be in [0, 9]"))));
    }

    @Test
    void asksForWhatMustBeGiven() {
        assertThat(errors(
                        "{'c': 1, 'f': null}",
                        fields -> List.of(
                                fields.list("a", 9, Entry::text),
                                fields.requiredReal("b", 0, 1),
                                fields.requiredProbability("c"),
                                fields.requiredProbability("d"),
                                fields.flag("e", true),
                                fields.requiredObjects("f", 9, row -> row.requiredText("name")))))
                .containsExactly("/a missing", "/b missing", "/c out-of-range", "/d missing", "/f missing");
    }

    @Test
    void leavesTheRestOfAHopelessArrayUnread() {
        assertThat(errors(
                        "{'outcomes': [" + "2,".repeat(99_999) + "2]}",
                        fields -> fields.list("outcomes", 100_000, use -> use.whole(0, 1))))
                .hasSize(1_000)
                .contains("/outcomes/999 out-of-range");
    }

    private static List<String> errors(String body, Function<Fields, ?> reader) {
        return FieldErrors.in(read(body, reader));
    }

    private static Reading<?> read(String body, Function<Fields, ?> reader) {
        return Fields.read(Bodies.json(body.replace('\'', '"').getBytes(StandardCharsets.UTF_8)), reader::apply);
    }
}
