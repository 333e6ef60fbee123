package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Is there enough to go by for a model of this size? The rule of ten is a habit rather than a law [1]; below two a model of
 * several terms is refused here.
 *
 * <p>[1] Peduzzi P et al., J Clin Epidemiol 1996;49:1373; van Smeden M et al., BMC Med Res Methodol 2016;16:163,
 * doi:10.1186/s12874-016-0267-3.
 *
 * @param value min(events, non-events) per column, the intercept not counted; {@code null} without a term
 * @param refused whether the model has several terms and fewer than two events for each column
 */
record EventsPerParameter(@Nullable Double value, boolean refused) {

    private static final double ENOUGH = 10;
    private static final double EXPLORATORY = 5;
    private static final double TOO_FEW = 2;

    static EventsPerParameter of(DesignMatrix design) {
        int slopes = design.parameters() - 1;
        if (slopes == 0) {
            return new EventsPerParameter(null, false);
        }
        double value = (double) Math.min(design.events(), design.of() - design.events()) / slopes;
        return new EventsPerParameter(value, value < TOO_FEW && design.terms().size() > 1);
    }

    List<Note> notes() {
        List<Note> notes = new ArrayList<>();
        if (refused) {
            notes.add(new Note(
                    NoteCode.TOO_FEW_EVENTS,
                    "Too few events for a model with several factors: read each factor's own table, or stratify."));
        } else if (value != null && value < EXPLORATORY) {
            notes.add(new Note(
                    NoteCode.LOW_EPV,
                    "Fewer than " + (int) EXPLORATORY
                            + " events per parameter: exploratory, the intervals are wide, and"
                            + " variables must not be selected."));
        } else if (value != null && value < ENOUGH) {
            notes.add(new Note(
                    NoteCode.LOW_EPV,
                    "Fewer than " + (int) ENOUGH + " events per parameter: read the penalised (Firth) estimates."));
        }
        return notes;
    }
}
