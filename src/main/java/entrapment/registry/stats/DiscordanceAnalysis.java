package entrapment.registry.stats;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Which rows of a return can be counted, and why not the others?
 *
 * @param rows in the order given, with their status
 * @param usableEvents sum of the numerators of usable rows
 * @param usableDenominator sum of the denominators of usable rows
 * @param leftOut number of rows that are not usable; to be shown beside every rate made from the sums
 * @param notes that rows were left out, if they were
 */
public record DiscordanceAnalysis(
        List<CheckedRow> rows, long usableEvents, long usableDenominator, int leftOut, List<Note> notes) {

    /** Sums of rows this size cannot overflow. */
    private static final long LARGEST_ROWS = 1_000_000;

    /**
     * A numerator and a denominator as somebody returned them; either may be missing or impossible, which is what is to
     * be found out.
     *
     * @param name as the caller wrote it
     * @param numerator events, {@code null} if missing
     * @param of denominator, {@code null} if missing
     */
    public record Row(
            String name, @Nullable Long numerator, @Nullable Long of) {}

    /**
     * A row's finding.
     *
     * @param name of the row
     * @param status the first that applies
     * @param usable whether it enters the sums
     */
    public record CheckedRow(String name, Status status, boolean usable) {}

    /** The findings, in the order in which they are looked for. */
    public enum Status {
        BOTH_MISSING,
        DENOMINATOR_MISSING,
        NUMERATOR_MISSING,
        NEGATIVE,
        NUMERATOR_EXCEEDS_DENOMINATOR,
        NO_EXPOSURE,
        OK;

        /** The words of an answer. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }

        private static Status of(Row row) {
            Long x = row.numerator();
            Long n = row.of();
            if (x == null || n == null) {
                return x != null ? DENOMINATOR_MISSING : n != null ? NUMERATOR_MISSING : BOTH_MISSING;
            }
            if (x < 0 || n < 0) {
                return NEGATIVE;
            }
            return x > n ? NUMERATOR_EXCEEDS_DENOMINATOR : n == 0 ? NO_EXPOSURE : OK;
        }
    }

    /**
     * Checks each row and adds up those that hold together. Nothing is clipped or guessed: an event count above its
     * denominator is left out with its denominator.
     *
     * <p>Edges: a positive numerator over 0 is {@code numerator exceeds denominator}; 0 over 0 is {@code no exposure}.
     * Exact in whole numbers. Common practice, no single source.
     *
     * @throws IllegalArgumentException if a count is above 2³¹−1, or there are more than a million rows
     */
    public static DiscordanceAnalysis of(List<Row> rows) {
        Counts.require("number of rows", rows.size(), 0, LARGEST_ROWS);
        rows.forEach(DiscordanceAnalysis::refuseTooLarge);
        List<Row> usable =
                rows.stream().filter(row -> Status.of(row) == Status.OK).toList();
        int leftOut = rows.size() - usable.size();
        return new DiscordanceAnalysis(
                rows.stream()
                        .map(row -> new CheckedRow(row.name(), Status.of(row), Status.of(row) == Status.OK))
                        .toList(),
                usable.stream().mapToLong(row -> orZero(row.numerator())).sum(),
                usable.stream().mapToLong(row -> orZero(row.of())).sum(),
                leftOut,
                leftOut == 0
                        ? List.of()
                        : List.of(
                                new Note(
                                        NoteCode.LEFT_OUT,
                                        leftOut + " of " + rows.size()
                                                + " rows left out: a count is missing, contradictory or there was no exposure.")));
    }

    private static void refuseTooLarge(Row row) {
        Counts.require("numerator", orZero(row.numerator()), Long.MIN_VALUE, Counts.LARGEST);
        Counts.require("of", orZero(row.of()), Long.MIN_VALUE, Counts.LARGEST);
    }

    private static long orZero(@Nullable Long count) {
        return count == null ? 0 : count;
    }
}
