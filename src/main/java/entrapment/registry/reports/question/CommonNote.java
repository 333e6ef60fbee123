package entrapment.registry.reports.question;

import java.util.ArrayList;
import java.util.List;

/** Notes that several reports have. */
public final class CommonNote {

    public static final Note.Wording NOTHING_MATCHES =
            Note.Wording.of("nothing-matches", "Nothing in the registry matches these filters.");
    public static final Note.Wording UNKNOWN_LEFT_OUT =
            Note.Wording.of("unknown-left-out", "left out as unknown, %s in %s.");
    public static final Note.Wording FEWER_THAN_TWO_LEVELS =
            Note.Wording.of("fewer-than-two-levels", "fewer than two levels in use, so there is nothing to compare.");
    public static final Note.Wording CONTRADICTION =
            Note.Wording.of("contradiction", "left out, because %s in %s contradict each other.");
    public static final Note.Wording CELLS_LEFT_OUT = Note.Wording.of(
            "cells-left-out",
            "%s of centre, period and device class left out, because cases have no return or outnumber the"
                    + " uses: %s and %s not counted here.");
    public static final Note.Wording LEVELS_CONTRADICT = Note.Wording.of(
            "levels-contradict",
            "In %s of centre, period, device class and level the cases outnumber the uses reported at that"
                    + " level: a case and its return may have been coded differently, so read this split"
                    + " with care.");

    private CommonNote() {}

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
