package entrapment.registry.meetings.web;

import entrapment.registry.cases.IfMatch;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.util.MultiValueMap;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The forms of a meeting's page as the bodies that the API reads, so that both are refused by the same rules. */
record MeetingForm(MultiValueMap<String, String> given) {

    private static final JsonMapper JSON = JsonMapper.shared();

    private static final List<String> FIELDS = List.of(
            "what",
            "owner",
            "dueOn",
            "status",
            "report",
            "least",
            "measured",
            "beforeFrom",
            "beforeTo",
            "afterFrom",
            "afterTo",
            "factorType",
            "statement",
            "wentWell",
            "learningPoints");

    /** What was typed, to be shown again: each field has a value, and each statement a type, whoever sent it. */
    Map<String, List<String>> typed() {
        Map<String, List<String>> typed = new LinkedHashMap<>();
        FIELDS.forEach(name -> typed.put(name, given.getOrDefault(name, List.of(""))));
        List<String> types = new ArrayList<>(given.getOrDefault("factorType", List.of()));
        while (types.size() < given.getOrDefault("statement", List.of("")).size()) {
            types.add("");
        }
        typed.put("factorType", types);
        return typed;
    }

    /** The version that a form was filled in for; empty for what is new. */
    IfMatch version() {
        String version = text("version");
        return IfMatch.of(version.matches("[1-9][0-9]{0,8}") ? "\"" + version + "\"" : null);
    }

    /** A field that was left empty was not given. */
    private String text(String name) {
        String value = given.getFirst(name);
        return value == null ? "" : value.strip();
    }

    private void put(ObjectNode body, String name, String field) {
        if (!text(field).isEmpty()) {
            body.put(name, text(field));
        }
    }

    /** What a meeting is about; of the three ways to choose cases only the chosen one's own field counts. */
    ObjectNode plan() {
        ObjectNode body = JSON.createObjectNode();
        for (String name : List.of("centre", "kind", "from", "to")) {
            put(body, name, name);
        }
        ObjectNode cases = body.putObject("cases");
        put(cases, "rule", "rule");
        switch (text("rule")) {
            case "kind" -> put(cases, "deviceClass", "deviceClass");
            case "harm-at-least" -> put(cases, "harm", "harm");
            case "random-sample" -> number(cases, "size");
            default -> cases.without("deviceClass");
        }
        return body;
    }

    private void number(ObjectNode body, String name) {
        String digits = text(name);
        if (digits.matches("[0-9]{1,9}")) {
            body.put(name, Integer.parseInt(digits));
        } else {
            put(body, name, name);
        }
    }

    /** What is said of a case: rows of type and statement, and lines of text. */
    ObjectNode review() {
        ObjectNode body = JSON.createObjectNode();
        ArrayNode factors = body.putArray("contributingFactors");
        List<String> types = given.getOrDefault("factorType", List.of());
        List<String> statements = given.getOrDefault("statement", List.of());
        for (int index = 0; index < statements.size(); index++) {
            if (!statements.get(index).isBlank()) {
                ObjectNode factor = factors.addObject();
                String type = index < types.size() ? types.get(index) : "";
                if (!type.isEmpty()) {
                    factor.put("type", type);
                }
                factor.put("statement", statements.get(index).strip());
            }
        }
        lines(body.putArray("learningPoints"), "learningPoints");
        lines(body.putArray("wentWell"), "wentWell");
        return body;
    }

    private void lines(ArrayNode remarks, String name) {
        text(name).lines().map(String::strip).filter(line -> !line.isEmpty()).forEach(line -> remarks.addObject()
                .put("text", line));
    }

    ObjectNode rating() {
        ObjectNode body = JSON.createObjectNode();
        put(body, "rating", "rating");
        return body;
    }

    /** What was agreed, with the measure that will show whether it helped. */
    ObjectNode action() {
        ObjectNode body = JSON.createObjectNode();
        for (String name : List.of("what", "owner", "dueOn", "status")) {
            put(body, name, name);
        }
        ObjectNode measure = body.putObject("measure");
        put(measure, "report", "report");
        if (text("report").equals("harm")) {
            put(measure, "harm", "least");
        }
        if (!text("measured").isEmpty()) {
            measure.putObject("filters").putArray("deviceClass").add(text("measured"));
        }
        periods(measure, "before");
        periods(measure, "after");
        return body;
    }

    private void periods(ObjectNode measure, String name) {
        if (!text(name + "From").isEmpty() || !text(name + "To").isEmpty()) {
            ObjectNode periods = measure.putObject(name);
            put(periods, "from", name + "From");
            put(periods, "to", name + "To");
        }
    }
}
