package entrapment.registry.access.web;

import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Reading;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.springframework.util.MultiValueMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A form as the tree that the API reads, so that both are read by the same rules. */
final class Form {

    private static final Set<String> NUMBERS = Set.of("validDays", "overlapDays");

    private Form() {}

    /** The named fields; what was left empty is absent, and a number that is none stays the text that it is. */
    static JsonNode of(MultiValueMap<String, String> sent, String... names) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        for (String name : names) {
            String text = sent.getOrDefault(name, List.of("")).get(0).strip();
            if (NUMBERS.contains(name) && text.matches("[0-9]{1,9}")) {
                object.put(name, Long.parseLong(text));
            } else if (!text.isEmpty()) {
                object.put(name, text);
            }
        }
        return object;
    }

    /** All that is wrong, a list that can be added to. */
    static List<FieldError> errors(Reading<?> reading) {
        return reading instanceof Reading.Refused<?> refused ? new ArrayList<>(refused.errors()) : new ArrayList<>();
    }
}
