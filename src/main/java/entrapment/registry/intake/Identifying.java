package entrapment.registry.intake;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;

/**
 * Shapes of text that may say who a patient or a colleague is; common practice, no single source. Figures of any script
 * and look-alike separators count as the plain ones.
 */
public final class Identifying {

    private static final String MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}";

    /** What may stand in a Medicare beneficiary identifier for a letter: none that looks like a figure. */
    private static final String LETTER = "[ac-hjkmnp-rt-y]";

    /** Dates in figures and with a month's name, e-mail and web addresses, short telephone numbers, insurance numbers. */
    private static final Pattern SHAPES = Pattern.compile(
            String.join(
                    "|",
                    "(?<![0-9])[0-9]{4}[-./ ]{1,2}(?:0?[1-9]|1[0-2])[-./ ]{1,2}(?:0?[1-9]|[12][0-9]|3[01])(?![0-9])",
                    "(?<![0-9])[0-9]{1,2}[-./ ]{1,2}[0-9]{1,2}[-./ ]{1,2}(?:[0-9]{4}|[0-9]{2})(?![0-9])",
                    "(?<![0-9])[0-9]{1,2}(?:st|nd|rd|th)?(?: of)?[-., /]{0,2}" + MONTH
                            + "[-., /]{0,2}[0-9]{2,4}(?![0-9])",
                    MONTH + "[-., /]{0,2}[0-9]{1,2}(?:st|nd|rd|th)?[-., /]{1,2}[0-9]{2,4}(?![0-9])",
                    "(?<![0-9])[0-9]{4}[-., /]{0,2}" + MONTH + "[-., /]{0,2}[0-9]{1,2}(?![0-9])",
                    "\\+[0-9]{2,}",
                    "@",
                    "[(\\[{] ?at ?[)\\]}]",
                    "[a-z]://",
                    "https?:",
                    "www\\.",
                    "(?<![a-z0-9-])[a-z0-9-]++\\.(?:com|org|net|edu|gov|mil|info|eu|uk|de|fr|es|nl|ch|ca|au|jp)(?![a-z0-9])",
                    "(?<![0-9])(?:[0-9]{1,3}\\.){3}[0-9]{1,3}(?![0-9])",
                    // CMS, Understanding the Medicare Beneficiary Identifier format [from memory].
                    "(?<![a-z0-9])[1-9]" + LETTER + "(?:" + LETTER + "|[0-9])[0-9]-?" + LETTER + "(?:" + LETTER
                            + "|[0-9])[0-9]-?" + LETTER + "{2}[0-9]{2}(?![a-z0-9])"),
            Pattern.CASE_INSENSITIVE);

    private static final String SIX = "[0-9](?:[^\\p{L}0-9,;(]{0,3}[0-9]){5,40}+";

    /**
     * Six figures and more with no letter between them: record, telephone, insurance and card numbers are written in groups
     * as often as in one piece. Two groups with a letter before and behind are random text (d081-884c), and single figures
     * with commas a list.
     */
    private static final Pattern NUMBER = Pattern.compile(String.join(
            "|",
            "[0-9]{6}",
            "(?<![\\p{L}0-9])" + SIX,
            SIX + "(?![\\p{L}0-9])",
            "(?=" + SIX + ")(?:[0-9]+[^\\p{L}0-9,;(]{1,3}){2}[0-9]",
            "(?<![0-9])[0-9]{2,5}(?:[,;][0-9]{2,5}){2,9}(?![0-9])"));

    /** A working year such as 2026-2027 or 2026/27, standing alone. */
    private static final Pattern YEARS =
            Pattern.compile("(?<![0-9][^\\p{L}]{0,3})20[0-9]{2} ?[-/] ?(?:20)?[0-9]{2}(?![^\\p{L}]{0,3}[0-9])");

    private static final Pattern OPAQUE_KEY = Pattern.compile("[A-Za-z0-9-]{6,40}");

    private Identifying() {}

    /** Whether the text has the shape of a date, a telephone, record or insurance number, or an address. */
    public static boolean looksLike(String text) {
        String plain = plain(text);
        return SHAPES.matcher(plain).find()
                || NUMBER.matcher(YEARS.matcher(plain).replaceAll("years")).find();
    }

    /** The text with every figure, dash, dot, stroke and space as ASCII has it, and without what nobody would see. */
    private static String plain(String text) {
        StringBuilder plain = new StringBuilder();
        Normalizer.normalize(text, Normalizer.Form.NFKC).codePoints().forEach(character -> {
            switch (Character.getType(character)) {
                case Character.DECIMAL_DIGIT_NUMBER -> plain.append(Character.digit(character, 10));
                case Character.DASH_PUNCTUATION -> plain.append('-');
                case Character.SPACE_SEPARATOR -> plain.append(' ');
                case Character.FORMAT, Character.NON_SPACING_MARK, Character.ENCLOSING_MARK -> {}
                default -> plain.append(separator(character));
            }
        });
        return plain.toString();
    }

    private static String separator(int character) {
        return switch (character) {
            case '\u2212', '\u02D7', '\u2043', '\u30FC', '\u2500' -> "-";
            case '\u00B7', '\u2022', '\u2027', '\u2219', '\u22C5', '\u30FB', '\u3002', '\u066B' -> ".";
            case '\u2044', '\u2215', '\u29F8', '\u2571' -> "/";
            default -> Character.toString(character);
        };
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
        checkKey(fields::refuse, name, key);
    }

    /** The same of a key that cases are looked for by. */
    public static void checkKey(Parameters parameters, String name, String key) {
        checkKey(parameters::refuse, name, key);
    }

    private interface Errors {
        void refuse(String name, String code, String detail);
    }

    private static void checkKey(Errors errors, String name, String key) {
        if (!OPAQUE_KEY.matcher(key).matches()) {
            errors.refuse(name, "key-format", name + " must be 6 to 40 characters of A-Z a-z 0-9 -");
        } else if (looksLike(key)) {
            errors.refuse(
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
                || text.chars().anyMatch(Identifying::breaksTheLine)) {
            fields.refuse(name, "text-format", name + " must be one line of 1 to " + most + " characters");
        } else if (looksLike(text)) {
            fields.refuse(
                    name, "text-identifying", name + " has the shape of a date, a number or an address of somebody");
        }
        return text;
    }

    private static boolean breaksTheLine(int character) {
        return Character.isISOControl(character)
                || Character.getType(character) == Character.LINE_SEPARATOR
                || Character.getType(character) == Character.PARAGRAPH_SEPARATOR;
    }
}
