package entrapment.registry.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;

/** Shapes of text that may say who a patient or a colleague is; common practice, no single source. */
public final class Identifying {

    private static final String MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*";

    /** Dates in figures and with a month's name, e-mail and web addresses, telephone and record numbers. */
    private static final Pattern SHAPES = Pattern.compile(
            String.join(
                    "|",
                    "[0-9]{6,}",
                    "(?<![0-9])[0-9]{4}[-./ ]{1,2}(?:0?[1-9]|1[0-2])[-./ ]{1,2}(?:0?[1-9]|[12][0-9]|3[01])(?![0-9])",
                    "(?<![0-9])[0-9]{1,2}[-./ ]{1,2}[0-9]{1,2}[-./ ]{1,2}(?:[0-9]{4}|[0-9]{2})(?![0-9])",
                    "(?<![0-9])[0-9]{1,2}(?:st|nd|rd|th)?(?: of)?[-., /]{0,2}" + MONTH
                            + "[-., /]{0,2}[0-9]{2,4}(?![0-9])",
                    MONTH + "[-., /]{0,2}[0-9]{1,2}(?:st|nd|rd|th)?[-., /]{1,2}[0-9]{2,4}(?![0-9])",
                    "(?<![0-9])[0-9]{4}[-., /]{0,2}" + MONTH + "[-., /]{0,2}[0-9]{1,2}(?![0-9])",
                    "(?<![0-9])[0-9]{3}-[0-9]{2}-[0-9]{4}(?![0-9])",
                    "(?<![0-9])[0-9]{2,4}\\)?[-./ ]{1,2}[0-9]{3,4}[-./ ][0-9]{3,4}(?![0-9])",
                    "\\+[0-9]{2,}",
                    "@",
                    "https?:",
                    "www\\."),
            Pattern.CASE_INSENSITIVE);

    private static final Pattern OPAQUE_KEY = Pattern.compile("[A-Za-z0-9-]{6,40}");

    private Identifying() {}

    /** Whether the text has the shape of a date, a telephone or record number, or an address. */
    public static boolean looksLike(String text) {
        return SHAPES.matcher(text).find();
    }

    /** Every text and every property's name in a body that is otherwise free, such as the names of groups to be compared. */
    public static List<FieldError> in(JsonNode body) {
        List<FieldError> found = new ArrayList<>();
        search(body, "", found);
        return found;
    }

    private static void search(JsonNode node, String pointer, List<FieldError> found) {
        if (node.isString() && looksLike(node.stringValue())) {
            found.add(new FieldError(
                    pointer,
                    "text-identifying",
                    "a text here has the shape of a date, a number or an address of somebody"));
        }
        for (int index = 0; node.isArray() && index < node.size(); index++) {
            search(node.get(index), pointer + "/" + index, found);
        }
        node.propertyStream().forEach(property -> {
            if (looksLike(property.getKey())) {
                found.add(new FieldError(
                        pointer,
                        "text-identifying",
                        "a property's name has the shape of a date, a number or an address of somebody"));
            } else {
                search(property.getValue(), pointer + "/" + Fields.escaped(property.getKey()), found);
            }
        });
    }

    /** Notes what is wrong with a centre's own opaque key, if anything. */
    public static void checkKey(Fields fields, String name, String key) {
        if (!OPAQUE_KEY.matcher(key).matches()) {
            fields.refuse(name, "key-format", name + " must be 6 to 40 characters of A-Z a-z 0-9 -");
        } else if (looksLike(key)) {
            fields.refuse(
                    name,
                    "key-identifying",
                    name + " has the shape of a date, a telephone number or a record number; use an opaque key");
        }
    }

    /** Reads a short text of one line that must not identify anybody, such as the name of a centre. */
    public static String label(Fields fields, String name, int most) {
        String text = fields.requiredText(name);
        if (text.length() > most
                || text.isBlank() != text.isEmpty()
                || text.chars().anyMatch(Character::isISOControl)) {
            fields.refuse(name, "text-format", name + " must be one line of 1 to " + most + " characters");
        } else if (looksLike(text)) {
            fields.refuse(
                    name, "text-identifying", name + " has the shape of a date, a number or an address of somebody");
        }
        return text;
    }
}
