package entrapment.registry.vocabulary.web;

import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Answers the code lists, every field in its order of display. */
@RestController
class VocabularyController {

    @GetMapping(path = "/api/vocabulary", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, List<Code.Coding>> vocabulary() {
        Map<String, List<Code.Coding>> views = new LinkedHashMap<>();
        Field.coded()
                .forEach(field -> views.put(
                        field.code(), field.codes().stream().map(Code::coding).toList()));
        return views;
    }
}
