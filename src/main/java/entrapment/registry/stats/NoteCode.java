package entrapment.registry.stats;

/** The reasons an answer can give beside its figures. */
public enum NoteCode {
    /** A cell or count of a comparison is 0: a ratio is 0 or infinite, or an approximate line rests on added halves. */
    ZERO_CELL,
    /** A row or column total of a table is 0: the table says nothing about an association. */
    EMPTY_MARGIN,
    /** The denominator is 0: nothing was observed. */
    NO_EXPOSURE,
    /** Nothing happened; that bounds the true frequency, it does not make it 0. */
    NO_EVENT,
    /** The estimate lies at the edge of its range, or a value was held at the edge. */
    BOUNDARY,
    /** The figure rests on a large-sample approximation that these counts do not support. */
    APPROXIMATE,
    /** All cases behave alike, so the data do not show how much cases differ. */
    NO_VARIATION,
    /** So few cases that the measure of their differences is itself uncertain. */
    FEW_CASES,
    /** Rows were left out of a sum because they contradict themselves or lack a value. */
    LEFT_OUT
}
