package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;

/** What the reader of a figure made from several centres must be told. */
final class CentreNotes {

    private CentreNotes() {}

    /** Why a model with differing centres has no answer at all. */
    static Note notEstimable(int centres, long events, long of) {
        if (of == 0) {
            return new Note(NoteCode.NO_EXPOSURE, "No centre has any use, so nothing can be estimated.");
        }
        if (events == 0) {
            return new Note(NoteCode.NO_EVENT, "No centre has an event, so how much they differ cannot be estimated.");
        }
        return centres < 2
                ? new Note(NoteCode.FEW_CENTRES, "Only one centre has any use, so there is nothing to combine.")
                : new Note(
                        NoteCode.BOUNDARY,
                        "Every observation had the event, so how much centres differ cannot be estimated.");
    }

    /** That there are fewer centres or events than the method needs. */
    static List<Note> few(List<Proportion> used, int fewestCentres, long fewestEvents) {
        List<Note> notes = new ArrayList<>();
        if (used.size() < fewestCentres) {
            notes.add(new Note(
                    NoteCode.FEW_CENTRES,
                    "Fewer than " + fewestCentres
                            + " centres: how much centres differ is hardly known; read the centres themselves."));
        }
        long events = used.stream().mapToLong(Proportion::events).sum();
        if (events < fewestEvents) {
            notes.add(new Note(
                    NoteCode.TOO_FEW_EVENTS,
                    "Fewer than " + fewestEvents + " events in all: read the counts, not the model."));
        }
        return notes;
    }
}
