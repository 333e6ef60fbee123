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
    LEFT_OUT,
    /** Only one stratum carries information: nothing was combined. */
    ONE_STRATUM,
    /** The strata or groups may differ in what is summarised: read them one by one. */
    HETEROGENEITY,
    /** A combination of factors foretells the event without exception: some coefficients have no finite estimate. */
    SEPARATION,
    /** Few events for the number of parameters: wide intervals, and no selection of variables. */
    LOW_EPV,
    /** Too few events for the question: no answer is given. */
    TOO_FEW_EVENTS,
    /** An iteration did not reach its end, so nothing is given from it. */
    NOT_CONVERGED,
    /** A level of a factor has no trials and was dropped. */
    EMPTY_LEVEL,
    /** The number is too large to be written; the unit of a term is too small or too large. */
    OUT_OF_RANGE,
    /** Fewer centres than the method needs to say anything useful. */
    FEW_CENTRES,
    /** The method can see a change in one direction only. */
    ONE_SIDED,
    /** Unknown outcomes outnumber the events, so what they hide matters more than chance. */
    MISSING_OUTCOMES,
    /** The answer lies beyond any count a registry could hold. */
    OUT_OF_REACH,
    /** Printed figures contradict each other. */
    INCONSISTENT,
    /** Hidden counts can be recovered from what is printed. */
    DISCLOSED
}
