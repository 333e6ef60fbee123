package entrapment.registry.vocabulary.web;

import entrapment.registry.vocabulary.Vocabulary;
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
    Map<String, List<CodeView>> vocabulary() {
        Map<String, List<CodeView>> views = new LinkedHashMap<>();
        Vocabulary.fields()
                .forEach((field, codes) ->
                        views.put(field, codes.stream().map(CodeView::of).toList()));
        return views;
    }
}
