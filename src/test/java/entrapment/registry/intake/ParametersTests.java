package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.vocabulary.Calcification;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ParametersTests {

    @Test
    void answersEveryErrorAtOnce() {
        Map<String, List<String>> given = Map.of(
                "from", List.of("2031-6"),
                "confidence", List.of("95"),
                "size", List.of("0"),
                "calcification", List.of("stony,mild,hard"),
                "method", List.of("guess"));

        assertThat(FieldErrors.in(Parameters.read(
                        given,
                        parameters -> List.of(
                                parameters.period("from"),
                                parameters.decimal("confidence", 0.5, 0.9999),
                                parameters.whole("size", 1, 200),
                                parameters.codes("calcification", Calcification.class),
                                parameters.choice("method", "wilson", "jeffreys")))))
                .containsExactly(
                        "/from not-a-period",
                        "/confidence out-of-range",
                        "/size out-of-range",
                        "/calcification not-a-code",
                        "/calcification not-a-code",
                        "/method not-a-code");
    }

    @Test
    void refusesAParameterNobodyAskedForWithoutRepeatingIt() {
        Reading<?> reading = Parameters.read(
                Map.of("John Smith", List.of("x"), "by", List.of("y")),
                parameters -> List.of(parameters.list("by"), parameters.one("from")));

        assertThat(reading)
                .isEqualTo(new Reading.Refused<>(List.of(new FieldError(
                        "", "unknown-parameter", "1 of the parameters are not known here; they may be by, from"))));
    }

    @Test
    void takesAListRepeatedOrJoinedByCommasAndEachValueOnce() {
        assertThat(list("vessel", "lesion")).containsExactly("vessel", "lesion");
        assertThat(list("vessel,lesion")).containsExactly("vessel", "lesion");
        assertThat(list(" vessel , lesion,,vessel", "lesion", "")).containsExactly("vessel", "lesion");
        assertThat(list("")).isEmpty();
    }

    private static List<String> list(String... values) {
        return Parameters.read(Map.of("by", List.of(values)), parameters -> parameters.list("by"))
                .orRefuse();
    }

    @Test
    void answersNothingForAParameterThatIsAbsentOrEmpty() {
        for (Map<String, List<String>> given :
                List.of(Map.<String, List<String>>of(), Map.of("a", List.of("")), Map.of("a", List.<String>of()))) {
            assertThat(Parameters.read(
                                    given,
                                    parameters -> List.of(
                                            parameters.one("a"),
                                            parameters.list("a"),
                                            parameters.period("a"),
                                            parameters.whole("a", 1, 9),
                                            parameters.decimal("a", 0, 1),
                                            parameters.code("a", Calcification.class),
                                            parameters.choice("a", "first", "second")))
                            .orRefuse())
                    .containsExactly(
                            Optional.empty(),
                            List.of(),
                            Optional.empty(),
                            Optional.empty(),
                            Optional.empty(),
                            Optional.empty(),
                            "first");
        }
    }

    @Test
    void refusesASecondValueWhereOneIsMeant() {
        assertThat(FieldErrors.in(Parameters.read(
                        Map.of("from", List.of("2031-Q1", "2031-Q2")), parameters -> parameters.period("from"))))
                .containsExactly("/from repeated");
    }

    @Test
    void readsCodesPeriodsAndChoices() {
        Map<String, List<String>> given = Map.of(
                "calcification", List.of("severe,mild"), "from", List.of("2031-Q4"), "method", List.of("jeffreys"));

        assertThat(Parameters.read(
                                given,
                                parameters -> List.of(
                                        parameters.codes("calcification", Calcification.class),
                                        parameters.period("from"),
                                        parameters.choice("method", "wilson", "jeffreys")))
                        .orRefuse())
                .containsExactly(
                        List.of(Calcification.SEVERE, Calcification.MILD),
                        Optional.of(new Period(2031, 4)),
                        "jeffreys");
        assertThat(Parameters.read(
                                Map.of("a", List.of("none")), parameters -> parameters.code("a", Calcification.class))
                        .orRefuse())
                .contains(Calcification.NONE);
    }

    @ParameterizedTest
    @CsvSource({
        "1, true",
        "200, true",
        "007, true",
        "0, false",
        "201, false",
        "-1, false",
        "1.0, false",
        "1e2, false",
        "+5, false",
        "999999999999999999, false",
        "9999999999999999999999, false",
        "' 5', false",
        "١, false"
    })
    void readsAWholeNumberFromItsLeastToItsMost(String text, boolean read) {
        Reading<Optional<Long>> reading =
                Parameters.read(Map.of("size", List.of(text)), parameters -> parameters.whole("size", 1, 200));

        if (reading instanceof Reading.Valid<Optional<Long>> valid) {
            assertThat(valid.value()).contains(Long.valueOf(text));
        }
        assertThat(FieldErrors.in(reading)).isEqualTo(read ? List.of() : List.of("/size out-of-range"));
    }

    @ParameterizedTest
    @CsvSource({
        "0.5, true",
        "0.9999, true",
        "0.95, true",
        "0.4999999999, false",
        "0.99991, false",
        "1, false",
        "-0.9, false",
        "9e-1, false",
        ".9, false",
        "NaN, false",
        "0.95000000000, false"
    })
    void readsADecimalNumberFromItsLeastToItsMost(String text, boolean read) {
        Reading<Optional<Double>> reading = Parameters.read(
                Map.of("confidence", List.of(text)), parameters -> parameters.decimal("confidence", 0.5, 0.9999));

        if (reading instanceof Reading.Valid<Optional<Double>> valid) {
            assertThat(valid.value()).contains(Double.valueOf(text));
        }
        assertThat(FieldErrors.in(reading)).isEqualTo(read ? List.of() : List.of("/confidence out-of-range"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"zq marker", "8675309"})
    void neverRepeatsAValue(String value) {
        Map<String, List<String>> given = Map.of(
                "a",
                List.of(value),
                "b",
                List.of(value),
                "c",
                List.of(value),
                "d",
                List.of(value),
                "e",
                List.of(value),
                "f",
                List.of(value, value),
                value,
                List.of(value));
        Reading<?> reading = Parameters.read(
                given,
                parameters -> List.of(
                        parameters.period("a"),
                        parameters.whole("b", 1, 9),
                        parameters.decimal("c", 0, 1),
                        parameters.codes("d", Calcification.class),
                        parameters.choice("e", "first", "second"),
                        parameters.one("f")));

        assertThat(FieldErrors.in(reading)).hasSize(7);
        assertThat(reading.toString()).doesNotContain(value);
    }
}
