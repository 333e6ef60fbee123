package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;

/** What came of fitting a model in which centres differ. */
sealed interface CentreFit {

    /**
     * The maximum was found.
     *
     * @param location of the centres: a proportion or a logit, as the model says
     * @param spread between them; 0 if the maximum lies at that boundary
     * @param standardError of the location; infinite if the model does not give one
     * @param lr likelihood-ratio statistic against centres that do not differ
     */
    record Converged(double location, double spread, double standardError, double lr) implements CentreFit {

        boolean boundary() {
            return spread == 0;
        }

        /** ½P(χ²₁ &gt; LR); 1 at the boundary, where half of all samples of like centres lie. */
        double halfPValue() {
            return boundary() ? 1 : Math.max(Double.MIN_NORMAL, ChiSquaredTest.upperTail(lr, 1) / 2);
        }
    }

    /**
     * There is no maximum within reach, so there is nothing to show.
     *
     * @param why one plain sentence
     */
    record NotConverged(String why) implements CentreFit {}

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
