package entrapment.registry.stats;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How often was a field not recorded? "Unknown" and "not done" are answers; only "not recorded" is missing.
 *
 * @param fields one for each field, in the order given
 * @param completeCases records without a missing field
 * @param completeProportion their share; {@code null} without records
 * @param completeWilson its interval
 * @param notes why a figure is missing
 */
public record MissingnessAnalysis(
        List<Field> fields,
        long completeCases,
        @Nullable Double completeProportion,
        Interval completeWilson,
        List<Note> notes) {

    /**
     * A field's missing values as counted.
     *
     * @param name of the field
     * @param missing records in which it was not recorded
     */
    public record Missing(String name, long missing) {}

    /**
     * A field's share of missing values.
     *
     * @param name of the field
     * @param missing records in which it was not recorded
     * @param proportion their share; {@code null} without records
     * @param wilson its interval
     */
    public record Field(String name, long missing, @Nullable Double proportion, Interval wilson) {

        private static Field of(Missing field, long records, Confidence confidence) {
            Proportion missing = new Proportion(field.missing(), records);
            return new Field(
                    field.name(),
                    field.missing(),
                    missing.estimate(),
                    missing.interval(IntervalMethod.WILSON, confidence));
        }
    }

    /**
     * Missing values per field, and records without any.
     *
     * <p>Wilson's interval [1] says how such records go missing, should the same habits go on; it does not say what the
     * missing values would have been.
     *
     * <p>Edges: no records: every share {@code null}, note {@code NO_EXPOSURE}.
     *
     * <p><b>Same as</b> R {@code colSums(is.na(x))}, {@code sum(complete.cases(x))}. Accuracy: as
     * {@link Proportion#interval}.
     *
     * <p>[1] Wilson EB, J Am Stat Assoc 1927;22:209.
     *
     * @param completeCases at most the records less the largest number missing, at least the records less all missing
     * @throws IllegalArgumentException if a count is out of its range
     */
    public static MissingnessAnalysis of(
            long records, List<Missing> missing, long completeCases, Confidence confidence) {
        Counts.require("records", records);
        missing.forEach(field -> Counts.require("missing", field.missing(), 0, records));
        long most = missing.stream().mapToLong(Missing::missing).max().orElse(0);
        long sum = missing.stream().mapToLong(Missing::missing).sum();
        Counts.require("completeCases", completeCases, Math.max(0, records - sum), records - most);
        Proportion complete = new Proportion(completeCases, records);
        return new MissingnessAnalysis(
                missing.stream()
                        .map(field -> Field.of(field, records, confidence))
                        .toList(),
                completeCases,
                complete.estimate(),
                complete.interval(IntervalMethod.WILSON, confidence),
                records == 0
                        ? List.of(new Note(NoteCode.NO_EXPOSURE, "There are no records, so nothing can be missing."))
                        : List.of());
    }
}
