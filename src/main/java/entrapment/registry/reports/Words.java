package entrapment.registry.reports;

import entrapment.registry.exports.NumberText;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Phrases that several reports share, so that the same thing is said alike. */
final class Words {

    private static final Pattern CODE_OF_NOTE = Pattern.compile(" \\([A-Z][A-Z_]+\\)$");

    /** What a note is about: the name of a field, or that and one of its levels. */
    private static final Pattern ABOUT = Pattern.compile("^([a-zA-Z-]+)(?: ([^ :]+))?: ");

    private Words() {}

    static String entrapments(long count) {
        return count == 1 ? "1 entrapment" : NumberText.count(count) + " entrapments";
    }

    static String uses(long count) {
        return count == 1 ? "1 use" : NumberText.count(count) + " uses";
    }

    static String cases(long count) {
        return count == 1 ? "1 case" : NumberText.count(count) + " cases";
    }

    /** {@code 3 of 1,041}. */
    static String of(long events, long of) {
        return NumberText.count(events) + " of " + NumberText.count(of);
    }

    /** With a small first letter, for the middle of a sentence; abbreviations keep theirs. */
    static String small(String text) {
        return text.length() > 1 && Character.isUpperCase(text.charAt(1))
                ? text
                : text.substring(0, 1).toLowerCase(Locale.ROOT) + text.substring(1);
    }

    /** A note of a report as people read it: without the code of the kernel's note, and what it is about by its name. */
    static String read(String note) {
        String text = CODE_OF_NOTE.matcher(note).replaceFirst("");
        Matcher about = ABOUT.matcher(text);
        if (!about.find()) {
            return sentence(text);
        }
        String field = Labels.field(about.group(1));
        String rest = text.substring(about.end() - 2);
        if (about.group(2) == null) {
            return sentence(field + rest);
        }
        String level = small(Labels.level(about.group(1), about.group(2)));
        return sentence(level.equals(small(field)) ? field + rest : field + " " + level + rest);
    }

    /** With a capital at its beginning. */
    static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /** The levels that make a group, by the name of what it was split by; further levels are left. */
    static Map<String, String> level(List<String> by, List<String> levels) {
        Map<String, String> level = new LinkedHashMap<>();
        for (int index = 0; index < by.size(); index++) {
            level.put(by.get(index), levels.get(index));
        }
        return level;
    }

    /** A proportion per 1,000, for the columns of a table. */
    static @Nullable Double thousandfold(@Nullable Double proportion) {
        return proportion == null ? null : proportion * 1000;
    }

    /** What was left out, and where the levels of cases and uses do not agree. */
    static List<String> exclusions(Counting counting) {
        List<String> notes = new ArrayList<>();
        Counting.Excluded excluded = counting.excluded();
        if (excluded.cells() > 0) {
            notes.add(("%s of centre, period and device class left out, because cases have no return or outnumber the"
                            + " uses: %s and %s not counted here.")
                    .formatted(
                            excluded.cells() == 1 ? "1 cell" : NumberText.count(excluded.cells()) + " cells",
                            entrapments(excluded.events()),
                            uses(excluded.uses())));
        }
        if (counting.contradictions() > 0) {
            notes.add(("In %s of centre, period, device class and level the cases outnumber the uses reported at that"
                            + " level: a case and its return may have been coded differently, so read this split"
                            + " with care.")
                    .formatted(
                            counting.contradictions() == 1
                                    ? "1 place"
                                    : NumberText.count(counting.contradictions()) + " places"));
        }
        return notes;
    }
}
