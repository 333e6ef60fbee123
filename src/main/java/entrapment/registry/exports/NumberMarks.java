package entrapment.registry.exports;

import java.text.DecimalFormatSymbols;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The decimal mark and the grouping of thousands of a language. Reports write {@code 1,842} and {@code 3.1} whoever
 * reads them, so that the same question has the same answer; a page shows that text with the reader's marks.
 *
 * @param decimal between units and tenths
 * @param grouping between thousands
 */
public record NumberMarks(char decimal, char grouping) {

    /** A point or comma between digits, unless further digits with such marks show a version, a date or a citation. */
    private static final Pattern NUMBER =
            Pattern.compile("(?<![\\w.,/:;-])(\\d{1,3}(?:,\\d{3})+|\\d+)(\\.\\d+)?(?![\\w]|[.,/:-]\\d)");

    /** The marks of a language; those of English where it writes other digits than 0 to 9. */
    public static NumberMarks of(Locale locale) {
        DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(locale);
        return symbols.getZeroDigit() == '0'
                ? new NumberMarks(symbols.getDecimalSeparator(), symbols.getGroupingSeparator())
                : new NumberMarks('.', ',');
    }

    /** The text with these marks in its numbers, and otherwise as it was. */
    public String in(String text) {
        if (decimal == '.' && grouping == ',') {
            return text;
        }
        Matcher number = NUMBER.matcher(text);
        StringBuilder written = new StringBuilder();
        while (number.find()) {
            String fraction =
                    number.group(2) == null ? "" : decimal + number.group(2).substring(1);
            number.appendReplacement(
                    written, Matcher.quoteReplacement(number.group(1).replace(',', grouping) + fraction));
        }
        return number.appendTail(written).toString();
    }
}
