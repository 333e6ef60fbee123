package entrapment.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ProblemTests {

    @ParameterizedTest
    @EnumSource(Problem.class)
    void saysWhatItIsAndWhatTheCallerCanDo(Problem problem) {
        assertThat(problem.slug()).matches("[a-z]+(-[a-z]+)*");
        assertThat(problem.status()).isBetween(400, 599);
        assertThat(problem.title()).matches("[A-Z].*[^.]");
        assertThat(problem.remedy()).matches("[A-Z].*\\.");
    }

    @Test
    void hasOneStatusForEachKind() {
        assertThat(Stream.of(Problem.values()).map(Problem::status)).doesNotHaveDuplicates();
        assertThat(Problem.REFUSED.status()).isEqualTo(422);
        assertThat(Problem.UNREADABLE_BODY.status()).isEqualTo(400);
        assertThat(Problem.MATCH_REQUIRED.slug()).isEqualTo("match-required");
    }

    @Test
    void countsTheErrorsItRefusesFor() {
        FieldError error = new FieldError("/a", "missing", "a is required");

        assertThat(Problem.refused(List.of(error))).hasMessage("1 field was refused.");
        assertThat(Problem.refused(List.of(error, error)))
                .hasMessage("2 fields were refused.")
                .returns(List.of(error, error), Refusal::errors)
                .returns(Problem.REFUSED, Refusal::problem);
    }
}
