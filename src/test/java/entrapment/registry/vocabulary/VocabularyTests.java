package entrapment.registry.vocabulary;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class VocabularyTests {

    @Test
    void listsTheFieldsAndCodesOfTheContractInItsOrder() throws IOException {
        String listed = Field.coded().stream()
                .map(field -> field.code() + ": " + String.join(" ", each(field.codes(), Code::code)))
                .collect(joining("\n", "", "\n"));

        assertThat(listed).isEqualTo(contract());
    }

    @ParameterizedTest
    @MethodSource("fields")
    void spellsEachCodeInPlainCharactersAndOnce(String field, List<? extends Code> codes) {
        assertThat(each(codes, Code::code))
                .as(field)
                .allSatisfy(code -> assertThat(code).matches("[a-zA-Z0-9-]+"))
                .doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @MethodSource("fields")
    void labelsEachCodeInOneLineAndUnlikeItsNeighbours(String field, List<? extends Code> codes) {
        assertThat(each(codes, Code::label))
                .as(field)
                .allSatisfy(label -> assertThat(label).matches("\\S(.*\\S)?"))
                .doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @MethodSource("fields")
    void definesEachCodeInOneLineThatEndsWithAFullStop(String field, List<? extends Code> codes) {
        assertThat(each(codes, Code::definition)).as(field).allSatisfy(definition -> assertThat(definition)
                .matches("[A-Z0-9].*[^ .]\\."));
    }

    @ParameterizedTest
    @MethodSource("fields")
    void definesNoTwoCodesOfAFieldAlike(String field, List<? extends Code> codes) {
        assertThat(each(codes, Code::definition)).as(field).doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @MethodSource("fields")
    void namesASourceForEachCode(String field, List<? extends Code> codes) {
        assertThat(each(codes, Code::source)).as(field).allSatisfy(source -> assertThat(source)
                .matches("\\S(.*\\S)?"));
    }

    @ParameterizedTest
    @MethodSource("fields")
    void putsUnknownLast(String field, List<? extends Code> codes) {
        assertThat(each(codes.subList(0, codes.size() - 1), Code::code))
                .as(field)
                .doesNotContain("unknown");
    }

    static Stream<Object[]> fields() {
        return Field.coded().stream().map(field -> new Object[] {field.code(), field.codes()});
    }

    private static List<String> each(List<? extends Code> codes, Function<Code, String> property) {
        return codes.stream().<String>map(property).toList();
    }

    /** The code table of the interface, one line a field, its ranges written out. */
    private static String contract() throws IOException {
        try (InputStream lines = VocabularyTests.class.getResourceAsStream("/expected/vocabulary-codes.txt")) {
            return new String(lines.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
