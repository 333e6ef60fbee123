package entrapment.registry.reports.question;

import java.util.ArrayList;
import java.util.List;

/** Notes that several reports have. */
public enum CommonNote implements Note.Wording {
    NOTHING_MATCHES("Nothing in the registry matches these filters."),
    UNKNOWN_LEFT_OUT("left out as unknown, %s in %s."),
    FEWER_THAN_TWO_LEVELS("fewer than two levels in use, so there is nothing to compare."),
    CONTRADICTION("left out, because %s in %s contradict each other."),
    CELLS_LEFT_OUT("%s of centre, period and device class left out, because cases have no return or outnumber the"
            + " uses: %s and %s not counted here."),
    LEVELS_CONTRADICT("In %s of centre, period, device class and level the cases outnumber the uses reported at that"
            + " level: a case and its return may have been coded differently, so read this split"
            + " with care.");

    private final String template;

    CommonNote(String template) {
        this.template = template;
    }

    @Override
    public String template() {
        return template;
    }

    /** What was left out, and where the levels of cases and uses do not agree. */
    public static List<Note> exclusions(Counting counting) {
        List<Note> notes = new ArrayList<>();
        Counting.Excluded excluded = counting.excluded();
        if (excluded.cells() > 0) {
            notes.add(Note.of(
                    CELLS_LEFT_OUT,
                    Words.counted(excluded.cells(), "cell"),
                    Words.entrapments(excluded.events()),
                    Words.uses(excluded.uses())));
        }
        if (counting.contradictions() > 0) {
            notes.add(Note.of(LEVELS_CONTRADICT, Words.counted(counting.contradictions(), "place")));
        }
        return notes;
    }
}
