package entrapment.registry.vocabulary.web;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Harm;
import java.io.UnsupportedEncodingException;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class VocabularyApiTests {

    private final MockMvcTester mvc = MockMvcTester.of(new VocabularyController());

    @Test
    void answersEveryFieldInOrder() throws UnsupportedEncodingException {
        assertThat(List.copyOf(answer().propertyNames()))
                .isEqualTo(Field.coded().stream().map(Field::code).toList());
    }

    @Test
    void explainsEachCodeByLabelDefinitionAndSource() throws UnsupportedEncodingException {
        JsonNode harms = answer().get("harm");

        List<List<String>> shown = harms.valueStream()
                .map(harm -> harm.propertyStream()
                        .map(property ->
                                property.getKey() + "=" + property.getValue().stringValue())
                        .toList())
                .toList();
        assertThat(shown)
                .isEqualTo(Stream.of(Harm.values())
                        .map(harm -> List.of(
                                "code=" + harm.code(),
                                "label=" + harm.label(),
                                "definition=" + harm.definition(),
                                "source=" + harm.source()))
                        .toList());
    }

    private JsonNode answer() throws UnsupportedEncodingException {
        var result = mvc.get().uri("/api/vocabulary").exchange();
        assertThat(result).hasStatusOk().hasContentType("application/json");
        return JsonMapper.shared().readTree(result.getResponse().getContentAsString());
    }
}
