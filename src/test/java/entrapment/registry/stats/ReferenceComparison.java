package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * Holds an answer against an expected JSON tree: every expected field must be there with an equal value; the answer may
 * have more fields. Infinite numbers equal "Inf" and "-Inf".
 */
final class ReferenceComparison {

    private final double absolute;
    private final double relative;
    private final List<String> differences = new ArrayList<>();

    private ReferenceComparison(double absolute, double relative) {
        this.absolute = absolute;
        this.relative = relative;
    }

    /** One line for each difference, with its path; empty if the answer passes. */
    static List<String> differences(JsonNode expected, Object answer, double absolute, double relative) {
        ReferenceComparison comparison = new ReferenceComparison(absolute, relative);
        comparison.compare("", expected, ReferenceValues.JSON.valueToTree(answer));
        return comparison.differences;
    }

    private void compare(String path, JsonNode expected, JsonNode answer) {
        if (expected.isObject()) {
            expected.properties()
                    .forEach(field ->
                            compare(path + "/" + field.getKey(), field.getValue(), answer.path(field.getKey())));
        } else if (expected.isArray()) {
            require(path + " length", expected.size() == answer.size(), expected.size(), answer.size());
            for (int i = 0; i < expected.size(); i++) {
                compare(path + "/" + i, expected.get(i), answer.path(i));
            }
        } else {
            require(path, equal(expected, answer), expected, answer);
        }
    }

    private boolean equal(JsonNode expected, JsonNode answer) {
        if (expected.isNumber()) {
            double value = expected.doubleValue();
            return answer.isNumber() && Math.abs(answer.doubleValue() - value) <= absolute + relative * Math.abs(value);
        }
        if (answer.isNumber() && Double.isInfinite(answer.doubleValue())) {
            return expected.isString() && expected.stringValue().equals(answer.doubleValue() > 0 ? "Inf" : "-Inf");
        }
        return expected.equals(answer);
    }

    private void require(String path, boolean holds, Object expected, Object answer) {
        if (!holds) {
            differences.add(path + ": expected " + expected + ", got " + answer);
        }
    }
}
