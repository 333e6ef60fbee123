package entrapment.registry.cases;

import entrapment.registry.intake.FieldError;
import java.util.List;

/**
 * The result of sending many cases at once.
 *
 * @param stored whether anything was written; false for a mere check, and for a batch refused as a whole
 * @param received rows read
 * @param created new cases
 * @param changed further versions of stored cases
 * @param unchanged cases whose content was stored already
 * @param refused rows that broke a rule
 * @param refusedRows the refused rows, by line; at most {@value #MOST_LISTED}, so that memory stays bounded
 * @param queriedRows accepted rows that ask for a second look, by line; at most {@value #MOST_LISTED}
 * @param mayBeReportable accepted rows that show an {@link IncidentSign}
 * @param notes what that may mean, once; empty where there is none
 */
public record BulkOutcome(
        boolean stored,
        long received,
        long created,
        long changed,
        long unchanged,
        long refused,
        List<RefusedRow> refusedRows,
        List<QueriedRow> queriedRows,
        long mayBeReportable,
        List<String> notes) {

    /** More rows than this are counted, not listed. */
    public static final int MOST_LISTED = 10_000;

    /** A row that broke a rule, with the line it starts on, counted from 1, header included. */
    public record RefusedRow(long line, List<FieldError> errors) {}

    /** An accepted row that asks for a second look. */
    public record QueriedRow(long line, String caseKey, List<DataQuery> queries) {}
}
