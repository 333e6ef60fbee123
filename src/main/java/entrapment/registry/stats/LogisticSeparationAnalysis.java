package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.exception.ConvergenceException;
import org.jspecify.annotations.Nullable;

/**
 * Has a logistic model a finite maximum-likelihood estimate, and if not, which coefficients run away? Asked before every
 * fit: large standard errors are no answer to it.
 *
 * @param separation {@code null} only if the search did not end, note {@code NOT_CONVERGED}
 * @param coefficients by column, in the order of the design; empty if {@code separation} is {@code null}
 * @param notes what separation means for the reader, and levels that were dropped
 */
public record LogisticSeparationAnalysis(
        @Nullable Separation separation, Map<String, Direction> coefficients, List<Note> notes) {

    /**
     * Looks for directions in which the likelihood never falls.
     *
     * <p>The cone of all β with xᵢᵀβ ≥ 0 where every trial has the event, ≤ 0 where none has, = 0 elsewhere [1, 2]. If it
     * holds 0 alone: {@code none}. If no row is elsewhere and one β is strict for all rows: {@code complete}. Otherwise
     * {@code quasi-complete}. A coefficient is infinite if it is positive, or negative, somewhere in the cone and never
     * the opposite.
     *
     * <p>Edges: no event at all, or nothing but events, is {@code complete} separation by the intercept.
     *
     * <p><b>Same as</b> R {@code detectseparation::detect_separation} in what is infinite; that does not tell complete from
     * quasi-complete. Accuracy: a margin counts from 1e-8 of the spread of the terms.
     *
     * <p>[1] Albert A, Anderson JA, Biometrika 1984;71:1. [2] Konis K, DPhil thesis, Oxford 2007.
     */
    public static LogisticSeparationAnalysis of(DesignMatrix design) {
        List<Note> notes = new ArrayList<>(design.notes());
        try {
            RecessionCone cone = RecessionCone.of(design);
            int strict = cone.strictRows();
            Separation separation = strict == 0
                    ? Separation.NONE
                    : strict == design.patterns().size() ? Separation.COMPLETE : Separation.QUASI_COMPLETE;
            Map<String, Direction> directions = new LinkedHashMap<>();
            for (int j = 0; j < design.parameters(); j++) {
                double[] contrast = design.contrast(j);
                directions.put(
                        design.columnNames().get(j),
                        strict == 0
                                ? Direction.FINITE
                                : Direction.of(cone.canGrow(contrast), cone.canGrow(ThinQr.times(contrast, -1))));
            }
            if (separation != Separation.NONE) {
                notes.add(note(directions));
            }
            return new LogisticSeparationAnalysis(
                    separation, Collections.unmodifiableMap(directions), List.copyOf(notes));
        } catch (ConvergenceException e) {
            notes.add(new Note(
                    NoteCode.NOT_CONVERGED,
                    "It could not be decided whether the model has a finite estimate, so none is given."));
            return new LogisticSeparationAnalysis(null, Map.of(), List.copyOf(notes));
        }
    }

    private static Note note(Map<String, Direction> directions) {
        List<String> infinite = directions.entrySet().stream()
                .filter(entry -> entry.getValue() != Direction.FINITE)
                .map(Map.Entry::getKey)
                .toList();
        return new Note(
                NoteCode.SEPARATION,
                "Maximum likelihood has no finite estimate for " + String.join(", ", infinite)
                        + ": read Firth's penalised likelihood.");
    }
}
